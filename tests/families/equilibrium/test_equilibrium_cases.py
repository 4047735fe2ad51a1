"""Outside cases of concentration, energy and equilibrium: textbooks, NBS and CRC tables, chempy and PHREEQC."""

from __future__ import annotations

import pytest
from families.family_cases import numbers, room, sources, together, words

from saltbridge.check.factors import from_coherent, to_coherent
from saltbridge.check.resolve import resolve

FILES = ("concentration_cases.yaml", "equilibrium_cases.yaml")
NUMBERS = together("numbers", *FILES)
ROOM_TEMPERATURE = 298.15
EXACT = ["R = 8.31446261815324 J/(mol K)", "F = 96485.33212331001 C/mol"]  # by the SI of 2019, CODATA 2022
PLAIN = [case for case in NUMBERS if not any(told.startswith("couple") for told in case["given"])]


@pytest.mark.parametrize("case", PLAIN, ids=lambda case: case["id"])
def test_plain_formulas_give_the_same_number(case):
    """The route of check/, which shares nothing with the derivation."""
    known = {"T": ROOM_TEMPERATURE}
    for line in case["given"]:
        name, _, quantity = line.partition(" = ")
        number, _, unit = quantity.partition(" ")
        known[name] = float(number) + 273.15 if unit == "°C" else to_coherent(float(number), unit)
    found = resolve(case["find"], known)
    assert found is not None
    assert from_coherent(found, case["unit"]) == pytest.approx(float(case["printed"]), abs=room(case), rel=0)


test_a_number_is_that_of_its_source = numbers(*FILES, exact=EXACT)
test_a_word_is_that_of_its_source = words("equilibrium_cases.yaml")
test_every_case_names_its_source_once = sources([*NUMBERS, *together("words", "equilibrium_cases.yaml")])
