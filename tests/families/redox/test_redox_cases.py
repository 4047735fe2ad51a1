"""Redox and titration against books, and balanced equations against chempy run live."""

from __future__ import annotations

import math

import pytest
from checks.outside import cases
from chempy import balance_stoichiometry
from chempy.electrochemistry.nernst import nernst_potential
from scipy.optimize import brentq

from saltbridge.api import work
from saltbridge.chemistry.balancing import balance_redox, redox_halves
from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.half_steps import written
from saltbridge.chemistry.oxidation import oxidation_number
from saltbridge.chemistry.reshaping import reshaped
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty

LIVE = (
    ("MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+", {"MnO4-", "Fe+2", "H+"}, {"Mn+2", "Fe+3", "H2O"}),
    ("Cr2O7^2- + I^- -> Cr^3+ + I2", {"Cr2O7-2", "I-", "H+"}, {"Cr+3", "I2", "H2O"}),
    ("MnO4^- + C2O4^2- -> Mn^2+ + CO2", {"MnO4-", "C2O4-2", "H+"}, {"Mn+2", "CO2", "H2O"}),
    ("Ag + NO3^- -> Ag^+ + NO", {"Ag", "NO3-", "H+"}, {"Ag+", "NO", "H2O"}),
    ("VO2^+ + Zn -> V^3+ + Zn^2+", {"VO2+", "Zn", "H+"}, {"V+3", "Zn+2", "H2O"}),
    ("I2 + S2O3^2- -> I^- + S4O6^2-", {"I2", "S2O3-2"}, {"I-", "S4O6-2"}),
    ("Ce^4+ + Fe^2+ -> Ce^3+ + Fe^3+", {"Ce+4", "Fe+2"}, {"Ce+3", "Fe+3"}),
    ("BrO3^- + Br^- -> Br2", {"BrO3-", "Br-", "H+"}, {"Br2", "H2O"}),
    ("Cr2O7^2- + Fe^2+ -> Cr^3+ + Fe^3+", {"Cr2O7-2", "Fe+2", "H+"}, {"Cr+3", "Fe+3", "H2O"}),
)  # fmt: skip


@pytest.mark.parametrize(
    "case", cases("redox_cases.yaml", "oxidation_numbers"), ids=lambda case: f"{case['element']} in {case['species']}"
)
def test_oxidation_numbers_are_those_of_the_books(case):
    assert oxidation_number(parse_species(case["species"]), case["element"]) == case["number"]
    told = work(None, [f"species = {case['species']}", f"element = {case['element']}"], "ox")
    assert told["value"] == case["number"]


@pytest.mark.parametrize("case", cases("redox_cases.yaml", "titrations"), ids=lambda case: case["find"])
def test_titrations_agree_with_the_books(case):
    assert work(None, case["given"], case["find"])["value"] == pytest.approx(case["value"], abs=case["within"])


@pytest.mark.parametrize(("skeleton", "left", "right"), LIVE)
def test_chempy_balances_alike(skeleton, left, right):
    """Coefficients of both sides, chempy run live; it is asked with water and H⁺ where they are needed."""
    ours = balance_redox(skeleton)
    theirs = balance_stoichiometry(left, right)
    for mine, other in ((ours.left, theirs[0]), (ours.right, theirs[1])):
        assert {_plain(term.species): term.coefficient for term in mine} == {name: int(count) for name, count in other.items()}


def _plain(species):
    size = "" if abs(species.charge) == 1 else str(abs(species.charge))
    return species.formula + (f"{'+' if species.charge > 0 else '-'}{size}" if species.charge else "")


