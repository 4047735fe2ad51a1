"""Each question form of concentration, energy and equilibrium is a template without Python: drawn, composed and judged."""

from __future__ import annotations

from decimal import Decimal
from math import log10
from pathlib import Path

import pytest
from families.family_bank import given_values, keys, must_be_caught, prints_whole, right_answers, samples, slips_told

from saltbridge.bank.bank import load_bank
from saltbridge.chemistry.realism import RULES
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import Faulty
from saltbridge.render.text import spans_text
from saltbridge.scenarios.concentration.changes import ACTIONS, CHANGES
from saltbridge.tables import sheet

FAMILIES = ("concentration", "equilibrium")
SLOPE = 0.0592  # V, as the college sheet prints it
E0 = {row.couple: float(row.E0) for row in sheet("college").rows}

test_the_right_answer_is_judged_right = right_answers(*FAMILIES)
test_slips_are_recognised = slips_told(*FAMILIES)
test_what_must_be_caught_is_caught = must_be_caught(*FAMILIES)
test_a_question_prints_without_holes = prints_whole(*FAMILIES)


# ------------------------------------------------------------------ plain formulas


def _value(key):
    return Decimal(key["lo"]), Decimal(key["hi"])


def _within(key, value):
    low, high = _value(key)
    assert low <= Decimal(f"{value:.12g}") <= high


def _key(question, variant, label):
    return next(key for part, key in keys(question, variant) if part.label == label)


def test_hydrogen_electrodes_follow_the_formula_of_the_textbook():
    """-0.0592 pH - 0.0296 lg p, worked out from the drawn pH and pressure."""
    for drawn, question, variant in samples("concentration", "hydrogen-electrode"):
        told = given_values(drawn)
        _within(_key(question, variant, "a"), -SLOPE * told["pH"] - SLOPE / 2 * log10(told["p:kPa"] / 100))


def test_oxidants_fall_by_hydrogen_ions_over_electrons():
    counts = {"MnO₄⁻/Mn²⁺": ("MnO4^-/Mn^2+", 8, 5), "Cr₂O₇²⁻/Cr³⁺": ("Cr2O7^2-/Cr^3+", 14, 6)}
    seen = set()
    for drawn, question, variant in samples("concentration", "permanganate"):
        label = spans_text((drawn.situation.labels["couple"],))
        couple, protons, electrons = counts[label]
        seen.add(couple)
        slope = -SLOPE * protons / electrons
        _within(_key(question, variant, "a"), 1000 * slope)
        _within(_key(question, variant, "b"), E0[couple] + slope * given_values(drawn)["pH"])
    assert len(seen) == 2


def test_cells_after_a_while_follow_their_own_arithmetic():
    """Concentrations from the fraction used up, then the Nernst equation, apart from the derivation."""
    for drawn, question, variant in samples("concentration", "after-a-while"):
        told = given_values(drawn)
        x, n = told["x_reacted:%"] / 100, told["equation.count"]
        left = told["c_reactant_0"] * (1 - x)
        made = told["c_product_0"] + told["nu_anode"] / told["nu_cathode"] * x * told["c_reactant_0"]
        lg_Q = told["nu_anode"] * log10(made) - told["nu_cathode"] * log10(left)
        potentials = sorted(told[f"{side}.E0"] for side in ("left", "right"))
        _within(_key(question, variant, "b"), potentials[1] - potentials[0] - SLOPE / n * lg_Q)


def test_a_diluted_cell_shifts_as_two_nernst_equations_differ():
    for drawn, question, variant in samples("concentration", "dilution-mistake"):
        told = given_values(drawn)
        at_anode = "anode" in drawn.situation.words["change"]
        lg_Q = -told["nu_anode"] * log10(told["f_dilution"]) if at_anode else told["nu_cathode"] * log10(told["f_dilution"])
        _within(_key(question, variant, "a"), -1000 * SLOPE / told["equation.count"] * lg_Q)


def test_constants_follow_one_line_formulas():
    for drawn, question, variant in samples("equilibrium", "solubility-product"):
        told = given_values(drawn)
        _within(_key(question, variant, "a"), told["n_salt"] * (told["salt.E0"] - told["metal.E0"]) / SLOPE)
    for drawn, question, variant in samples("equilibrium", "formation-constant"):
        told = given_values(drawn)
        _within(_key(question, variant, "a"), told["n_complex"] * (told["free.E0"] - told["complex.E0"]) / SLOPE)


