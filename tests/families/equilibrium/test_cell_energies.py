"""Energies of whole cells from the shipped table against CRC formation data, read live from package chemicals."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import chemicals
import pytest

from saltbridge.api import work
from saltbridge.check.chemistry import imbalance, sides
from saltbridge.tables.reactions import formation_energies, reactions

CRC = Path(chemicals.__file__).parent
METALS = {"Zn": "7440-66-6", "Cu": "7440-50-8", "Ag": "7440-22-4", "Pb": "7439-92-1"}
FUELS = {
    "H2O(l)": "7732-18-5", "CO2(g)": "124-38-9", "CO(g)": "630-08-0", "CH4(g)": "74-82-8", "CH3OH(l)": "67-56-1",
    "C2H5OH(l)": "64-17-5", "N2H4(l)": "302-01-2", "NH3(g)": "7664-41-7",
}  # fmt: skip
CELLS = [("Zn", "Cu"), ("Cu", "Ag"), ("Zn", "Ag"), ("Pb", "Cu"), ("Zn", "Pb"), ("Pb", "Ag")]
CHARGE = {"Zn": 2, "Cu": 2, "Ag": 1, "Pb": 2}


@cache
def _rows(*path):
    with CRC.joinpath(*path).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream, delimiter="\t"))


def _ion(metal, column):
    name = f"{metal}+{CHARGE[metal] if CHARGE[metal] > 1 else ''}"
    return next(
        float(row[column])
        for row in _rows("Electrolytes", "CRC Thermodynamic Properties of Aqueous Ions.tsv")
        if row["Formula"] == name
    )


def _pure(number, column):
    rows = _rows("Heat Capacity", "CRC Standard Thermodynamic Properties of Chemical Substances.tsv")
    return next(float(row[column] or 0) for row in rows if row["CAS"] == number)


def _cell(anode, cathode):
    return f"{anode}(s) | {anode}^{CHARGE[anode]}+(aq) || {cathode}^{CHARGE[cathode]}+(aq) | {cathode}(s)".replace("^1+", "^+")


@pytest.mark.parametrize(("anode", "cathode"), CELLS)
def test_energies_of_a_cell_are_those_of_formation_data(anode, cathode):
    """ΔG within 2.5 kJ/mol (13 mV), ΔS within 4 J/(mol K), ΔH within 3 kJ/mol of the CRC values."""
    times = {metal: 2 // CHARGE[metal] for metal in (anode, cathode)}
    gibbs = times[anode] * _ion(anode, "Gf(aq)") - times[cathode] * _ion(cathode, "Gf(aq)")
    heat = times[anode] * _ion(anode, "Hf(aq)") - times[cathode] * _ion(cathode, "Hf(aq)")
    entropy = times[anode] * (_ion(anode, "S(aq)") - _pure(METALS[anode], "S0s"))
    entropy -= times[cathode] * (_ion(cathode, "S(aq)") - _pure(METALS[cathode], "S0s"))
    scale = 2 if CHARGE[anode] == CHARGE[cathode] == 1 else 1
    diagram = _cell(anode, cathode)
    assert work(diagram, [], "dG0", "kJ/mol")["value"] * scale == pytest.approx(gibbs / 1000, abs=2.5)
    assert work(diagram, [], "dS0")["value"] * scale == pytest.approx(entropy, abs=4)
    assert work(diagram, [], "dH0", "kJ/mol")["value"] * scale == pytest.approx(heat / 1000, abs=3)


@pytest.mark.parametrize("species", FUELS)
def test_formation_data_are_those_of_the_crc(species):
    phase = species[-2]
    shipped = formation_energies()[species]
    assert float(shipped.printed) == pytest.approx(_pure(FUELS[species], f"Gf{phase}") / 1000, abs=1e-9)
    assert float(shipped.enthalpy) == pytest.approx(_pure(FUELS[species], f"Hf{phase}") / 1000, abs=1e-9)


@pytest.mark.parametrize("name", reactions())
def test_a_reaction_is_balanced_and_its_enthalpy_and_electrons_are_right(name):
    """Enthalpies of formation of CRC; four electrons for each oxygen molecule."""
    reaction = reactions()[name]
    assert imbalance(reaction.equation) == {}
    left, right = sides(reaction.equation)
    assert reaction.electrons == 4 * next(times for times, formula in left if formula == "O2(g)")
    heat = 0.0
    for sign, terms in ((-1, left), (1, right)):
        for times, formula in terms:
            if formula in FUELS:
                heat += sign * times * _pure(FUELS[formula], "Hfl" if formula.endswith("(l)") else "Hfg")
    assert float(reaction.dH0) == pytest.approx(heat / 1000, abs=1e-6)


def test_a_cell_written_the_other_way_has_the_opposite_entropy():
    assert work(_cell("Cu", "Zn"), [], "dS0")["value"] == pytest.approx(-work(_cell("Zn", "Cu"), [], "dS0")["value"])
    assert work(_cell("Cu", "Zn"), [], "side_K")["text"] == "below"
