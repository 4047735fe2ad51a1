"""Outside cases of electrolysis: textbook examples, equivalents, CODATA volumes and the products that a textbook names."""

from __future__ import annotations

import periodictable
import pytest
from families.family_cases import numbers, sources, together, words
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import constants

from saltbridge.api import work
from saltbridge.tables import metals

FILE = "electrolysis_cases.yaml"

test_a_number_is_that_of_its_source = numbers(FILE)
test_a_product_is_that_of_its_source = words(FILE)
test_every_case_names_its_source = sources([*together("numbers", FILE), *together("words", FILE)])


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([metal for metal in metals().values() if metal.symbol != "Ba"]), st.integers(1, 4000), st.integers(1, 900))
def test_masses_follow_scipy_and_periodictable(metal, milliamperes, seconds):
    """One sweep for charge, amount of electrons, amount of product and mass: F from scipy, masses from periodictable.

    The masses agree to the five figures of the college sheet.
    """
    z = int(metal.ion.partition("^")[2].rstrip("+") or 1)
    charge = milliamperes / 1000 * seconds
    expected = charge / constants.value("Faraday constant") / z * getattr(periodictable, metal.symbol).mass
    found = work(None, [f"I = {milliamperes} mA", f"t = {seconds} s", f"metal = {metal.symbol}"], "m")["value"]
    assert found == pytest.approx(expected, rel=3e-4)


@settings(max_examples=30, deadline=None)
@given(st.integers(10, 500), st.integers(274, 372))
def test_molar_volumes_follow_scipy(kilopascals, kelvins):
    expected = constants.R * kelvins / kilopascals
    found = work(None, [f"p_gas = {kilopascals} kPa", f"T = {kelvins} K"], "V_m")["value"]
    assert found == pytest.approx(expected, rel=1e-4)
