"""Slips: each gives what its belief gives, computed apart; those that can't be told from something else are dropped."""

from __future__ import annotations

import itertools
import math
from decimal import Decimal
from pathlib import Path

import pytest
import yaml
from cells_for_tests import CHARGES, Solved, bath, cell, solved, two_metals

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.graph.laws import Situation, instance
from saltbridge.graph.routes import Asked
from saltbridge.graph.solved import Outcome, outcome, points_of
from saltbridge.home import shipped
from saltbridge.scenarios.bench.bench_situation import Strips, bench
from saltbridge.scenarios.cell.galvanic import Temperature
from saltbridge.scenarios.situations import add_constants, add_given
from saltbridge.tables import sheet

FORMULAS = yaml.safe_load((Path(__file__).parent / "slip_formulas.yaml").read_text(encoding="utf-8"))
_MATHS = {"abs": abs, "log": math.log, "log10": math.log10}
CELLS = [
    ("Zn", "Cu", "0.10", "0.50"), ("Ag", "Zn", "0.020", "0.40"), ("Al", "Cu", "0.25", "0.010"), ("Cu", "Ag", "0.30", "0.0050"),
    ("Ni", "Pb", "2.0", "0.0010"), ("Ag", "Cr", "0.10", "0.050"), ("Fe", "Zn", "0.60", "0.15"),
]  # fmt: skip


def _by_hand(text: str, values: dict[str, float]) -> float:
    return float(eval(text, {"__builtins__": {}}, {**_MATHS, **values}))  # noqa: S307 - our own file, arithmetic apart from the derivation


def _values(run: Solved, target: str) -> dict[str, float]:
    """Each slip on the way to a target, run by itself at full precision."""
    points = points_of(run.graph, target, run.situation, catalogue())
    return {point.slip.id: run.graph.value(run.graph.run(run.start, point.put), target) for point in points}


def _check(run: Solved, target: str, values: dict[str, float], expected: set[str]) -> None:
    found = _values(run, target)
    for slip in expected:
        formula = FORMULAS[slip]
        assert run[target] == pytest.approx(_by_hand(formula["right"], values), rel=1e-9), slip
        assert found[slip] == pytest.approx(_by_hand(formula["wrong"], values), rel=1e-9, abs=1e-12), slip


def _cell_symbols(metals: tuple[str, str], amounts: tuple[str, str], page: str, celsius: float) -> dict[str, float]:
    """The symbols of a working cell worked out from the sheet alone."""
    known = sheet(page)
    rows = {row.couple: float(row.E0) for row in known.rows}
    from saltbridge.tables import metals as all_metals  # noqa: PLC0415 - its name is taken here

    L, H = (rows[all_metals()[metal].couple] for metal in metals)
    cathode, anode = (1, 0) if H > L else (0, 1)
    charges = [CHARGES[metal] for metal in metals]
    n = math.lcm(*charges)
    c = [float(amount) for amount in amounts]
    nu_c, nu_a = n // charges[cathode], n // charges[anode]
    E_c, E_a = (L, H)[cathode], (L, H)[anode]
    constants = {name: float(known.constants[name].printed) for name in ("F", "R")}
    return {
        **constants, "L": L, "H": H, "E_c": E_c, "E_a": E_a, "E0": E_c - E_a, "n": n, "n_c": charges[cathode], "n_a": charges[anode],
        "nu_c": nu_c, "nu_a": nu_a, "c_prod": c[anode], "c_reac": c[cathode], "Q": c[anode] ** nu_a / c[cathode] ** nu_c,
        "T": celsius + 273.15, "T_C": celsius,
    }  # fmt: skip


