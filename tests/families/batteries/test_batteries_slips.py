"""Each slip of batteries gives the value of its own formula, worked out apart; laws of cells hold at full precision."""

from __future__ import annotations

import pytest
from families.family_slips import own_formulas, refusals
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.api import work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty
from saltbridge.tables import sheet

SHEET = sheet("college")
F = float(SHEET.constants["F"].printed)
ZINC = float(SHEET.atomic_masses["Zn"])
CELL = ["E_cell = 1.55 V", "R_int = 0.30 ohm", "I = 0.50 A"]
PACK = ["U_nom = 1.2 V", "q_cap = 2000 mAh", "N_series = 4", "N_parallel = 3"]
LINE = ["U_at1 = 1.50 V", "I_at1 = 0.10 A", "U_at2 = 1.30 V", "I_at2 = 0.60 A"]
HYDROGEN = ["fuel = H2", "dH0 = -285.8 kJ/mol", "dG0 = -237.1 kJ/mol"]

CASES = {
    # slip: (told, asked, right, wrong) with plain formulas
    "capacity-without-electron-count": (["metal = Zn"], "cap_gram", 2 * F / (3.6 * ZINC), F / (3.6 * ZINC)),
    "mah-over-amps": (["q_usable = 2400 mAh", "I = 0.12 A"], "t_run", 2400 / (0.12 * 1000), 2400 / 0.12),
    "mah-taken-as-ah": (["U_nom = 1.2 V", "q_cap = 2400 mAh"], "W_batt", 1.2 * 2.4, 1.2 * 2400),
    "usable-share-turned-round": (["q_cap = 2400 mAh", "usable = 80 %"], "q_usable", 2400 * 0.8, 2400 / 0.8),
    "terminal-equals-emf": (CELL, "U_term", 1.55 - 0.50 * 0.30, 1.55),
    "internal-drop-added": (CELL, "U_term", 1.55 - 0.50 * 0.30, 1.55 + 0.50 * 0.30),
    "charging-drop-subtracted": (CELL, "U_charge", 1.55 + 0.50 * 0.30, 1.55 - 0.50 * 0.30),
    "charging-at-emf-only": (CELL, "U_charge", 1.55 + 0.50 * 0.30, 1.55),
    "slope-sign-kept": (LINE, "R_int", 0.4, -0.4),
    "load-only-in-current": (["R_int = 0.50 ohm", "R_load = 2.50 ohm", "E_cell = 1.5 V"], "I", 1.5 / 3.0, 1.5 / 2.5),
    "parallel-cells-add-volts": (PACK, "U_pack", 4 * 1.2, 4 * 3 * 1.2),
    "series-cells-add-capacity": (PACK, "q_pack", 3 * 2000, 4 * 3 * 2000),
    "efficiency-of-work-without-n": (
        [*HYDROGEN, "U_term = 0.70 V"], "heat_share", 100 * 2 * F * 0.70 / 285800, 100 * F * 0.70 / 285800,
    ),
    "heat-voltage-without-n": (HYDROGEN, "U_tn", 285800 / (2 * F), 285800 / F),
    "heat-over-work": (HYDROGEN, "eta_ideal", 100 * 237.1 / 285.8, 100 * 285.8 / 237.1),
}  # fmt: skip

test_a_slip_gives_the_value_of_its_own_formula = own_formulas(CASES, or_twin=True)


@pytest.mark.parametrize(
    "relation",
    [each for each in catalogue().relations.values() if each.family.startswith(("Batteries", "Fuel"))],
    ids=lambda each: each.id,
)
def test_every_relation_is_solved_for_each_of_its_names(relation):
    """Told all names of an outside case but one, ``work`` finds that one."""
    quantities = catalogue().quantities
    case = relation.cases[0]
    for asked in relation.symbols:
        if quantities[asked].constant or quantities[asked].whole:
            continue
        know = [
            f"{name} = {case.values[name]!r} {quantities[name].unit}".strip()
            for name in relation.symbols
            if name != asked and not quantities[name].constant and abs(case.values[name]) <= 1e9
        ]
        found = work(None, know, asked, quantities[asked].unit or None)["value"]
        share = 100 if quantities[asked].show == "%" else 1  # given as a percentage where no unit is asked for
        assert found == pytest.approx(case.values[asked] * share, rel=5e-3)


def test_nothing_of_a_battery_is_planned_from_a_bath():
    """Current and time of an electrolysis lead to charge and mass, not to a battery's running time or a pack."""
    for asked in ("t_run", "U_term", "q_pack", "W_batt", "rate_corr", "m_block"):
        with pytest.raises(Faulty, match="not-derivable"):
            work(None, ["metal = Cu", "I = 1.0 A", "t = 10 min"], asked)


@settings(max_examples=15, deadline=None)
@given(st.integers(500, 4000), st.integers(1, 3000), st.integers(10, 5000))
def test_a_loaded_cell_keeps_its_energy(millivolts, inner, outer):
    """E I = I² r + U I, and the terminal voltage is E R/(R + r)."""
    know = [f"E_cell = {millivolts / 1000} V", f"R_int = {inner / 1000} ohm", f"R_load = {outer / 1000} ohm"]
    current, terminal = work(None, know, "I")["value"], work(None, know, "U_term")["value"]
    assert terminal == pytest.approx(millivolts / 1000 * outer / (inner + outer), rel=1e-9)
    assert millivolts / 1000 * current == pytest.approx(current**2 * inner / 1000 + terminal * current, rel=1e-9)


@settings(max_examples=15, deadline=None)
@given(st.integers(1, 20), st.integers(1, 20))
def test_the_energy_of_a_pack_is_that_of_its_cells(series, parallel):
    know = ["U_nom = 1.2 V", "q_cap = 2000 mAh", f"N_series = {series}", f"N_parallel = {parallel}"]
    assert work(None, know, "W_pack")["value"] == pytest.approx(series * parallel * 2.4, rel=1e-9)


IMPOSSIBLE = [
    (["battery = lead"], "cell_kind", 'expected a battery of the table; found lead. Did you mean "lead-acid"? [unknown-battery]'),
    (["fuel = H2", "medium = water"], "equation", "expected medium = acid or medium = base; found water [medium]"),
    (["R_int = -0.2 ohm"], "R_total", "R_int = -0.2 ohm: expected R_int above zero; found -0.2 ohm [impossible]"),
    (["usable = 120 %"], "q_usable", "usable = 120 %: expected usable above zero and up to 100 %; found 120 % [impossible]"),
]  # fmt: skip

test_what_is_impossible_is_refused_with_a_whole_sentence = refusals(IMPOSSIBLE)
