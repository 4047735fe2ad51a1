"""Laws of concentration, energy and equilibrium at full precision, and two libraries run live."""

from __future__ import annotations

import math
from functools import cache

import phreeqpython
import pytest
from chempy.electrochemistry.nernst import nernst_potential
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from saltbridge.api import work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty
from saltbridge.tables import potentials, sheet

EXACT = ["R = 8.31446261815324 J/(mol K)", "F = 96485.33212331001 C/mol"]
F = 96485.33212331001
S = 8.31446261815324 * 298.15 * math.log(10) / F
QUICK = settings(max_examples=8, deadline=None)
amounts = st.floats(1e-4, 2).map(lambda value: f"{value:.6f}")
fractions = st.integers(1, 999)


def value(know, find):
    """A quantity in its coherent unit with exact constants."""
    unit = catalogue().quantities[find].unit
    found = work(None, [*know, *EXACT], find, unit or None)
    return found["value"] / 100 if found.get("unit") == "%" else found["value"]


# ------------------------------------------------------------------ concentration


@QUICK
@given(
    st.floats(0, 14).map(lambda pH: f"{pH:.3f}"),
    st.sampled_from(["MnO4^-/Mn^2+", "Cr2O7^2-/Cr^3+", "O2/H2O", "H^+/H2", "MnO2/Mn^2+"]),
)
def test_the_line_against_the_ph_is_the_nernst_equation(pH, couple):
    """The slope route and chempy's Nernst equation with hydrogen ions in Q give one potential."""
    half = potentials()[couple]
    row = next(row for row in sheet("college").rows if row.couple == couple)
    oxidised = half.half_reaction.split(" -> ")[0].split(" + ")
    protons = next(int(term.partition(" ")[0]) for term in oxidised if "H^+" in term)
    shift = nernst_potential(10 ** -float(pH), 1.0, 1, 298.15) * protons / half.n
    assert value([f"couple = {couple}", f"pH = {pH}"], "E") == pytest.approx(float(row.E0) + shift, abs=1e-5)


@QUICK
@given(st.floats(0, 14).map(lambda pH: f"{pH:.3f}"))
def test_oxygen_in_a_base_and_in_an_acid_follow_one_line(pH):
    """Both couples of oxygen differ by the ion product of water alone, the same at each pH."""
    gap = value(["couple = O2/H2O", f"pH = {pH}"], "E") - value(["couple = O2/OH^-", f"pH = {pH}"], "E")
    assert gap == pytest.approx(1.229 - 0.401 - 14 * S, abs=1e-9)


@QUICK
@given(amounts, st.sampled_from(["Zn^2+/Zn", "Ag^+/Ag", "Cr^3+/Cr"]))
def test_a_concentration_is_found_back_from_its_potential(c, couple):
    ion = couple.partition("/")[0]
    E = value([f"couple = {couple}", f"c({ion}) = {c} mol/L"], "E")
    assert value([f"couple = {couple}", f"E = {E!r} V"], "c") == pytest.approx(float(c), rel=1e-9)


@QUICK
@given(fractions, fractions)
def test_a_cell_that_runs_down_loses_voltage_all_the_way(one, other):
    """With equal starts Q is (1+x)/(1-x), and it grows with x."""

    def quotient(permille):
        told = [
            "c_reactant_0 = 1.0 mol/L",
            "c_product_0 = 1.0 mol/L",
            "nu_anode = 1",
            "nu_cathode = 1",
            f"x_reacted = {permille / 1000}",
        ]
        return value(told, "c_product") / value(told, "c_reactant")

    assert quotient(one) == pytest.approx((1000 + one) / (1000 - one), rel=1e-9)
    assert (quotient(one) < quotient(other)) == (one < other)


@QUICK
@given(amounts, amounts, st.floats(-3, 3).map(lambda lgK: f"{lgK:.4f}"))
def test_a_flat_cell_is_where_scipy_finds_equilibrium(c, made, lgK):
    K = 10 ** float(lgK)
    left = brentq(lambda x: (float(made) + float(c) - x) / x - K, 1e-15, float(made) + float(c))
    assert value([f"c_reactant_0 = {c} mol/L", f"c_product_0 = {made} mol/L", f"K = {K!r}"], "c_flat") == pytest.approx(
        left, rel=1e-9
    )


@QUICK
@given(amounts, amounts, st.integers(1, 900), st.integers(1, 900))
def test_no_ions_are_lost_when_solutions_become_level(strong, weak, V1, V2):
    told = [f"c_conc = {strong} mol/L", f"c_dil = {weak} mol/L", f"V_conc = {V1} cm3", f"V_dil = {V2} cm3"]
    assert value(told, "c_level") * (V1 + V2) == pytest.approx(float(strong) * V1 + float(weak) * V2, rel=1e-9)


