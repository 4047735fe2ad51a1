"""Every line of a working follows from the line above it as printed, in every variant of every bank."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from snapshot.taking import SEEDS, banks, places
from workings.printed_lines import Printed, is_rounded, printed, unlike_lines

from saltbridge.bank.parts import FindPart
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.document import Inscription, Piece
from saltbridge.draw.seeds import practice_seed
from saltbridge.graph.laws import quantity_of

TEMPLATES = places()


def composed(name, template, *, units=False, count=SEEDS):
    bank = banks()[name]
    bank = replace(bank, settings=replace(bank.settings, units_in_lines=units))
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    for number in range(1, count + 1):
        variant = composer.variant(number, practice_seed(number))
        yield composer.question(variant), variant


@pytest.mark.parametrize(("name", "template"), TEMPLATES, ids=lambda each: each)
def test_lines_follow_too_where_units_are_kept_in_them(name, template):
    for question, variant in composed(name, template, units=True, count=3):
        for part in question.parts:
            for step in (step for step in part.working if not step.marked_wrong):
                assert unlike_lines(step, variant.slots)[0] == []


@pytest.mark.parametrize(("name", "template"), TEMPLATES, ids=lambda each: each)
def test_each_line_worked_from_its_printed_numbers_gives_the_digits_of_the_next(name, template):
    unlike, looked = [], 0
    for question, variant in composed(name, template):
        for part in question.parts:
            for step in (step for step in part.working if not step.marked_wrong):
                found, count = unlike_lines(step, variant.slots)
                unlike += [f"variant {variant.number} ({part.label}): {each}" for each in found]
                looked += count

    assert unlike == []
    bank = banks()[name]
    asked = [part.find for part in bank.template(template).parts if isinstance(part, FindPart)]
    entries = [quantity_of(node, catalogue(bank.folder).quantities) for node in asked]
    assert looked or not any(entry is not None and not entry.whole for entry in entries)  # what is counted has no line to work


@pytest.mark.parametrize(
    ("pieces", "expected"),
    [
        ([("base", "+0.34\u202fV")], Printed(Decimal("0.34"), -2, "V")),
        ([("base", "("), ("base", "−0.76\u202fV"), ("base", ")")], Printed(Decimal("-0.76"), -2, "V")),
        ([("base", "1.45\u202f×\u202f10"), ("sup", "37")], Printed(Decimal("1.45E+37"), 35, "")),
        ([("base", "0.015\u202f855\u202fmol")], Printed(Decimal("0.015855"), -6, "mol")),
        ([("base", "1920\u202fC")], Printed(Decimal(1920), 1, "C")),
    ],
    ids=lambda each: str(each)[:24],
)
def test_the_reader_takes_digits_place_and_unit_from_the_page(pieces, expected):
    assert printed(Inscription("quantity", tuple(Piece(*each) for each in pieces), "")) == expected


def test_the_reader_refuses_a_digit_that_does_not_follow():
    assert is_rounded(0.0158496, Printed(Decimal("0.0158"), -4, "mol"))
    assert not is_rounded(0.0119 * 2, Printed(Decimal("0.0239"), -4, "mol"))  # printed so before every line followed
