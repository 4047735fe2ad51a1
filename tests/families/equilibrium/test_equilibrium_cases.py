"""Outside cases of concentration, energy and equilibrium: textbooks, NBS and CRC tables, chempy and PHREEQC."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
import yaml

from saltbridge.api import work
from saltbridge.check.factors import from_coherent, to_coherent
from saltbridge.check.resolve import resolve

CHECKS = Path(__file__).parents[2] / "checks"
FILES = [
    yaml.safe_load((CHECKS / name).read_text(encoding="utf-8")) for name in ("concentration_cases.yaml", "equilibrium_cases.yaml")
]
NUMBERS = [case for file in FILES for case in file["numbers"]]
WORDS = [case for file in FILES for case in file.get("words", [])]
ROOM_TEMPERATURE = 298.15
EXACT = ["R = 8.31446261815324 J/(mol K)", "F = 96485.33212331001 C/mol"]  # by the SI of 2019, CODATA 2022


def room(case):
    """How far a value may lie from the print."""
    if "room" in case:
        return case["room"]
    if "within" in case:
        return case["within"] * abs(float(case["printed"]))
    return float(Decimal(1).scaleb(int(Decimal(case["printed"]).as_tuple().exponent))) / 2 * 1.0001


@pytest.mark.parametrize("case", NUMBERS, ids=lambda case: case["id"])
def test_a_number_is_that_of_its_source(case):
    """Within the print, or within the room that a difference between sources explains."""
    value = work(None, [*case["know"], *EXACT], case["find"], case["unit"] or None)["value"]
    assert value == pytest.approx(float(case["printed"]), abs=room(case), rel=0)


PLAIN = [case for case in NUMBERS if not any(told.startswith("couple") for told in case["know"])]


@pytest.mark.parametrize("case", PLAIN, ids=lambda case: case["id"])
def test_plain_formulas_give_the_same_number(case):
    """The route of check/, which shares nothing with the derivation."""
    known = {"T": ROOM_TEMPERATURE}
    for line in case["know"]:
        name, _, quantity = line.partition(" = ")
        number, _, unit = quantity.partition(" ")
        known[name] = float(number) + 273.15 if unit == "°C" else to_coherent(float(number), unit)
    found = resolve(case["find"], known)
    assert found is not None
    assert from_coherent(found, case["unit"]) == pytest.approx(float(case["printed"]), abs=room(case), rel=0)


@pytest.mark.parametrize("case", WORDS, ids=lambda case: case["id"])
def test_a_word_is_that_of_its_source(case):
    assert work(None, case["know"], case["find"])["text"] == case["word"]


def test_every_case_names_its_source_once():
    cases = [*NUMBERS, *WORDS]
    assert len({case["id"] for case in cases}) == len(cases)
    assert all(len(case["source"]) > 10 for case in cases)
