"""Which plain formula is taken, by what is known."""

from __future__ import annotations

import inspect

import pytest

from saltbridge.check import formulas as f
from saltbridge.check.resolve import ROWS, resolve

# One state of a cell and one of a bath, from which every name can be asked back.
CELL = {"E0_cathode": 0.7996, "E0_anode": -0.257, "n": 2.0, "Q": 18750.0, "T": 298.15, "R": f.GAS, "F": f.FARADAY}
CELL |= {name: resolve(name, CELL) for name in ("E0_cell", "E_cell", "dG", "dG0", "lgK", "K")}
BATH = {"I": 2.5, "t": 1800.0, "z": 2.0, "M": 63.546, "efficiency": 0.85, "F": f.FARADAY}
BATH |= {name: resolve(name, BATH) for name in ("q", "q_used", "n_e", "n_B", "m")}


def test_a_cell_and_a_bath_are_worked_out():
    assert CELL["E_cell"] == pytest.approx(0.9302060118, abs=1e-10)  # chempy 0.10.2 with exact constants
    assert BATH["q"] == 4500
    assert BATH["m"] == pytest.approx(0.85 * 4500 * 63.546 / (2 * 96485.33212331001))


@pytest.mark.parametrize(("state", "find"), [(CELL, name) for name in CELL] + [(BATH, name) for name in BATH])
def test_every_name_comes_back_from_the_others(state, find):
    found = resolve(find, {name: value for name, value in state.items() if name != find})
    if find == "R":
        assert found is None
    elif find == "F":  # an electrolysis gives it, taken as if all the charge had deposited metal
        assert found is None or found == pytest.approx(f.FARADAY / BATH["efficiency"])
    else:
        assert found == pytest.approx(state[find], rel=1e-9)


@pytest.mark.parametrize("row", ROWS, ids=[f"{wanted} from {' '.join(needs)}" for wanted, needs, _ in ROWS])
def test_each_row_hands_its_formula_as_many_values_as_it_takes(row):
    _, needs, formula = row
    if formula is not f.log10:
        taken = inspect.signature(formula).parameters.values()
        assert len([p for p in taken if p.default is p.empty]) <= len(needs) <= len(taken)


def test_what_is_not_covered_is_not_checked():
    assert resolve("V_gas", {"I": 1.0, "t": 60.0}) is None
    assert resolve("m", {"I": 1.0}) is None


def test_a_formula_without_a_value_is_no_opinion():
    assert resolve("t", {"q": 1.0, "I": 0.0}) is None
    assert resolve("E_cell", {"E0_cell": 1.1, "n": 2, "Q": 0.0, "T": 298.15}) is None


def test_a_printed_slope_is_used_at_25_celsius_only():
    told = {"E0_cell": 1.1, "n": 1, "Q": 10.0, "slope": 0.06}
    assert resolve("E_cell", told | {"T": 298.15}) == pytest.approx(1.04)
    assert resolve("E_cell", told | {"T": 298}) == pytest.approx(1.04)
    assert resolve("E_cell", told | {"T": 310.15}) == pytest.approx(1.1 - f.thermal_voltage(310.15) * 2.302585093)


def test_an_unknown_concentration_is_found_from_the_potential():
    """Zn | Zn2+(c) || Cu2+(0.020) | Cu at 1.043336298 V has c = 1.50 mol/L (chempy 0.10.2, exact constants)."""
    told = {"E_cell": 1.043336298, "E0_cell": 1.0988, "n": 2, "T": 298.15}
    assert resolve("c_anode", told | {"x_anode": 1, "Q_rest": 1 / 0.020}) == pytest.approx(1.50, rel=1e-6)
    assert resolve("c_cathode", told | {"x_cathode": -1, "Q_rest": 1.50}) == pytest.approx(0.020, rel=1e-6)


def test_half_cells_are_corrected_one_by_one():
    told = {"E0_cathode": 0.337, "n_cathode": 2, "Q_cathode": 1 / 0.020, "E0_anode": -0.7618, "n_anode": 2, "Q_anode": 1 / 1.50}
    assert resolve("E_cell", told | {"T": 298.15}) == pytest.approx(1.043336298, abs=1e-9)


def test_a_meter_reading_places_the_strip():
    assert resolve("E", {"reading": -1.10, "E_ref": 0.34}) == pytest.approx(-0.76)
    assert resolve("E_ref", {"reading": -1.10, "E": -0.76}) == pytest.approx(0.34)