OF_CELL = {
    "E0_cell": {
        "add-both-as-printed", "flip-and-still-subtract", "anode-minus-cathode", "coefficients-multiply-potential", "add-magnitudes",
        "subtract-magnitudes", "left-hand-electrode-is-anode", "higher-potential-is-oxidised", "bigger-number-is-cathode",
    },
    "E_cell": {
        "nernst-plus-sign", "quotient-upside-down", "common-log-with-natural-prefactor", "natural-log-with-0592", "nernst-without-n",
        "n-is-sum-of-both-halves", "concentration-has-no-effect", "celsius-in-nernst",
    },
    "dG0": {"delta-g-sign-lost", "delta-g-without-n", "delta-g-neither-n-nor-sign"},
    "dG0:kJ/mol": {"joule-written-as-kilojoule"},
    "lgK": {"k-exponent-negative", "k-base-mixed", "k-without-n"},
    "Q": {"quotient-turned-over"},
    "K": {"logarithm-given-for-the-constant"},
}  # fmt: skip


@pytest.mark.parametrize("page", ["school", "college"])
@pytest.mark.parametrize("told", CELLS, ids=["-".join(each[:2]) for each in CELLS])
@pytest.mark.parametrize("target", OF_CELL)
def test_slips_of_a_cell_give_what_their_belief_gives(target: str, told: tuple[str, ...], page: str):
    celsius = 40.0
    situation = cell(two_metals(*told), page, Temperature("40.0", "°C"), nernst="ln")
    values = _cell_symbols((told[0], told[1]), (told[2], told[3]), page, celsius)
    _check(solved(situation, target), target, values, OF_CELL[target])


@pytest.mark.parametrize(
    "told", [each for each in CELLS if CHARGES[each[0]] != CHARGES[each[1]]], ids=lambda told: told[0] + told[1]
)
def test_a_quotient_without_powers_is_the_plain_fraction(told: tuple[str, ...]):
    run = solved(cell(two_metals(*told)), "Q")
    _check(run, "Q", _cell_symbols((told[0], told[1]), (told[2], told[3]), "college", 25), {"quotient-without-powers"})


@pytest.mark.parametrize(
    ("metal", "current", "hours"), [("Cu", "2.50", "0.5"), ("Ag", "0.80", "1.5"), ("Cr", "10.0", "2.0"), ("Al", "3.0", "24")]
)
def test_slips_of_an_electrolysis_give_what_their_belief_gives(metal: str, current: str, hours: str):
    amperes, t_h, known = float(current), float(hours), sheet("college")
    values = {
        "I": amperes, "I_mA": amperes * 1000, "t_h": t_h, "t_min": t_h * 60, "t_s": t_h * 3600, "z": CHARGES[metal], "eta": 0.85,
        "F": float(known.constants["F"].printed), "M": float(known.atomic_masses[metal]),
    }  # fmt: skip
    minutes = f"{float(hours) * 60:g} min"
    _check(
        solved(bath(metal, I=f"{current} A", t=minutes), "m"),
        "m",
        values,
        {"minutes-used-as-seconds", "no-electron-ratio", "multiply-by-charge-number", "faraday-left-out", "charge-times-faraday"},
    )
    _check(solved(bath(metal, I=f"{current} A", t=f"{hours} h"), "m"), "m", values, {"hours-used-as-seconds"})
    _check(solved(bath(metal, I=f"{amperes * 1000:g} mA", t=f"{t_h * 3600:g} s"), "q"), "q", values, {"milliamp-as-amp"})
    _check(
        solved(bath(metal, I=f"{current} A", t=minutes, efficiency="85 %"), "m"),
        "m",
        values,
        {"efficiency-upside-down", "efficiency-ignored"},
    )


@pytest.mark.parametrize("metal", ["Cu", "Cr", "Al"])
def test_the_amount_of_metal_for_that_of_electrons_counts_only_where_electrons_are_asked(metal: str):
    known = sheet("college")
    values = {"I": 2.5, "t_s": 1800.0, "z": CHARGES[metal], "F": float(known.constants["F"].printed)}
    situation = bath(metal, I="2.50 A", t="1800 s")
    asked = solved(situation, "n_e")
    _check(asked, "n_e", values, {"amount-of-metal-for-electrons"})
    for behind in ("m", "n_B"):
        assert "amount-of-metal-for-electrons" not in _values(solved(situation, behind), behind)