@QUICK
@given(st.integers(2, 50), st.integers(2, 50))
def test_two_dilutions_shift_as_one_by_their_product(one, other):
    def shift(times):
        return value(["s_ion = 1", "n = 2", f"f_dilution = {times}"], "dE_shift")

    assert shift(one) + shift(other) == pytest.approx(shift(one * other), rel=1e-9)
    assert shift(one) == pytest.approx(nernst_potential(float(one), 1.0, 2, 298.15), abs=1e-6)


# ------------------------------------------------------------------ energy and equilibrium


@QUICK
@given(st.floats(-3, 3).map(lambda E: f"{E:.4f}"), st.integers(1, 6), st.integers(1, 9))
def test_multiplying_an_equation_moves_energy_and_lg_k_but_no_potential(E, n, times):
    told = [f"E0_cell = {E} V", f"n = {n}", f"times = {times}"]
    energy, lgK = value(told, "dG0_times"), value(told, "lgK_times")
    assert energy == pytest.approx(-times * n * F * float(E), rel=1e-9, abs=1e-9)
    assert -energy / (value(told, "n_times") * F) == pytest.approx(value(told, "E0_times"), rel=1e-9, abs=1e-12)
    assert lgK == pytest.approx(times * n * float(E) / S, rel=1e-9, abs=1e-9)


@QUICK
@given(st.floats(-2, 2).map(lambda E: f"{E:.4f}"), st.floats(-2, 2).map(lambda slope: f"{slope:.4f}"), st.integers(1, 6))
def test_enthalpy_is_that_of_gibbs_and_helmholtz(E, slope, n):
    """ΔH = -nF(E - T dE/dT), the equation of Gibbs and Helmholtz (from memory), reached by way of entropy."""
    told = [f"E0_cell = {E} V", f"dEdT_cell = {slope} mV/K", f"n = {n}", "T = 298.15 K"]
    expected = -n * F * (float(E) - 298.15 * float(slope) / 1000)
    assert value(told, "dH0") == pytest.approx(expected, rel=1e-9, abs=1e-6)


@QUICK
@given(st.floats(-40, 40).map(lambda lgK: f"{lgK:.3f}"))
def test_signs_of_energy_and_equilibrium_go_together(lgK):
    told = [f"lgK = {lgK}", "n = 2", "T = 298.15 K", *EXACT]
    words = tuple(work(None, told, find)["text"] for find in ("sign_E0", "sign_dG0", "side_K"))
    number = float(lgK)
    expected = (
        ("positive", "negative", "above")
        if number > 0
        else ("zero", "zero", "equal")
        if number == 0
        else ("negative", "positive", "below")
    )
    assert words == expected


@QUICK
@given(st.floats(-20, -1).map(lambda lgK: f"{lgK:.3f}"))
def test_solubilities_are_roots_that_scipy_finds(lgK):
    K = 10 ** float(lgK)
    assert value([f"lgKsp = {lgK}"], "s_AB") == pytest.approx(brentq(lambda s: s * s / K - 1, 0, 1), rel=1e-6)
    assert value([f"lgKsp = {lgK}"], "s_AB2") == pytest.approx(brentq(lambda s: 4 * s**3 / K - 1, 0, 1), rel=1e-6)


# ------------------------------------------------------------------ PHREEQC, run live


@cache
def engine():
    """PHREEQC with its own database."""
    return phreeqpython.PhreeqPython(database="phreeqc.dat")


@pytest.mark.parametrize("millimoles", [0.1, 1, 10, 50])
def test_lye_has_the_poh_of_its_activity(millimoles):
    """14.00 less PHREEQC's pH is the pOH of its hydroxide activity, within the 0.005 that pKw 13.995 leaves."""
    solution = engine().add_solution_simple({"NaOH": millimoles})
    c = solution.activity("OH-", units="mol")
    assert value([f"c_OH = {c!r} mol/L"], "pH") == pytest.approx(solution.pH, abs=0.006)


@pytest.mark.parametrize(("weak", "strong", "share"), [(100, 800, 0.25), (20, 500, 0.5), (10, 1000, 0.9)])
def test_solutions_mix_as_phreeqc_mixes_them(weak, strong, share):
    first, second = engine().add_solution_simple({"NaCl": weak}), engine().add_solution_simple({"NaCl": strong})
    mixed = engine().mix_solutions({first: share, second: 1 - share})
    told = [
        f"c_dil = {weak / 1000} mol/L",
        f"c_conc = {strong / 1000} mol/L",
        f"V_dil = {share} dm3",
        f"V_conc = {1 - share} dm3",
    ]
    assert value(told, "c_level") == pytest.approx(mixed.total("Na", units="mol"), rel=1e-6)


