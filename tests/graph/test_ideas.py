"""Ideas: beliefs without a node, their true counterparts, a bank's own, and the part that asks for the true statement."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from saltbridge.answers import judge, merge
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.forms.registries import outcomes
from saltbridge.render.text import spans_text

SHIPPED = Path(__file__).parents[1] / "families" / "corrosion" / "bank"
OWN = """
paint-is-a-metal:
  statement: Paint protects iron because paint is a metal.
  counterpart: Paint protects iron because it keeps air and water away.
  hint: What passes through a layer of paint, and what does not?
  source: our own lessons
  outcome: T8.2
"""


def test_the_shipped_ideas_are_two_dozen_with_known_outcomes():
    ideas = catalogue().ideas
    assert len(ideas) == 24
    assert {each.outcome for each in ideas.values()} <= set(outcomes())
    sentences = [text for each in ideas.values() for text in (each.statement, each.counterpart)]
    assert len(set(sentences)) == len(sentences)


def bank_with(tmp_path: Path, ideas: str, which: str) -> Path:
    """A bank of one template that asks for a true statement."""
    shutil.copy(SHIPPED / "bank.yaml", tmp_path / "bank.yaml")
    text = (SHIPPED / "true-of-rust.yaml").read_text(encoding="utf-8")
    head = text[: text.index("    which:")]
    (tmp_path / "true-of-rust.yaml").write_text(f"{head}    which: {which}\n", encoding="utf-8")
    (tmp_path / "ideas.yaml").write_text(ideas, encoding="utf-8")
    return tmp_path


def test_a_bank_adds_ideas_of_its_own(tmp_path):
    """Drawn beside a shipped one; every wrong statement is told as its idea, with its hint."""
    folder = bank_with(tmp_path, OWN, "[paint-is-a-metal, rust-needs-one-thing]")
    bank = load_bank(folder)
    made = Composer(bank.template("true-of-rust"), bank, catalogue(folder))
    asked = set()
    for number in range(1, 13):
        variant = made.variant(number, practice_seed(number))
        part = made.question(variant).parts[0]
        key = merge(part.judge, variant.judge[0])
        assert judge(key, key["right"]).verdict == "right"
        assert len(key["slips"]) == len(part.field.options) - 1 == 2
        for option, names in key["slips"].items():
            verdict = judge(key, [int(option)])
            assert (verdict.verdict, list(verdict.slips)) == ("slip", names)
            assert key["hints"][names[0]]
        right = spans_text(part.answer, variant.slots)
        asked.add(right)
        options = [spans_text(option, variant.slots) for option in part.field.options]
        assert options[key["right"][0]] == right
        assert len(set(options)) == len(options)
    assert asked == {
        "Paint protects iron because it keeps air and water away.",
        "Iron rusts only where both oxygen and water reach it.",
    }


def test_an_unknown_idea_is_told_with_the_nearest(tmp_path):
    folder = bank_with(tmp_path, OWN, "[rust-needs-one-things]")
    bank = load_bank(folder)
    with pytest.raises(Faulty) as raised:
        Composer(bank.template("true-of-rust"), bank, catalogue(folder)).variant(1, practice_seed(1))
    (fault,) = raised.value.faults
    assert (fault.code, fault.key) == ("unknown-idea", "parts[1].which[1]")
    assert "rust-needs-one-thing" in fault.hint


@pytest.mark.parametrize(
    ("before", "after", "code"),
    [
        ("  hint:", "  hnt:", "unknown-key"),
        ("  source: our own lessons\n", "", "missing-key"),
        ("is a metal.", "is a metal", "sentence"),
        ("T8.2", "rust", "outcome"),
        ("it keeps air and water away.", "{it} keeps air and water away.", "sentence"),
        (
            "Paint protects iron because it keeps air and water away.",
            "Paint protects iron because paint is a metal.",
            "same-text",
        ),
        ("Paint protects iron because paint is a metal.", "Iron rusts in water alone, or in air alone.", "same-text"),
        ("paint-is-a-metal:", "Paint_Metal:", "identifier"),
    ],
)
def test_a_bad_idea_is_told_with_its_file(tmp_path, before, after, code):
    folder = bank_with(tmp_path, OWN.replace(before, after), "[rust-needs-one-thing]")
    with pytest.raises(Faulty) as raised:
        catalogue(folder)
    assert code in {each.code for each in raised.value.faults}
    assert {each.file for each in raised.value.faults} == {"ideas.yaml"}
    assert all(each.line for each in raised.value.faults)
