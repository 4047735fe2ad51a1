"""Options in the author's own words: the value stands before the colon, what the student reads after it."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from saltbridge.answers import judge, merge
from saltbridge.bank.bank import load_bank
from saltbridge.build import publish
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.deliver.proof.proof_run import prove
from saltbridge.faults import Faulty
from saltbridge.forms.strict_yaml import read_yaml
from saltbridge.home import shipped
from saltbridge.render.text import spans_text

BANK = "format: 1\nid: quay\ntitle: Quay\nlicence: CC-BY-4.0\n"
TEMPLATE = """\
title: The bridge is lifted out
outcome: T2.3
level: core
scenario:
  galvanic cell: {metals: [Zn, Fe, Ni, Cu, Ag]}
text: |
  A cell of {{ left.metal }} and {{ right.metal }} lights a small lamp.
parts:
  - ask: The bridge is lifted out. What happens?
    choose: without_bridge
    from:
      zero: The lamp goes dark, since no charge can pass.
      unchanged: The lamp shines as before.
  - ask: At which electrode are electrons set free?
    choose: anode
    from: {left: The one on the left., right: "The one on the right, of {{ right.metal }}."}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "bank.yaml").write_text(BANK, encoding="utf-8")
    (tmp_path / "lamp.yaml").write_text(TEMPLATE, encoding="utf-8")
    return tmp_path


def parts_of(folder):
    bank = load_bank(folder)
    made = Composer(bank.template("lamp"), bank, catalogue())
    for number in range(1, 13):
        variant = made.variant(number, f"{number}")
        question = made.question(variant)
        for place, part in enumerate(question.parts):
            key = merge(part.judge, variant.judge[place], question.graph, variant.given)
            yield (
                key,
                [spans_text(option, variant.slots) for option in part.field.options],
                spans_text(part.answer, variant.slots),
            )


def test_the_student_reads_the_wording_and_the_key_holds_the_value(folder):
    answers = set()
    for key, options, answer in parts_of(folder):
        assert judge(key, key["right"]).verdict == "right"
        assert options[key["right"][0]] == answer
        answers.add((key["node"], key["values"][key["right"][0]], answer.split(",")[0]))
    assert ("without_bridge", "zero", "The lamp goes dark") in answers
    assert ("anode", "left", "The one on the left.") in answers
    assert ("anode", "right", "The one on the right") in answers


def test_an_unknown_value_is_answered_with_all_that_there_are(folder):
    (folder / "lamp.yaml").write_text(TEMPLATE.replace("unchanged:", "the same:"), encoding="utf-8")
    with pytest.raises(Faulty) as trouble:
        list(parts_of(folder))
    (fault,) = trouble.value.faults
    assert (fault.file, fault.key, fault.found) == ("lamp.yaml", "parts[1].from", "the same")
    assert fault.expected == "values that without_bridge can have: unchanged, zero"


def test_one_wording_alone_is_refused(folder):
    (folder / "lamp.yaml").write_text(TEMPLATE.replace("      unchanged: The lamp shines as before.\n", ""), encoding="utf-8")
    with pytest.raises(Faulty) as trouble:
        load_bank(folder)
    assert [each.expected for each in trouble.value.faults] == ["2 to 200 entries"]


def test_schema_page_and_proof_know_it(folder, tmp_path):
    schema = json.loads((shipped("data") / "template.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft7Validator(schema).validate(read_yaml(folder / "lamp.yaml", "lamp.yaml").plain())
    publish(folder, tmp_path / "out", variants=3)
    assert "The lamp goes dark, since no charge can pass." in (tmp_path / "out" / "site" / "lamp.html").read_text(
        encoding="utf-8"
    )
    proof = prove(folder, 20)
    assert [found for each in proof.templates for found in each.findings if found.weight == "fault"] == []
