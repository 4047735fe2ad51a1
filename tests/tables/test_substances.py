"""Elements, constants and metals against outside sources read live."""

from __future__ import annotations

import csv
import math
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import chemicals
import pytest
import scipy.constants
from chempy.util import periodic
from scipy.constants import physical_constants

from saltbridge.chemistry.realism import anion_of, insoluble
from saltbridge.tables import constants, elements, metals

# chemicals 1.5.2 carries older editions for these: revised or turned into an interval since (IUPAC 2009 to 2021)
OLDER_IN_CHEMICALS = 0.02  # relative atomic mass, largest revision of an element that both hold


def test_elements_run_from_hydrogen_to_uranium_without_those_that_have_no_standard_weight():
    undefined = {"Tc", "Pm", "Po", "At", "Rn", "Fr", "Ra", "Ac"}
    assert elements().keys() == set(periodic.symbols[:92]) - undefined
    assert [element.atomic_number for element in elements().values()] == sorted(e.atomic_number for e in elements().values())


@pytest.mark.parametrize("symbol", elements())
def test_a_weight_is_the_full_one_abridged_to_its_printed_digits(symbol):
    """Outside source: chempy's table of IUPAC standard atomic weights."""
    element = elements()[symbol]
    full = Decimal(str(periodic.relative_atomic_masses[element.atomic_number - 1]))
    assert symbol == periodic.symbols[element.atomic_number - 1]
    assert Decimal(element.weight) == full.quantize(Decimal(element.weight), ROUND_HALF_UP)
    assert len(element.weight.replace(".", "").lstrip("0")) <= 5


@pytest.mark.parametrize("symbol", elements())
def test_name_number_and_weight_agree_with_a_second_table(symbol):
    """Outside source: the periodic table of the package `chemicals`."""
    ours, theirs = elements()[symbol], getattr(chemicals.elements.periodic_table, symbol)
    assert ours.atomic_number == theirs.number
    assert float(ours.weight) == pytest.approx(theirs.MW, abs=OLDER_IN_CHEMICALS)
    same = {"sulphur": "sulfur", "cesium": "caesium", "aluminum": "aluminium"}
    assert ours.name == same.get(theirs.name.lower(), theirs.name.lower())


@pytest.mark.parametrize(
    ("symbol", "name"),
    [
        ("F", "Faraday constant"),
        ("R", "molar gas constant"),
        ("N_A", "Avogadro constant"),
        ("e", "elementary charge"),
        ("k", "Boltzmann constant"),
        ("p_standard", "standard-state pressure"),
        ("atm", "standard atmosphere"),
    ],
)
def test_a_constant_is_the_codata_value(symbol, name):
    """Outside source: CODATA as scipy carries it; all of these are exact since 2019, so the edition does not move them."""
    value, _, uncertainty = physical_constants[name]
    assert float(constants()[symbol].printed) == pytest.approx(value, rel=1e-15)
    assert uncertainty == 0.0
    assert "CODATA 2022" in constants()[symbol].source


def test_faraday_and_gas_constant_are_exact_products():
    value = {symbol: Decimal(constant.printed) for symbol, constant in constants().items()}
    assert value["F"] == value["N_A"] * value["e"]
    assert value["R"] == value["N_A"] * value["k"]
    assert float(value["T_zero"]) == scipy.constants.zero_Celsius


def test_densities_follow_from_molar_volumes():
    """Outside source: "CRC Solid Inorganic Constant Densities.tsv" of the package `chemicals`; tin there is gray tin."""
    path = Path(chemicals.__file__).parent / "Density" / "CRC Solid Inorganic Constant Densities.tsv"
    with path.open(encoding="utf-8", newline="") as stream:
        volumes = {row["CAS"]: float(row["Vm"]) for row in csv.DictReader(stream, delimiter="\t")}
    for symbol in metals().keys() - {"Sn"}:
        theirs = getattr(chemicals.elements.periodic_table, symbol)
        density = theirs.MW / volumes[theirs.CAS] * 1e-6  # g/cm³
        assert float(metals()[symbol].density) == pytest.approx(density, rel=1e-3), symbol


def test_gray_tin_is_not_taken_for_tin():
    assert math.isclose(float(metals()["Sn"].density), 7.29)
    assert "from memory" in metals()["Sn"].source


def test_metals_that_react_with_water_and_metals_that_need_enabling():
    water = {symbol for symbol, metal in metals().items() if metal.water_reactive}
    enabled = {symbol for symbol, metal in metals().items() if metal.needs_enabling}
    assert water == {"Li", "Na", "K", "Ca", "Sr", "Ba"}
    assert {"Pb", "Ni", "Cd"} <= enabled
    assert not enabled & {"Zn", "Cu", "Ag", "Fe", "Mg", "Sn", "Al"}
    assert all(metal.needs_enabling for metal in metals().values() if metal.toxic)
    assert {"Al", "Mg"} <= {symbol for symbol, metal in metals().items() if metal.film == "yes"}


def test_the_salt_of_a_metal_keeps_its_ion_dissolved():
    assert [metal.salt for metal in metals().values() if metal.ion in insoluble(anion_of(metal.salt_formula))] == []
