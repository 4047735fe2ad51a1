"""Whole numbers are asked, printed and keyed as whole numbers; a measured one says which whole number is meant."""

from __future__ import annotations

import pytest
from snapshot.taking import banks

from saltbridge.bank.parts import FindPart
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.misfits import misfits
from saltbridge.draw.seeds import practice_seed
from saltbridge.graph.laws import Situation
from saltbridge.render.text import question_text
from saltbridge.scenarios.energy.energy import add_figures

NEAREST = "Give the nearest whole number."


def keys_and_text(name, template):
    bank = banks()[name]
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    variant = composer.variant(1, practice_seed(1))
    question = composer.question(variant)
    keys = {part.judge["node"]: part.judge for part in question.parts if part.judge["kind"] == "number"}
    return keys, question_text(question, variant)


@pytest.mark.parametrize(
    ("name", "template", "node", "measured"),
    [
        ("electrolysis", "charge-number", "z", True),
        ("concentration", "electrons-from-line", "n_line", True),
        ("galvanic", "cells-in-a-row", "k_cells", False),
        ("redox", "oxidation-number", "ox", False),
        ("redox", "coefficients", "coeff_sum", False),
    ],
)
def test_a_whole_number_is_keyed_whole_and_a_measured_one_says_so(name, template, node, measured):
    keys, text = keys_and_text(name, template)

    assert keys[node]["whole"] is True
    assert (NEAREST in text) is measured


def test_any_other_number_is_not_keyed_whole():
    keys, text = keys_and_text("shipped", "mass-deposited")

    assert all("whole" not in key for key in keys.values())
    assert NEAREST not in text


def test_figures_asked_of_a_whole_number_are_refused_with_the_cure():
    bank = banks()["electrolysis"]
    template = bank.template("charge-number")
    asked = tuple(part.model_copy(update={"decimals": 1}) if isinstance(part, FindPart) else part for part in template.parts)

    (found,) = misfits(template.model_copy(update={"parts": asked}), catalogue(bank.folder))

    assert str(found).endswith(
        "parts[1].decimals: expected no decimals: z is a whole number; found 1. Leave out `decimals`; the question then asks "
        "for the nearest whole number. [whole-number]"
    )


@pytest.mark.parametrize(
    ("upper", "lower", "expected"),
    [
        ("0.340", "-0.762", "0.001"),  # half a thousandth each
        ("0.7996", "-0.762", "0.00055"),  # the one with fewer decimals weighs most
        ("0.34", "-0.76", "0.01"),
    ],
)
def test_the_uncertainties_of_both_potentials_add_up(upper, lower, expected):
    """Source: worst case of a difference, J. R. Taylor, An Introduction to Error Analysis, section 3.3 (from memory)."""
    situation = Situation()
    add_figures(situation, catalogue(), upper, lower)

    assert situation.given["u_E"].printed == expected