def test_a_metal_of_one_electron_hides_the_amount_of_metal():
    asked = Asked(figures=3)
    silver, copper = (_kept(_judged(bath(metal, I="2.50 A", t="1800 s"), "n_e", asked)) for metal in ("Ag", "Cu"))
    assert ("amount-of-metal-for-electrons" in silver, "amount-of-metal-for-electrons" in copper) == (False, True)


def test_slips_with_a_reference_metal_give_what_their_belief_gives():
    known = sheet("college")
    situation = bench(Strips("Cu", {"Zn": "-1.10", "Ag": "0.46"}, ("Ag", "Zn"), "Ag"), known, catalogue())
    for owner, reading in (("s1", -1.10), ("s2", 0.46)):
        values = {"E_ref": float(situation.given["E_ref"].value), "V_read": reading}
        run = solved(situation, f"{owner}.E")
        _check(run, f"{owner}.E", values, {"reference-metal-is-zero", "reference-shift-added"})


def test_slips_of_a_pair_of_readings_give_what_their_belief_gives():
    situation = bench(Strips("Cu", {"Zn": "-1.10", "Ag": "0.46"}, ("Ag", "Zn"), "Ag"), sheet("college"), catalogue())
    _check(
        solved(situation, "reading_pair"),
        "reading_pair",
        {"V_red": 0.46, "V_black": -1.10},
        {"readings-added", "leads-changed-over"},
    )


def test_the_stronger_solution_may_be_taken_for_the_anode():
    run = solved(cell(two_metals("Cu", "Cu", "0.0020", "0.80"), nernst="ln"), "anode")
    assert run["anode"] == "left"
    assert _values(run, "anode")["stronger-solution-is-anode"] == "right"


def test_signs_dropped_put_the_strips_in_another_order():
    situation = bench(
        Strips("Cu", {"Zn": "-1.10", "Ag": "0.46", "Ni": "-0.60"}, ("Ag", "Zn"), "Ag"), sheet("college"), catalogue()
    )
    run = solved(situation, "ranking")
    assert run["ranking"] == "s1<s3<s2"
    assert _values(run, "ranking") == {"signs-dropped-in-ranking": "s2<s3<s1"}


@pytest.mark.parametrize(("unknown", "known_role"), [("E0_anode", "E0_cathode"), ("E0_cathode", "E0_anode")])
def test_slips_turn_round_with_the_question(unknown: str, known_role: str):
    situation = Situation()
    add_constants(situation, sheet("college"))
    for name, printed in (("E0_cell", "1.25"), (known_role, "0.80" if known_role == "E0_cathode" else "-0.45")):
        add_given(situation, catalogue(), name, printed, "V")
    for name in ("nu_cathode", "nu_anode"):
        add_given(situation, catalogue(), name, "2" if name == "nu_cathode" else "1", "")
    situation.laws.append(instance(catalogue().relations["standard-cell-potential"]))
    run = solved(situation, unknown)
    E_c, E_a = (0.80, 0.80 - 1.25) if unknown == "E0_anode" else (-0.45 + 1.25, -0.45)
    values = {"E0": 1.25, "E_c": E_c, "E_a": E_a}
    own = "unknown-couple-wrong-rearrangement" if unknown == "E0_anode" else "unknown-cathode-wrong-rearrangement"
    _check(run, unknown, values, {own})
    found = _values(run, unknown)
    # Each wrong equation solved for the other name: E0 = a + b, E0 = a - (-b), E0 = b - a, E0 = 2a - b.
    by_hand = {
        "E0_anode": {"add-both-as-printed": 1.25 - 0.80, "flip-and-still-subtract": 1.25 - 0.80, "anode-minus-cathode": 1.25 + 0.80,
                     "coefficients-multiply-potential": 2 * 0.80 - 1.25},
        "E0_cathode": {"add-both-as-printed": 1.25 + 0.45, "flip-and-still-subtract": 1.25 + 0.45, "anode-minus-cathode": -0.45 - 1.25,
                       "coefficients-multiply-potential": (1.25 - 0.45) / 2},
    }[unknown]  # fmt: skip
    for slip, value in by_hand.items():
        assert found[slip] == pytest.approx(value, rel=1e-12), slip
    assert set(found) == {*by_hand, own}  # magnitudes can't be turned round


