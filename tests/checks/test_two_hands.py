"""Random cells and baths of the shipped metals: the derivation and the plain formulas agree to the last digits.

Both are given the printed values of the college sheet; the plain side finds charges, n, Q and molar masses by itself.
"""

from __future__ import annotations

from math import lcm

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from saltbridge import tables
from saltbridge.api import work
from saltbridge.check.chemistry import count, molar_mass
from saltbridge.check.factors import from_coherent, to_coherent
from saltbridge.check.resolve import resolve

SHEET = tables.sheet("college")
E0 = {row.couple: float(row.E0) for row in SHEET.rows}
METALS = [metal for metal in tables.metals().values() if metal.couple in E0 and "2^" not in metal.ion and metal.symbol != "Hg"]
CONSTANTS = {symbol: float(SHEET.constants[symbol].printed) for symbol in ("R", "F")}
CLOSE = 1e-9

concentrations = st.integers(1, 200).map(lambda number: f"{number / 100:.2f}")
pairs = st.lists(st.sampled_from(METALS), min_size=2, max_size=2, unique_by=lambda metal: metal.symbol)
kelvins = st.integers(274, 372).map(lambda number: f"{number}.15")
few = settings(max_examples=40, deadline=None)


def _cell(pair, c_left, c_right):
    """The diagram of two metals in their own ions."""
    left, right = pair
    return f"{left.symbol}(s) | {left.ion}(aq, {c_left}) || {right.ion}(aq, {c_right}) | {right.symbol}(s)"


def _told(pair, kelvin):
    """What the plain side knows of the cell as written, oxidation on the left."""
    z_left, z_right = (count(metal.ion)["charge"] for metal in pair)
    n = lcm(z_left, z_right)
    values = {"E0_anode": E0[pair[0].couple], "E0_cathode": E0[pair[1].couple], "n": n, "T": float(kelvin)}
    return CONSTANTS | values, n // z_left, n // z_right


@few
@given(pairs, concentrations, concentrations, kelvins, st.sampled_from(["E_cell", "Q", "dG"]))
def test_a_cell_of_two_metals(pair, c_left, c_right, kelvin, find):
    told, times_left, times_right = _told(pair, kelvin)
    told["Q"] = float(c_left) ** times_left / float(c_right) ** times_right
    plain = told["Q"] if find == "Q" else resolve(find, told)
    unit = "kJ/mol" if find == "dG" else None
    derived = work(_cell(pair, c_left, c_right), [f"T = {kelvin} K"], find, unit)["value"]
    assert derived == pytest.approx(from_coherent(plain, unit or ""), rel=CLOSE, abs=1e-12)


@few
@given(pairs, st.sampled_from(["E0_cell", "dG0", "lgK"]), kelvins)
def test_the_standard_quantities_of_two_metals(pair, find, kelvin):
    told, _, _ = _told(pair, kelvin)
    diagram = f"{pair[0].symbol}(s) | {pair[0].ion}(aq) || {pair[1].ion}(aq) | {pair[1].symbol}(s)"
    derived = work(diagram, [f"T = {kelvin} K"], find, "J/mol" if find == "dG0" else None)["value"]
    assert derived == pytest.approx(resolve(find, told), rel=CLOSE, abs=1e-12)


@few
@given(pairs, concentrations, concentrations)
def test_an_unknown_concentration_comes_back(pair, c_left, c_right):
    """The potential is worked out plainly for ``c_left``, printed to 0.01 mV, and the concentration asked from it."""
    told, times_left, times_right = _told(pair, "298.15")
    rest = 1 / float(c_right) ** times_right
    potential = resolve("E_cell", told | {"Q": float(c_left) ** times_left * rest})
    assume(potential > 0.01)
    told["E_cell"] = float(f"{potential:.5f}")
    plain = resolve("c_anode", told | {"x_anode": times_left, "Q_rest": rest})
    derived = work(_cell(pair, "?", c_right), [f"E_cell = {potential:.5f} V"], "c_anode")["value"]
    assert derived == pytest.approx(plain, rel=1e-7)
    assert derived == pytest.approx(float(c_left), rel=2e-3)


@few
@given(
    st.sampled_from(METALS),
    st.integers(1, 900).map(lambda number: f"{number / 100:.2f}"),
    st.integers(1, 240),
    st.integers(10, 100),
    st.sampled_from(["m", "n_B", "q"]),
)
def test_a_bath_that_plates_a_metal(metal, amperes, minutes, percent, find):
    told = {"I": float(amperes), "t": to_coherent(minutes, "min"), "z": count(metal.ion)["charge"], "efficiency": percent / 100}
    told |= {"F": CONSTANTS["F"], "M": molar_mass(metal.symbol, SHEET.atomic_masses)}
    know = [f"I = {amperes} A", f"t = {minutes} min", f"metal = {metal.symbol}", f"efficiency = {percent} %"]
    assert work(None, know, find)["value"] == pytest.approx(resolve(find, told), rel=CLOSE)
