"""The worked templates, from ten lines to a linked set: each proves clean, keeps the schema and stays as light as it says."""

from __future__ import annotations

import json

import pytest
import yaml
from jsonschema import Draft7Validator

from saltbridge.deliver.new_bank import FIRST, WORKED
from saltbridge.deliver.proof.proof_run import prove
from saltbridge.home import shipped

BANK = shipped("data") / WORKED
FILES = sorted(path.relative_to(BANK).as_posix() for path in BANK.rglob("*.yaml") if path.name != "bank.yaml")


@pytest.fixture(scope="module")
def proof():
    return prove(BANK, 200)


def test_there_are_at_least_ten():
    assert len(FILES) >= 10
    assert set(FIRST) <= set(FILES)


@pytest.mark.parametrize("file", FILES)
def test_it_proves_without_a_fault_or_a_warning(proof, file):
    (proved,) = [each for each in proof.templates if each.template.file == file]
    assert [str(each.fault) for each in proved.findings if each.weight != "note"] == []
    assert proved.tally.draws == 200


def test_the_bank_around_them_has_no_finding_of_its_own(proof):
    assert [str(each.fault) for each in proof.findings if each.weight != "note"] == []


@pytest.mark.parametrize("file", FILES)
def test_it_keeps_the_schema(file):
    schema = Draft7Validator(json.loads((shipped("data") / "template.schema.json").read_text(encoding="utf-8")))
    assert [*schema.iter_errors(yaml.safe_load((BANK / file).read_text(encoding="utf-8")))] == []


@pytest.mark.parametrize("file", FILES)
def test_it_says_at_its_head_what_it_shows(file):
    modeline, about, *_ = (BANK / file).read_text(encoding="utf-8").splitlines()
    assert modeline == "# yaml-language-server: $schema=../../template.schema.json"
    assert about.startswith("# ")
    assert about.endswith(".")


def test_the_smallest_has_ten_lines_or_hardly_more():
    """Without its two comments."""
    lines = (BANK / FIRST[0]).read_text(encoding="utf-8").splitlines()
    assert len([line for line in lines if not line.startswith("#")]) <= 10