SPARINGLY = {"Anglesite": ("Pb+2", "SO4-2", -7.79), "Gypsum": ("Ca+2", "SO4-2", -4.58), "Calcite": ("Ca+2", "CO3-2", -8.48)}
"""Mineral of phreeqc.dat: its ions and its lg K at 25 °C as the database prints it."""


@pytest.mark.parametrize("mineral", SPARINGLY)
@pytest.mark.parametrize("salt", [{"NaCl": 1}, {"Na2SO4": 10}])
def test_a_salt_dissolves_as_far_as_phreeqc_says(mineral, salt):
    """PHREEQC's activity of the cation over the mineral is the solubility product over that of the anion."""
    cation, anion, lgK = SPARINGLY[mineral]
    solution = engine().add_solution_simple(salt).equalize([mineral], [0])
    first, second = (solution.activity(ion, units="mol") for ion in (cation, anion))
    assert value([f"lgKsp = {lgK}", f"c_anion = {second!r} mol/L"], "c_over") == pytest.approx(first, rel=0.01)


# ------------------------------------------------------------------ what may be joined, what may not


@pytest.mark.parametrize("family", ["Electrode potentials and pH", "A cell that runs down", "Changes to a cell", "Potential lines",
                                    "Energy and temperature", "Multiplied equations", "Constants from potentials"])  # fmt: skip
def test_every_relation_is_solved_for_each_of_its_names(family):
    """All names of a relation but one are told from its outside case; the last comes back."""
    for relation in catalogue().relations.values():
        if relation.family != family:
            continue
        case = relation.cases[0].values
        for wanted in relation.symbols:
            if catalogue().quantities[wanted].constant or wanted == "T":
                continue
            told = [_line(name, number) for name, number in case.items() if name not in {wanted, "R", "F"}]
            assert value(told, wanted) == pytest.approx(case[wanted], rel=0.03, abs=3e-4), (relation.id, wanted)


def _line(name, number):
    quantity = catalogue().quantities[name]
    text = str(int(number)) if quantity.whole else repr(float(number))
    return f"{name} = {text} {quantity.unit}".strip()


NONSENSE = [
    (["E_cell = 1.0 V", "E0_cell = 1.1 V", "n = 2", "E0 = 0.34 V", "n_half = 2"], "E"),
    (["c_reactant = 0.1 mol/L"], "pH"),
    (["E_slope = 0.0592 V", "n_half = 1"], "m_H"),
    (["Ksp = 1e-10"], "K"),
    (["n_salt = 1", "E0_cell = 1.0 V"], "lgKsp"),
    (["q = 100 C", "E = 1.0 V"], "w_max"),
    (["dG = -100 kJ/mol", "dS0 = 10 J/(mol K)"], "dH0"),
]


@pytest.mark.parametrize(("know", "find"), NONSENSE)
def test_quantities_of_different_meaning_are_not_joined(know, find):
    with pytest.raises(Faulty, match="not-derivable"):
        work(None, know, find)


REFUSED = {
    "a negative concentration": (["c_conc = -1 mol/L"], "c_level", "c_conc = -1 mol/L: expected c_conc above zero; found -1 mol/L [impossible]"),
    "a species of another couple": (["couple = AgCl/Ag", "c(Zn^2+) = 0.1 mol/L"], "E", "expected a species of AgCl/Ag in Q (Cl^-); found Zn^2+ [species-not-in-couple]"),
    "a couple of no sheet": (["couple = Xx^2+/Xx"], "E", "expected a couple of College data sheet; found Xx^2+/Xx [couple-not-on-sheet]"),
    "an unknown change": (["cell_change = shake"], "direction", "expected one of: dilute the cathode, dilute the anode, add salt at the cathode, add salt at the anode, precipitate at the cathode, precipitate at the anode, larger plates, more solution; found shake [unknown-change]"),
    "a warm pOH": (["couple = O2/OH^-", "pH = 12", "T = 60 °C"], "E", "expected 25 °C, where pH and pOH add up to 14.00; found another temperature [impossible]"),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_refused(case):
    know, find, message = REFUSED[case]
    with pytest.raises(Faulty) as caught:
        work(None, know, find)
    assert str(caught.value) == message


def test_a_change_has_a_direction_at_the_command_line():
    assert work(None, ["cell_change = dilute the cathode"], "direction")["text"] == "falls"
    assert work(None, ["cell_change = larger plates"], "direction")["text"] == "stays"
