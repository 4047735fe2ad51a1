"""Which template asks which form of question, and which outcomes the shipped bank covers."""

from __future__ import annotations

import csv
from collections import Counter
from pathlib import Path

import pytest
from shipped import BANK, IDS

from saltbridge.forms import registries as known

with (Path(__file__).parent / "forms.csv").open(encoding="utf-8", newline="") as file:
    FORMS = list(csv.DictReader(file))

FORMS_ASKED = 145
OUTCOMES_COVERED = 66
"""Floors, not aims: raised with the bank, never lowered."""


def test_every_form_stands_once_and_has_an_outcome():
    assert [each["form"] for each in FORMS] == [f"Q{number:03}" for number in range(1, len(FORMS) + 1)]
    assert {each["outcome"] for each in FORMS} <= set(known.outcomes())


@pytest.mark.parametrize("form", [each for each in FORMS if each["templates"]], ids=lambda form: form["form"])
def test_the_templates_of_a_form_exist_and_belong_to_its_outcome(form):
    templates = form["templates"].split()
    assert set(templates) <= set(IDS)
    assert form["outcome"] in {BANK.template(each).outcome for each in templates}


def test_forms_and_outcomes_that_are_covered():
    """Practice and exam questions count alike; the grid is printed for who looks."""
    levels = ("introductory", "core", "advanced", "first-year")
    grid = Counter((template.outcome, template.level) for template in BANK.templates)
    for outcome in known.outcomes():
        print(outcome.ljust(6), *(str(grid[outcome, level] or "·").rjust(4) for level in levels))
    assert sum(1 for each in FORMS if each["templates"]) >= FORMS_ASKED
    assert len({outcome for outcome, _ in grid}) >= OUTCOMES_COVERED


def test_exam_templates_stand_in_their_own_folder_and_are_for_nothing_else():
    exams = {template.id for template in BANK.templates if template.file.startswith("exams/")}
    assert exams
    assert {template.id for template in BANK.templates if "exam" in template.use} == exams
    assert all(BANK.template(each).use == ("exam",) for each in exams)
