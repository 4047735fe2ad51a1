"""Outside cases of batteries and fuel cells: textbook examples, handbook figures, formation data."""

from __future__ import annotations

import csv
from pathlib import Path

import chemicals
import periodictable
import pytest
from families.family_cases import numbers, sources, together, words
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import constants

from saltbridge.api import work
from saltbridge.tables import metals
from saltbridge.tables.batteries import fuels

FILE = "batteries_cases.yaml"

test_a_number_is_that_of_its_source = numbers(FILE)
test_a_word_is_that_of_its_source = words(FILE)
test_every_case_names_its_source = sources([*together("numbers", FILE), *together("words", FILE)])


@pytest.mark.parametrize("formula", ["H2", "CH3OH", "C2H5OH", "CH4"])
def test_energies_of_fuels_follow_the_crc_tables_read_live(formula):
    """Outside source, read live: "CRC Standard Thermodynamic Properties of Chemical Substances.tsv" of package chemicals.

    The worked cases hold the same figures against the NBS tables of 1982.
    """
    number = {"H2": "1333-74-0", "CH3OH": "67-56-1", "C2H5OH": "64-17-5", "CH4": "74-82-8", "CO2": "124-38-9", "H2O": "7732-18-5"}
    phase = {"H2": "g", "CH4": "g", "CO2": "g", "CH3OH": "l", "C2H5OH": "l", "H2O": "l"}
    carbon = {"H2": 0, "CH3OH": 1, "C2H5OH": 2, "CH4": 1}[formula]
    water = {"H2": 1, "CH3OH": 2, "C2H5OH": 3, "CH4": 2}[formula]
    table = crc()

    def energy(kind, name):
        return 0.0 if name == "H2" else table[number[name]][f"{kind}_{phase[name]}"] / 1000

    fuel = fuels()[formula]
    for kind, printed in (("G", fuel.dG0), ("H", fuel.dH0)):
        expected = carbon * energy(kind, "CO2") + water * energy(kind, "H2O") - energy(kind, formula)
        assert float(printed) == pytest.approx(expected, abs=1e-6)


def crc():
    """Formation energies in J/mol by registry number."""
    path = Path(chemicals.__file__).parent / "Heat Capacity" / "CRC Standard Thermodynamic Properties of Chemical Substances.tsv"
    with path.open(encoding="utf-8") as opened:
        found = {}
        for row in csv.DictReader(opened, delimiter="\t"):
            cells = {"G_l": row["Gfl"], "H_l": row["Hfl"], "G_g": row["Gfg"], "H_g": row["Hfg"]}
            found[row["CAS"]] = {name: float(text) for name, text in cells.items() if text}
        return found


@settings(max_examples=12, deadline=None)
@given(st.sampled_from(["Zn", "Pb", "Al", "Mg", "Li", "Cd", "Fe"]))
def test_capacities_follow_scipy_and_periodictable(symbol):
    """One sweep: F from scipy, masses from periodictable; the masses agree to the five figures of the college sheet."""
    z = int(metals()[symbol].ion.partition("^")[2].rstrip("+") or 1)
    expected = z * constants.value("Faraday constant") / (3.6 * getattr(periodictable, symbol).mass)
    assert work(None, [f"metal = {symbol}"], "cap_gram")["value"] == pytest.approx(expected, rel=3e-4)
