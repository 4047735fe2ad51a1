"""Random cells of the college sheet, told as diagrams: laws that hold for all of them, and plain formulas beside the derivation."""

from __future__ import annotations

from math import prod

import pytest
from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st

from saltbridge import tables
from saltbridge.api import work
from saltbridge.check import formulas
from saltbridge.chemistry.cells import Amount, GalvanicCell, half_cell, has_activity, swap
from saltbridge.chemistry.diagrams import diagram
from saltbridge.chemistry.half_reactions import parse_half_reaction

SHEET = tables.sheet("college")
R, F = (float(SHEET.constants[symbol].printed) for symbol in ("R", "F"))
few = settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])

amounts = st.integers(1, 500).map(lambda number: f"{number / 100:.2f}")


@st.composite
def half_cells(draw):
    """A row of the sheet with an amount told for about half of what has one."""
    row = draw(st.sampled_from(SHEET.rows))
    told = {}
    for species in dict.fromkeys(parse_half_reaction(row.half_reaction).species):
        if has_activity(species) and draw(st.booleans()):
            text = draw(amounts)
            told[species.bare] = Amount(text, float(text), "bar" if species.phase == "g" else "mol/L")
    return half_cell(row, told)


@st.composite
def cells(draw):
    """A cell of two couples, whose hydrogen ions (and the like) each side has for itself."""
    left, right = draw(half_cells()), draw(half_cells())
    assume(left.couple != right.couple)
    return GalvanicCell(left, right)


def _plain_potential(half, kelvin):
    """The potential of one electrode by the plain formula, Q from its half-reaction alone."""
    row = next(row for row in SHEET.rows if row.couple == half.couple)
    powers = [(term, 1) for term in half.half.reduced] + [(term, -1) for term in half.half.oxidised]
    active = [(half.amount(term.species), sign * term.coefficient) for term, sign in powers if has_activity(term.species)]
    quotient = prod((amount.value if amount else 1.0) ** power for amount, power in active)
    return formulas.nernst(float(row.E0), half.half.n, quotient, formulas.thermal_voltage(kelvin, R, F))


@few
@given(cells(), st.integers(274, 372))
def test_the_cell_potential_is_the_difference_of_two_plainly_computed_electrodes(cell, kelvin):
    plain = _plain_potential(cell.right, kelvin) - _plain_potential(cell.left, kelvin)
    assert work(diagram(cell), [f"T = {kelvin} K"], "E_cell")["value"] == pytest.approx(plain, rel=1e-3, abs=1e-9)


@few
@given(cells(), st.sampled_from(["E_cell", "dG", "E0_cell", "dG0", "lgK"]))
def test_swapping_the_sides_changes_the_sign_and_nothing_else(cell, find):
    there, back = (work(diagram(each), [], find)["value"] for each in (cell, swap(cell)))
    assert there == pytest.approx(-back, rel=1e-9, abs=1e-9)


def _all_at(couple, text):
    """A half-cell whose every dissolved species and gas is told alike."""
    row = next(row for row in SHEET.rows if row.couple == couple)
    active = [each for each in dict.fromkeys(parse_half_reaction(row.half_reaction).species) if has_activity(each)]
    return half_cell(row, {each.bare: Amount(text, float(text), "bar" if each.phase == "g" else "mol/L") for each in active})


@few
@given(cells())
@example(GalvanicCell(_all_at("ClO3^-/Cl2", "0.01"), _all_at("Cr2O7^2-/Cr^3+", "5.00")))  # hydrogen ions to the power of 70
def test_swapping_the_sides_leaves_anode_and_cathode_where_they_are(cell):
    assume(abs(work(diagram(cell), [], "E_cell")["value"]) > 1e-9)
    there, back = (work(diagram(each), [], "anode") for each in (cell, swap(cell)))
    assert (there["anode"], there["cathode"]) == (back["anode"], back["cathode"])
    assert {there["anode_side"], back["anode_side"]} == {"left", "right"}


@few
@given(cells())
def test_potential_energy_and_equilibrium_agree_in_sign(cell):
    potential, energy, lgK = (work(diagram(cell), [], find)["value"] for find in ("E0_cell", "dG0", "lgK"))
    assume(potential)
    assert (potential > 0) == (energy < 0) == (lgK > 0)


@few
@given(cells())
def test_the_electrodes_differ_by_the_size_of_the_cell_potential(cell):
    potential = work(diagram(cell), [], "E_cell")["value"]
    assume(abs(potential) > 1e-9)
    cathode, anode = (work(diagram(cell), [], find)["value"] for find in ("E_cathode", "E_anode"))
    assert cathode - anode == pytest.approx(abs(potential), rel=1e-9, abs=1e-9)


@few
@given(cells(), st.sampled_from(["E_cell", "dG0", "lgK", "E_cathode"]))
def test_the_value_lies_in_its_accepted_range_and_reads_as_its_text(cell, find):
    assume(find != "E_cathode" or abs(work(diagram(cell), [], "E_cell")["value"]) > 1e-9)
    found = work(diagram(cell), [], find)
    lo, hi = found["accepted"]
    assert lo <= found["value"] <= hi
    printed = found["text"].removesuffix(found.get("unit", "")).replace("−", "-").replace(" ", "")
    if "×" not in printed:
        assert lo <= float(printed) <= hi
