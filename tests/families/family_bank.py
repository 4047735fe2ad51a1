"""Draws of the families' small banks, composed once, and the tests that every bank must pass.

``right_answers("bench")`` makes a test of each template of that bank; a test file gives it a name of its own.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from saltbridge.answers import judge, merge
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.render.text import question_text, spans_text

SEEDS = 6
Check = Callable[[str, str], None]


@cache
def bank(family):
    """The small bank of a family."""
    return load_bank(Path(__file__).parent / family / "bank")


def ids(family):
    """The ids of the templates of a family's bank."""
    return [template.id for template in bank(family).templates]


@cache
def samples(family, template):
    """Six draws of a template: drawn values, question and variant of each."""
    made = Composer(bank(family).template(template), bank(family), catalogue())
    found = []
    for number in range(1, SEEDS + 1):
        variant = made.variant(number, practice_seed(number))
        found.append((made.drawer.draw(practice_seed(number)), made.question(variant), variant))
    return found


def keys(question, variant):
    """Each part with its key as the page merges it; of a table each blank cell with the key of the cell."""
    found = []
    for place, part in enumerate(question.parts):
        key = merge(part.judge, variant.judge[place], question.graph, variant.given)
        found += zip(part.field.blanks, key["cells"], strict=True) if key["kind"] == "table" else [(part, key)]
    return found


def right_of(part, key, slots):
    """The right answer as a student gives it: typed as it is printed, or chosen by place."""
    return spans_text(part.answer, slots) if key["kind"] in {"number", "word"} else key["right"]


def given_values(drawn):
    """Every given value of a draw by its node, words left out."""
    return {name: each.value for name, each in drawn.situation.given.items() if isinstance(each.value, float)}


def _each_template(check: Check, families: tuple[str, ...], *, only_must_catch: bool = False):
    """``check`` for every template; named by the template alone where the bank is one."""
    places = [
        pytest.param(family, template, id=template if len(families) == 1 else f"{family}-{template}")
        for family in families
        for template in ids(family)
        if not only_must_catch or bank(family).template(template).must_reveal
    ]
    assert places, families
    return pytest.mark.parametrize(("family", "template"), places)(check)


def right_answers(*families):
    """A test that the right answer of each part is judged right."""

    def check(family, template):
        """Numbers as printed, choices, orders and equations as keyed."""
        for _, question, variant in samples(family, template):
            for part, key in keys(question, variant):
                if key["kind"] == "written":
                    assert judge(key, {"text": "", "ticked": list(range(len(key["points"])))}).marks == part.marks
                    continue
                right = right_of(part, key, variant.slots)
                assert judge(key, right).verdict == "right", (variant.number, part.label, right)

    return _each_template(check, families)


def slips_told(*families):
    """A test that each slip is told and never right."""

    def check(family, template):
        """Numbers by value, outside the accepted range; choices and orders by place; what is typed by what was written."""
        for drawn, question, variant in samples(family, template):
            for part, key in keys(question, variant):
                place = (variant.number, part.label)
                if key["kind"] == "written":
                    continue
                if key["kind"] == "number":
                    _number_slips_told(key, drawn.outcomes[key["node"]].slips, place)
                else:
                    _other_slips_told(key, place)

    return _each_template(check, families)


def _number_slips_told(key, slips, place):
    for slip in slips:
        verdict = judge(key, f"{slip.printed} {key['unit']}".strip())
        assert verdict.verdict == "slip", (place, slip.point.slip.id, slip.printed)
        assert {slip.point.slip.id, *slip.same} & set(verdict.slips), (place, slip.point.slip.id)
        assert not Decimal(key["lo"]) <= slip.printed < Decimal(key["hi"]), (place, slip.point.slip.id)


def _other_slips_told(key, place):
    for wrong, slips in key["slips"].items():
        if key["kind"] == "word":
            verdict = judge(key, key["words"][int(wrong)][0])
            assert set(slips) <= set(verdict.slips), (place, wrong)
        elif key["kind"] in {"choice", "order"}:
            chosen = [int(each) for each in wrong.split(",")]
            assert chosen != list(key["right"]), (place, wrong)
            verdict = judge(key, chosen)
            assert verdict.slips == tuple(slips), (place, wrong)
        else:
            verdict = judge(key, wrong)
            assert set(slips) <= set(verdict.slips), (place, wrong)
        assert verdict.verdict == "slip", (place, wrong)


def must_be_caught(*families):
    """A test that what a template says it must reveal is caught in every draw."""

    def check(family, template):
        """By the value of a number, the place of a choice or the text of an equation."""
        for drawn, question, variant in samples(family, template):
            caught = {
                name for each in drawn.outcomes.values() for slip in each.slips for name in (slip.point.slip.id, *slip.same)
            }
            for _, key in keys(question, variant):
                if "slips" in key and key["kind"] != "number":
                    caught |= {name for slips in key["slips"].values() for name in slips}
            assert set(bank(family).template(template).must_reveal) <= caught

    return _each_template(check, families, only_must_catch=True)


def prints_whole(*families):
    """A test that a question is printed without holes."""

    def check(family, template):
        """No brace of a hole and no undefined value is left in the text."""
        for _, question, variant in samples(family, template):
            text = question_text(question, variant)
            assert "{" not in text
            assert "undefined" not in text.lower()

    return _each_template(check, families)