@pytest.mark.parametrize("name", CHANGES)
def test_the_direction_of_a_change_is_that_of_the_nernst_equation(name):
    """A change of a concentration is put into E = E0 - ln(c_anode/c_cathode); size is in no formula."""
    before = {"anode": 1.0, "cathode": 1.0}
    factor = {"dilute": 0.5, "add": 2.0, "precipitate": 0.01}.get(name.split()[0], 1.0)
    after = {each: value * (factor if name.endswith(each) else 1.0) for each, value in before.items()}
    rise = (log10(before["anode"]) - log10(before["cathode"])) - (log10(after["anode"]) - log10(after["cathode"]))
    assert CHANGES[name].on_Q == (0 if rise == 0 else -1 if rise > 0 else 1)
    assert set(ACTIONS) == set(CHANGES)


def test_wrong_directions_are_traced_to_their_ideas():
    """Each wrong choice shows one of the three ideas, or that the change was read the wrong way."""
    found = set()
    for _, question, variant in samples("concentration", "up-down-or-same"):
        found |= {name for slips in _key(question, variant, "a")["slips"].values() for name in slips}
    ideas = {"more-product-more-volts", "concentration-stays-out", "bigger-plates-bigger-volts"}
    assert found <= ideas | {"change-read-the-wrong-way", "size-stands-in-quotient"}
    assert "concentration-stays-out" in found or "bigger-plates-bigger-volts" in found


def test_the_written_quotient_has_powers_and_no_solids():
    for drawn, question, variant in samples("concentration", "write-the-quotient"):
        key = _key(question, variant, "a")
        options = [spans_text(option, variant.slots) for option in question.parts[0].field.options]
        right = options[key["right"][0]]
        assert "m(" not in right
        assert any(power in right for power in "²³")
        assert len(set(options)) == len(options) == 4
        assert drawn.situation.words["equation"]


# ------------------------------------------------------------------ refusals

SCENARIOS = {
    "a pH with a unit": (
        "electrode: {couples: [H^+/H2], pH: 7 V}",
        "expected a plain number; found `7 V`. Leave the unit out. [quantity-kind]",
    ),
    "a pH of no water": (
        "electrode: {couples: [H^+/H2], pH: '40'}",
        "expected a number from -1 to 15; found `40` [quantity-range]",
    ),
    "all used up": (
        "running cell: {metals: [Zn, Cu], start at cathode: '1.0', start at anode: '1.0', reacted: 100 %}",
        "expected `reacted` below 100 %; found `100 %`. As `99.9 %`. [quantity-range]",
    ),
    "a factor without dilution": (
        "changed cell: {metals: [Zn, Cu], changes: [larger plates], factor: '10'}",
        "expected only changes that dilute beside `factor`; found `larger plates`. Leave one of them out. [change-factor]",
    ),
    "an unknown change": (
        "changed cell: {metals: [Zn, Cu], changes: [dilute the cathod]}",
        "expected a change that the tool knows; found `dilute the cathod`. Did you mean `dilute the cathode`? [unknown-change]",
    ),
    "one point": (
        "potential line: {couples: [Ag^+/Ag], against: lg c, concentrations: '0.10'}",
        "expected `concentrations` with two values or more; found fewer. As `concentrations: {from: [0.010, 1.0]}`. [line-points]",
    ),
    "two kinds of constant": (
        "equilibrium constant: {salts: [AgCl/Ag], water: [O2/OH^-]}",
        "expected one of `salts`, `complexes` and `water`; found 2 of them [constant-kind]",
    ),
    "one metal": (
        "cell energy: {metals: [Zn]}",
        "expected two or more to draw from; found only `Zn` [half-cells]",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", SCENARIOS)
def test_an_impossible_scenario_is_refused_when_read(case, tmp_path):
    scenario, message = SCENARIOS[case]
    source = Path(__file__).parent / "bank" / "bank.yaml"
    (tmp_path / "bank.yaml").write_text(source.read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "bad.yaml").write_text(
        f"title: Bad\noutcome: T4.5\nlevel: core\nscenario:\n  {scenario}\ntext: A text.\nparts:\n  - ask: Find it.\n    find: E\n",
        encoding="utf-8",
    )
    with pytest.raises(Faulty) as caught:
        load_bank(tmp_path)
    assert [each.split(": ", 2)[2] for each in str(caught.value).splitlines()] == [message]


def test_gases_out_of_range_break_a_rule():
    assert RULES["R-GAS"].check(Facts(values={"p": 9.0})) == "a pressure of 900 kPa is outside 10 to 500 kPa"
    assert RULES["R-GAS"].check(Facts(values={"p": 0.5})) is None
