"""Outside cases of corrosion: textbook statements, the sea-water series, capacities, chempy live."""

from __future__ import annotations

import pytest
from chempy.electrochemistry.nernst import nernst_potential
from families.family_cases import numbers, sources, together, words
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.api import work
from saltbridge.faults import Faulty

FILE = "corrosion_cases.yaml"

test_a_number_is_that_of_its_source = numbers(FILE)
test_a_word_is_that_of_its_source = words(FILE)
test_every_case_names_its_source = sources([*together("numbers", FILE), *together("words", FILE)])


@settings(max_examples=12, deadline=None)
@given(st.integers(0, 140), st.integers(1, 1000))
def test_the_potential_of_oxygen_follows_chempy(tenths, millibars):
    """One sweep against chempy 0.10 for oxygen and hydrogen; its constants are of CODATA 2014, the sheet prints four figures of R."""
    ph, bars = tenths / 10, millibars / 1000
    know = ["E0_oxygen = 1.229 V", f"pH = {ph}", f"p_oxygen = {bars} bar"]
    expected = 1.229 + nernst_potential(10**-ph, 1, 1, 298.15) + nernst_potential(bars, 1, 4, 298.15)
    assert work(None, know, "E_oxygen")["value"] == pytest.approx(expected, abs=2e-4)
    assert work(None, [f"pH = {ph}"], "E_hydrogen")["value"] == pytest.approx(nernst_potential(10**-ph, 1, 1, 298.15), abs=2e-4)


@settings(max_examples=20, deadline=None)
@given(st.integers(1, 8))
def test_the_potential_of_iron_follows_chempy(power):
    expected = -0.447 + nernst_potential(10**-power, 1, 2, 298.15)
    found = work(None, ["E0_iron = -0.447 V", f"c_iron = {10**-power} mol/L"], "E_iron")["value"]
    assert found == pytest.approx(expected, abs=2e-4)


@pytest.mark.parametrize(("series", "find"), [("seawater", "corrodes"), ("both", "orders")])
def test_two_metals_within_the_spread_of_sea_water_are_not_ranked(series, find):
    """Tin and copper lie 35 mV apart in the series of seawater_series.csv."""
    with pytest.raises(Faulty) as caught:
        work(None, ["joined = Sn+Cu", f"series = {series}"], find)
    assert [fault.code for fault in caught.value.faults] == ["undecided"]


def test_the_working_in_sea_water_tells_both_potentials():
    (step,) = work(None, ["joined = Zn+Cu", "series = seawater"], "corrodes")["steps"]
    assert "−1.03 V" in step["say"]
    assert "−0.36 V" in step["say"]
