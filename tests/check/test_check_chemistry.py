"""The independent reader of formulas and equations."""

from __future__ import annotations

import pytest

from saltbridge.check.chemistry import count, electrons_moved, imbalance, molar_mass, quotient
from saltbridge.faults import Faulty


@pytest.mark.parametrize(
    ("formula", "counts"),
    [
        ("Cr2O7^2-", {"Cr": 2, "O": 7, "charge": -2}),
        ("[Ag(NH3)2]^+", {"Ag": 1, "N": 2, "H": 6, "charge": 1}),
        ("CuSO4·5H2O", {"Cu": 1, "S": 1, "O": 9, "H": 10}),
        ("CuSO4.5H2O", {"Cu": 1, "S": 1, "O": 9, "H": 10}),
        ("CuSO4*5H2O(s)", {"Cu": 1, "S": 1, "O": 9, "H": 10}),
        ("[Fe(CN)6]^3-(aq)", {"Fe": 1, "C": 6, "N": 6, "charge": -3}),
        ("Ag+", {"Ag": 1, "charge": 1}),
        ("Ag^1+", {"Ag": 1, "charge": 1}),
        ("Zn^2+(aq)", {"Zn": 1, "charge": 2}),
        ("Al2(SO4)3", {"Al": 2, "S": 3, "O": 12}),
        ("e-", {"charge": -1}),
        ("e^-", {"charge": -1}),
    ],
)
def test_atoms_and_charge_are_counted(formula, counts):
    assert dict(count(formula)) == counts


@pytest.mark.parametrize("formula", ["", "zn", "Cu(", "Cu)", "H2$O", "2", "(aq)"])
def test_what_is_no_formula_is_refused(formula):
    with pytest.raises(Faulty, match="unreadable-formula"):
        count(formula)


def test_molar_mass_of_the_blue_vitriol_of_the_shelf():
    """249.68 g/mol: label of copper(II) sulfate pentahydrate, common practice, no source."""
    assert molar_mass("CuSO4·5H2O") == pytest.approx(249.68, abs=0.01)


def test_molar_mass_takes_the_masses_it_is_given():
    assert molar_mass("H2O", {"H": "1.0", "O": 16}) == 18.0


def test_an_element_without_a_mass_is_named():
    with pytest.raises(Faulty, match="found O") as caught:
        molar_mass("H2O", {"H": 1})
    assert caught.value.faults[0].code == "unknown-mass"


def test_imbalance_names_atoms_and_charge_too_many_on_the_right():
    assert imbalance("Ag^+ + Zn -> Ag + Zn^2+") == {"charge": 1}
    assert imbalance("H2 + O2 -> H2O") == {"O": -1}


def test_electrons_are_counted_in_a_half_equation():
    assert electrons_moved("Cr2O7^2- + 14H^+ + 6e- -> 2Cr^3+ + 7H2O") == 6
    assert electrons_moved("Zn(s) -> Zn^2+(aq) + 2 e-") == 2


@pytest.mark.parametrize("text", ["Ag^+ + Zn -> Ag + Zn^2+", "e- + Ag^+ -> Ag + e-"])
def test_an_equation_without_electrons_on_one_side_is_no_half_equation(text):
    with pytest.raises(Faulty, match="no-electrons"):
        electrons_moved(text)


@pytest.mark.parametrize("text", ["Zn + Cu", "A -> B -> C", "Zn -> "])
def test_what_is_no_equation_is_refused(text):
    with pytest.raises(Faulty, match="unreadable-equation"):
        imbalance(text)


def test_a_quotient_is_products_over_reactants_without_pure_phases():
    equation = "2Ag^+(aq) + Zn(s) -> 2Ag(s) + Zn^2+(aq)"
    assert quotient(equation, {"Ag^+": 0.10, "Zn^2+": 0.50}) == pytest.approx(50)
    assert quotient("Cr2O7^2- + 14H^+ + 6e- -> 2Cr^3+ + 7H2O", {"H^+": 0.1, "Cr2O7^2-": 0.01, "Cr^3+": 0.001}) == pytest.approx(
        1e10
    )
