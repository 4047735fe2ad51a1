"""Live second opinions: chempy for potentials, molar masses and balanced equations, scipy for the constants."""

from __future__ import annotations

import re

import chempy
import pytest
from checks.outside import cases
from chempy.electrochemistry.nernst import nernst_potential
from scipy import constants as codata

from saltbridge import tables
from saltbridge.api import work
from saltbridge.check import formulas
from saltbridge.check.chemistry import count, imbalance, molar_mass, sides

NERNST = cases("nernst_cases.yaml", "cases")
CELLS = [case for case in NERNST if "work" in case]
EQUATIONS = cases("balanced_equations.yaml", "cases")
FORMULAS = sorted({formula for case in EQUATIONS for side in sides(case["balanced"]) for _, formula in side})


def _ids(chosen):
    return [case["id"] for case in chosen]


@pytest.mark.parametrize("case", NERNST, ids=_ids(NERNST))
def test_the_plain_nernst_equation_agrees_with_chempy(case):
    """chempy 0.10 has the CODATA 2014 constants, which differ in the seventh digit."""
    ours = formulas.nernst(case["E0"], case["n"], case["Q"], formulas.thermal_voltage(case["T"]))
    assert ours == pytest.approx(case["E0"] + nernst_potential(1.0, case["Q"], case["n"], case["T"]), abs=1e-7)
    assert ours == pytest.approx(case["exact"], abs=1e-9)


@pytest.mark.parametrize("case", CELLS, ids=_ids(CELLS))
def test_the_derivation_agrees_with_chempy(case):
    """Up to the printed RT ln 10/F: 0.0592 V for 0.05916 V changes the Nernst term by 0.07 %."""
    value = work(case["work"]["diagram"], case["work"]["given"], "E_cell", "V", sheet="college")["value"]
    term = nernst_potential(1.0, case["Q"], case["n"], case["T"])
    assert value == pytest.approx(case["E0"] + term, abs=1e-3 * abs(term) + 1e-9)


def test_the_constants_are_those_of_scipy():
    assert pytest.approx(codata.R, rel=1e-14) == formulas.GAS
    assert pytest.approx(codata.value("Faraday constant"), rel=1e-14) == formulas.FARADAY


def test_the_shipped_constants_are_those_of_scipy():
    shipped = tables.constants()
    assert float(shipped["R"].printed) == pytest.approx(codata.R, rel=1e-14)
    assert float(shipped["F"].printed) == pytest.approx(codata.value("Faraday constant"), rel=1e-14)


def _for_chempy(formula):
    """``Cr2O7^2-`` in chempy's notation, ``Cr2O7-2``."""
    return re.sub(r"\^(\d*)([+-])$", lambda found: found[2] + found[1], formula)


@pytest.mark.parametrize("formula", FORMULAS)
def test_molar_mass_and_charge_agree_with_chempy(formula):
    """The abridged standard atomic weights have five figures at most, chempy's more."""
    other = chempy.Substance.from_formula(_for_chempy(formula))
    electrons = (other.charge or 0) * 5.4858e-4
    assert molar_mass(formula) == pytest.approx(other.mass + electrons, rel=2e-4)
    assert count(formula)["charge"] == (other.charge or 0)


@pytest.mark.parametrize("case", EQUATIONS, ids=_ids(EQUATIONS))
def test_outside_equations_are_balanced_by_the_own_count(case):
    assert imbalance(case["balanced"]) == {}


@pytest.mark.parametrize("case", EQUATIONS, ids=_ids(EQUATIONS))
def test_an_outside_equation_with_one_more_on_the_left_is_not_balanced(case):
    left, right = case["balanced"].split(" -> ")
    first = left.split(" + ")[0].lstrip("0123456789")
    surplus = imbalance(f"{left} + {first} -> {right}")
    assert surplus == {name: -number for name, number in count(first).items() if number}
