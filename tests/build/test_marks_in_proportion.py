"""A part comes to no more marks than its policy lets it, unless its author says so (6 a part: common practice, no source)."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.policy import policies

BANK = Path(__file__).parents[1] / "families" / "corrosion" / "bank"
SAID = "    marks: 7\n"


def composed(folder):
    """The block that protects a structure, as a draw is composed."""
    bank = load_bank(folder)
    composer = Composer(bank.template("mass-of-block"), bank, catalogue(bank.folder))
    return composer.question(composer.variant(1, practice_seed(1)))


def test_a_long_part_needs_its_marks_said(tmp_path):
    folder = shutil.copytree(BANK, tmp_path / "bank")
    template = folder / "mass-of-block.yaml"
    text = template.read_text(encoding="utf-8")
    assert SAID in text
    template.write_text(text.replace(SAID, ""), encoding="utf-8")
    with pytest.raises(Faulty) as caught:
        composed(folder)
    (fault,) = caught.value.faults
    assert (fault.code, fault.key, fault.found) == ("too-many-marks", "parts[1]", "7 marks for m_block")
    assert "write `marks: 7`" in fault.hint


def test_marks_that_are_said_stay():
    assert [part.marks for part in composed(BANK).parts] == [7]


def test_every_policy_says_the_most():
    assert {name: each.most for name, each in policies().items()} == {
        "steps": 6,
        "numbered-points": 6,
        "skill-points": 8,
        "three-lines": 12,
        "second-error": 6,
    }