def test_permanganate_and_hydrogen_peroxide_are_balanced_by_electrons():
    """Atoms and charge alone leave endless ratios; two permanganate to five peroxide is what the electrons demand (Vogel, from memory)."""
    told = work(None, ["skeleton = MnO4^- + H2O2 -> Mn^2+ + O2"], "equation")
    right = parse_equation("2MnO4^- + 5H2O2 + 6H^+ -> 2Mn^2+ + 5O2 + 8H2O")
    found = parse_equation(told["equation"])
    assert {frozenset((term.species.bare, term.coefficient) for term in side) for side in (found.left, found.right)} == {
        frozenset((term.species.bare, term.coefficient) for term in side) for side in (right.left, right.right)
    }


def test_the_whole_equilibrium_agrees_with_the_simple_equations():
    """Iron(II) with cerium(IV), mass balances solved live by scipy: before, at and beyond equivalence within 0.1 mV."""
    thermal, iron, cerium = 8.314462618 * 298.15 / 96485.33212, 0.767, 1.70
    known = ["E0_analyte = 0.767 V", "E_titrant = 1.70 V", "n_e_analyte = 1", "n_e_titrant = 1", "V_titrant = 25.0 cm3"]
    for share, find, more in (
        (0.4, "E_before", ["V_before = 10.0 cm3"]), (1.0, "E_eq", []), (1.4, "E_after", ["V_after = 35.0 cm3"]),
    ):  # fmt: skip

        def spare(E, share=share):
            oxidised = 1 / (1 + math.exp((iron - E) / thermal))
            reduced = 1 / (1 + math.exp((E - cerium) / thermal))
            return oxidised - share * reduced  # electrons given and taken

        exact = brentq(spare, 0.3, 2.2, xtol=1e-12)
        assert work(None, [*known, *more], find)["value"] == pytest.approx(exact, abs=1e-4)


def test_wrong_equations_are_those_of_the_misconceptions():
    """Atoms fit and charges do not; the two ideas are twins where no water takes part."""
    reduction, oxidation = (written(half, oxidation=bool(at)) for at, half in enumerate(redox_halves("Al + Cu^2+ -> Al^3+ + Cu")))
    right = parse_equation("3Cu^2+ + 2Al -> 3Cu + 2Al^3+")
    for name in ("charge ignored", "added as they stand"):
        assert reshaped(name, (reduction, oxidation), right).text == "Cu^2+ + Al -> Cu + Al^3+"


CERIUM = ["titrant = Ce^4+/Ce^3+", "analyte = Fe^3+/Fe^2+"]


def test_an_indicator_fits_where_it_changes_within_the_step():
    """Ferroin is what books take for iron(II) with cerium(IV) (Harvey, Analytical Chemistry, section 9.4; from memory)."""
    told = work(None, [*CERIUM, "indicators = methylene blue, diphenylamine, ferroin"], "indicator")
    assert told["text"] == "ferroin"


def test_two_indicators_within_the_step_are_refused():
    with pytest.raises(Faulty) as caught:
        work(None, [*CERIUM, "indicators = ferroin, nitroferroin, methylene blue"], "indicator")
    assert [fault.code for fault in caught.value.faults] == ["undefined"]
    assert "more than one" in caught.value.faults[0].found


def test_the_ends_of_the_step_hold_the_potential_at_equivalence():
    """From 0.1 % before to 0.1 % beyond; chempy live, ratios of 999 and of 0.001."""
    low, high = (work(None, CERIUM, find)["value"] for find in ("E_step_low", "E_step_high"))
    assert low == pytest.approx(0.771 + nernst_potential(999, 1, 1, 298.15), abs=2e-4)
    assert high == pytest.approx(1.74 + nernst_potential(0.001, 1, 1, 298.15), abs=2e-4)
    assert low < work(None, CERIUM, "E_eq")["value"] < high


def test_a_mass_fraction_needs_no_flask():
    """0.002 mol × 55.85 g/mol in 0.5 g, by plain arithmetic."""
    told = ["M_analyte = 55.85 g/mol", "n_analyte = 0.002 mol", "m_sample = 0.5 g"]
    assert work(None, told, "w_analyte")["value"] == pytest.approx(0.002 * 55.85 / 0.5 * 100)
