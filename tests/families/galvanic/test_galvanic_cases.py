"""Galvanic cells against books; every ion with every salt of a bridge that the sources name; masses by a formula of their own."""

from __future__ import annotations

import pytest
from checks.outside import as_printed, cases
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.api import work
from saltbridge.chemistry.realism import insoluble
from saltbridge.faults import Faulty
from saltbridge.scenarios.cell.loop import bridge_salt

CELLS = cases("galvanic_cases.yaml", "cells")
BRIDGES = cases("galvanic_cases.yaml", "bridges")
FARADAY = 96485  # as the college sheet prints it


@pytest.mark.parametrize("case", CELLS, ids=lambda case: case["diagram"])
def test_a_cell_gives_what_the_book_prints(case):
    assert as_printed(work(case["diagram"], case.get("given", []), case["find"])["value"], case["printed"])


@pytest.mark.parametrize("case", cases("galvanic_cases.yaml", "known_as_told"), ids=lambda case: case["diagram"])
def test_an_exercise_needs_the_potential_that_it_took(case):
    """The book's table and its appendix differ; each gives its own answer."""
    assert as_printed(work(case["diagram"], case["given"], case["find"])["value"], case["printed"])
    assert as_printed(work(case["diagram"], [], case["find"])["value"], case["differs"])


@pytest.mark.parametrize("case", cases("galvanic_cases.yaml", "equations"), ids=lambda case: case["diagram"])
def test_the_cell_reaction_has_the_coefficients_of_the_book(case):
    found = work(case["diagram"], [], "equation")["equation"]
    assert [sorted(side.split(" + ")) for side in found.split(" -> ")] == [
        sorted(side.split(" + ")) for side in case["equation"].split(" -> ")
    ]


@pytest.mark.parametrize("case", BRIDGES, ids=lambda case: f"{case['salt']} with {case['ion']}")
def test_a_bridge_salt_fits_where_the_rules_of_solubility_let_it(case):
    assert (case["ion"] not in insoluble(bridge_salt(case["salt"]).anion)) is case["fits"]


CELL = "Zn(s) | Zn^2+(aq) || Ag^+(aq) | Ag(s)"


@settings(deadline=None, max_examples=25)
@given(mass=st.integers(1, 999))
def test_the_masses_at_both_electrodes_belong_to_the_same_electrons(mass):
    """65.38 g of zinc give two moles of electrons and these 215.74 g of silver (IUPAC weights), at any mass and both ways."""
    lost = mass / 100
    gained = work(CELL, [f"m_lost = {lost:.2f} g"], "m_gained")["value"]
    assert gained == pytest.approx(lost / 65.38 * 2 * 107.87, rel=1e-9)
    assert work(CELL, [f"m_gained = {lost:.2f} g"], "m_lost")["value"] == pytest.approx(lost / 107.87 / 2 * 65.38, rel=1e-9)


@pytest.mark.parametrize(
    ("know", "find", "value"),
    [
        (["n_lost = 0.010 mol"], "n_e", 0.020),
        (["n_lost = 0.010 mol"], "q", 0.020 * FARADAY),
        (["n_lost = 0.010 mol"], "n_gained", 0.020),
        (["I = 0.50 A", "t = 30 min"], "m_lost", 0.50 * 1800 / FARADAY / 2 * 65.38),
        (["I = 0.50 A", "t = 30 min"], "n_gained", 0.50 * 1800 / FARADAY),
        (["m_gained = 1.00 g", "t = 1 h"], "I", 1.00 / 107.87 * FARADAY / 3600),
        (["U_wanted = 6.0 V"], "k_cells", 4),
    ],
)
def test_what_passes_through_a_cell_is_found_from_anything_told(know, find, value):
    """Charge through the bridge, amounts, masses, currents by plain arithmetic of Faraday's law."""
    assert work(CELL, know, find)["value"] == pytest.approx(value, rel=2e-6)


@pytest.mark.parametrize(
    ("find", "text"),
    [
        ("anode_sign", "negative"), ("electrons_to", "right"), ("cations_to", "right"), ("anions_to", "left"), ("gains_mass", "right"),
        ("in_wire", "electrons"), ("in_solution", "ions"), ("in_bridge", "ions"), ("bridge_ions", "both"), ("without_bridge", "zero"),
        ("current_round", "the same"), ("used_up", "reactants"), ("drift_reason", "both solutions stay neutral"),
        ("drift_end", "as much as the electrons"),
    ],
)  # fmt: skip
def test_words_of_the_loop_are_told_at_the_command_line(find, text):
    assert work(CELL, [], find)["text"] == text


@pytest.mark.parametrize(("salt", "fits"), [("KCl", "no"), ("KNO3", "yes"), ("potassium nitrate", "yes")])
def test_a_salt_told_for_the_bridge_is_judged(salt, fits):
    assert work(CELL, [f"bridge = {salt}"], "bridge_fits")["text"] == fits


@pytest.mark.parametrize(
    ("salt", "said"),
    [("KCl", "Here AgCl would fall out."), ("Na2CO3", "Here ZnCO₃, Ag₂CO₃ would fall out."), ("KNO3", "nothing falls out")],
)
def test_the_working_names_the_solid_that_a_bridge_would_make(salt, said):
    (step,) = work(CELL, [f"bridge = {salt}"], "bridge_fits")["steps"]
    assert said in step["say"]


def test_an_unknown_salt_is_refused_with_all_that_are_known():
    with pytest.raises(Faulty) as caught:
        work(CELL, ["bridge = salt"], "bridge_fits")
    (fault,) = caught.value.faults
    assert (fault.code, fault.found) == ("unknown-bridge-salt", "salt")
    assert fault.expected.startswith("a salt of bridge_salts.csv: KNO3, NH4NO3, NaNO3, KCl")


def test_an_inert_electrode_has_no_mass_to_lose():
    with pytest.raises(Faulty) as caught:
        work("Zn(s) | Zn^2+(aq) || Fe^3+(aq), Fe^2+(aq) | Pt(s)", ["m_lost = 0.50 g"], "m_gained")
    assert [(each.code, each.found, each.hint) for each in caught.value.faults] == [
        ("no-metal", "Pt", "An inert electrode keeps its mass.")
    ]
