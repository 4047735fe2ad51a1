"""A bank that is begun is whole: it proves clean, publishes, and its editor completes it wherever it lies."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from jsonschema import Draft7Validator

from saltbridge.build import publish
from saltbridge.cli import main
from saltbridge.deliver.new_bank import EDITOR_SETTINGS, FIRST, editor_again, new_bank
from saltbridge.deliver.proof.proof_run import prove
from saltbridge.faults import Faulty
from saltbridge.home import shipped


@pytest.fixture(scope="module")
def begun(tmp_path_factory):
    return new_bank(tmp_path_factory.mktemp("begun") / "harbour bank").folder


def _files(folder):
    return sorted(path for path in folder.rglob("*.yaml") if not path.parent.name.startswith("."))


def _validator(schema):
    return Draft7Validator(json.loads(schema.read_text(encoding="utf-8")))


def test_it_proves_without_a_fault_or_a_warning(begun):
    proof = prove(begun, 200)
    assert [each.id for each in proof.bank.templates] == sorted(Path(name).stem for name in FIRST)
    assert [str(each.fault) for each in (*proof.weighing("fault"), *proof.weighing("warning"))] == []


def test_it_publishes_pages_and_papers(begun, tmp_path):
    done = publish(begun, tmp_path / "out", variants=3)
    assert (done.pages, done.papers, done.warnings) == (9, 8, ())
    assert "harbour bank" in (done.site / "index.html").read_text(encoding="utf-8")


def test_each_file_names_its_schema_and_keeps_it(begun):
    for path in _files(begun):
        lead, _, way = path.read_text(encoding="utf-8").splitlines()[0].partition("=")
        assert lead == "# yaml-language-server: $schema"
        schema = (path.parent / way).resolve()
        assert schema.parent == begun.resolve()
        assert schema.name == ("bank.schema.json" if path.name == "bank.yaml" else "template.schema.json")
        assert [*_validator(schema).iter_errors(yaml.safe_load(path.read_text(encoding="utf-8")))] == []


def test_its_schema_marks_a_wrong_key(begun):
    """A validator that lets all pass would keep the test above green."""
    template = yaml.safe_load((begun / FIRST[0]).read_text(encoding="utf-8")) | {"levl": "core"}
    assert [*_validator(begun / "template.schema.json").iter_errors(template)]


def test_the_editors_settings_lead_from_each_file_to_its_schema(begun):
    told = json.loads((begun / EDITOR_SETTINGS).read_text(encoding="utf-8"))["yaml.schemas"]
    for schema, patterns in told.items():
        held = {path for pattern in ([patterns] if isinstance(patterns, str) else patterns) for path in begun.glob(pattern)}
        wanted = [path for path in _files(begun) if (path.name == "bank.yaml") == ("bank" in schema)]
        assert sorted(held) == wanted
        assert (begun / schema).is_file()


def test_each_of_its_questions_is_explained_by_comments(begun):
    for path in _files(begun):
        assert re.search(r"^# \w", path.read_text(encoding="utf-8"), re.MULTILINE), path


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("My bank 11B", ("my-bank-11b", "My bank 11B")),
        ("Übung 9", ("ubung-9", "Übung 9")),
        ("2026", ("2026", "2026")),
        ("__", ("bank", "Our bank")),
        ("a: b", ("a-b", "A b")),
        ("x" * 90, ("x" * 40, "x" * 90)),
    ],
)
def test_it_is_called_after_its_folder(name, told, tmp_path):
    folder = new_bank(tmp_path / name).folder
    settings = yaml.safe_load((folder / "bank.yaml").read_text(encoding="utf-8"))
    assert (str(settings["id"]), str(settings["title"])) == told
    assert prove(folder, 1).weighing("fault") == ()


# ------------------------------------------------------------------ what is refused


@pytest.mark.parametrize("kind", ["a file in it", "a hidden file in it", "a bank", "a file", "a link", "in a bank"])
def test_what_stands_there_is_never_touched(kind, tmp_path):
    folder = tmp_path / "bank"
    said = {"a file": "is a file", "a link": "is a link", "in a bank": "is a bank"}.get(kind, "holds")
    if kind == "a file":
        folder.write_text("mine", encoding="utf-8")
    elif kind == "a link":
        (tmp_path / "other").mkdir()
        folder.symlink_to(tmp_path / "other")
    elif kind == "a bank":
        new_bank(folder)
    elif kind == "in a bank":
        folder = new_bank(folder).folder / "cells"
        shutil.rmtree(folder)
    else:
        folder.mkdir()
        (folder / (".mine" if "hidden" in kind else "mine.txt")).write_text("mine", encoding="utf-8")
    before = {path: path.is_file() and path.read_bytes() for path in tmp_path.rglob("*")}
    with pytest.raises(Faulty) as error:
        new_bank(folder)
    assert len(error.value.faults) == 1
    assert said in str(error.value)
    assert {path: path.is_file() and path.read_bytes() for path in tmp_path.rglob("*")} == before


def test_the_command_says_what_to_do_next(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(main, ["start", "my bank"])
    assert done.exit_code == 0
    assert done.output.splitlines()[1:] == [
        "Go on with",
        '  saltbridge preview "my bank"',
        '  saltbridge proof "my bank"',
        '  saltbridge publish "my bank" --to out',
    ]
    again = CliRunner().invoke(main, ["start", "my bank"])
    assert (again.exit_code, "It is a bank already" in again.output) == (1, True)


# ------------------------------------------------------------------ the editor again


OWN_KIND = """
worn ring:
  is: A ring that goes into solution at a steady current.
  families: [Faraday's laws]
  draws:
    metals: {one of: metals, as: product, under: metal, needed: true, means: Metals of the ring.}
    current: {quantity: I, needed: true, means: The current.}
    time: {quantity: t, means: How long it flows.}
  things: {product: dissolving metal}
  examples:
    - {metals: [Zn, Fe], current: 0.50 A, time: 20 min}
"""


def test_the_editor_learns_of_a_banks_own_kinds_and_keeps_your_settings(tmp_path):
    folder = new_bank(tmp_path / "ours").folder
    (folder / "scenarios.yaml").write_text(OWN_KIND, encoding="utf-8")
    (folder / EDITOR_SETTINGS).write_text('{"mine": 1}', encoding="utf-8")
    (folder / "template.schema.json").write_text("{}", encoding="utf-8")
    assert editor_again(folder).files == ("bank.schema.json", "template.schema.json")
    template = {
        **yaml.safe_load((folder / FIRST[0]).read_text(encoding="utf-8")),
        "scenario": {"worn ring": {"metals": ["Zn"], "current": "0.50 A"}},
    }
    assert [*_validator(folder / "template.schema.json").iter_errors(template)] == []
    assert [*_validator(shipped("data") / "template.schema.json").iter_errors(template)]
    assert (folder / EDITOR_SETTINGS).read_text(encoding="utf-8") == '{"mine": 1}'


def test_faults_of_the_banks_own_kinds_are_told_and_nothing_is_written(tmp_path):
    folder = new_bank(tmp_path / "ours").folder
    (folder / "scenarios.yaml").write_text(OWN_KIND.replace("families:", "famlies:"), encoding="utf-8")
    before = (folder / "template.schema.json").read_bytes()
    with pytest.raises(Faulty, match=r"scenarios\.yaml"):
        editor_again(folder)
    assert (folder / "template.schema.json").read_bytes() == before


def test_nothing_is_written_through_a_link_that_a_bank_brings(tmp_path):
    folder = new_bank(tmp_path / "theirs").folder
    shutil.rmtree(folder / ".vscode")
    (tmp_path / "mine").mkdir()
    (folder / ".vscode").symlink_to(tmp_path / "mine")
    with pytest.raises(Faulty, match="is a link"):
        editor_again(folder)
    assert [*(tmp_path / "mine").iterdir()] == []