def test_every_slip_of_the_main_file_has_a_formula_worked_out_apart():
    """A family with a file of its own under data/slips/ or data/rules/ brings its own formulas and tests."""
    main = yaml.safe_load((shipped("data") / "slips.yaml").read_text(encoding="utf-8"))
    at_rules = {name for name, slip in catalogue().slips.items() if slip.rules}
    assert set(main) == set(FORMULAS) - at_rules
    assert set(FORMULAS) <= set(catalogue().slips)


# ------------------------------------------------------------------ dropped and joined


def _judged(situation: Situation, target: str, asked: Asked) -> Outcome:
    run = solved(situation, target)
    return outcome(run.graph, run.start, target, asked, points_of(run.graph, target, situation, catalogue()))


def _kept(found: Outcome) -> dict[str, tuple[str, ...]]:
    return {value.point.slip.id: value.same for value in found.slips}


def test_a_slip_that_gives_the_right_answer_is_dropped():
    kept = _kept(_judged(cell(two_metals("Zn", "Cu")), "E0_cell", Asked(decimals=2)))
    assert "add-magnitudes" not in kept  # zero lies between the couples
    assert "coefficients-multiply-potential" not in kept  # both multipliers are 1
    assert "left-hand-electrode-is-anode" not in kept  # zinc is drawn on the left


def test_declared_twins_join_under_the_first():
    kept = _kept(_judged(cell(two_metals("Zn", "Cu")), "E0_cell", Asked(decimals=2)))
    assert kept["add-both-as-printed"] == ("flip-and-still-subtract",)
    assert "flip-and-still-subtract" not in kept


def test_of_two_slips_that_are_no_twins_but_give_the_same_only_the_first_is_kept():
    found = _judged(cell(two_metals("Cu", "Zn")), "E0_cell", Asked(decimals=2))
    assert found.slips[1].point.slip.id == "anode-minus-cathode"
    assert found.slips[1].same == ()  # the anode taken on the left gives the same number, but is not its twin
    assert "left-hand-electrode-is-anode" not in _kept(found)


def test_no_slip_range_meets_the_accepted_range_or_another():
    for told in CELLS:
        for target, asked in (("E_cell", Asked(figures=3)), ("dG0:kJ/mol", Asked(figures=3)), ("K", Asked(figures=2, log=True))):
            found = _judged(cell(two_metals(*told), "school", nernst="lg"), target, asked)
            ranges = [(found.right.lo, found.right.hi), *((value.lo, value.hi) for value in found.slips)]
            ordered = sorted(ranges)
            assert all(first[1] <= second[0] for first, second in itertools.pairwise(ordered)), (told, target)


def test_a_slip_made_with_the_printed_slope_is_recognised_too():
    """lg K = E0/0.059 without n: 1.06/0.059 = 17.97, printed 18.0, while R, T and F of the sheet give 17.94, printed 17.9."""
    found = _judged(cell(two_metals("Ni", "Ag"), "school", nernst="lg"), "lgK", Asked(decimals=1))
    value = next(value for value in found.slips if value.point.slip.id == "k-without-n")
    assert value.lo <= Decimal("17.9") <= value.hi
    assert value.lo <= Decimal("18.0") <= value.hi


def test_a_slip_of_the_celsius_scale_is_found_at_25_degrees():
    found = _judged(
        cell(two_metals("Zn", "Cu", "0.0010", "1.0"), "college", Temperature("25", "°C"), nernst="ln"),
        "E_cell",
        Asked(decimals=3),
    )
    assert "celsius-in-nernst" in _kept(found)
