"""Laws that hold for every pair of metals and all concentrations, on both sheets."""

from __future__ import annotations

import math

import pytest
from cells_for_tests import CHARGES, bath, cell, solved, two_metals
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.faults import Faulty
from saltbridge.scenarios.cell.galvanic import Temperature

pairs = st.lists(st.sampled_from(sorted(CHARGES)), min_size=2, max_size=2, unique=True)
amounts = st.sampled_from(["0.0010", "0.0050", "0.010", "0.10", "0.25", "1.0", "2.0"])
pages = st.sampled_from(["school", "college"])
warmths = st.sampled_from([None, Temperature("25", "°C"), Temperature("310.15", "K"), Temperature("60", "°C")])
some = settings(max_examples=40, deadline=None)


@some
@given(pairs, amounts, amounts, pages, warmths)
def test_swapping_the_sides_turns_the_sign_as_written(metals, first, second, page, warm):
    here = solved(cell(two_metals(*metals, first, second), page, warm, as_written=True, nernst="ln"), "E_cell", "dG", "lgK")
    there = solved(
        cell(two_metals(*metals[::-1], second, first), page, warm, as_written=True, nernst="ln"), "E_cell", "dG", "lgK"
    )
    for node in ("E0_cell", "E_cell", "dG", "lgK"):
        assert here[node] == pytest.approx(-there[node], rel=1e-12, abs=1e-12)


@some
@given(pairs, amounts, amounts, pages, warmths)
def test_a_working_cell_is_the_same_wherever_it_is_drawn(metals, first, second, page, warm):
    here = solved(cell(two_metals(*metals, first, second), page, warm), "E_cell", "dG0", "K")
    there = solved(cell(two_metals(*metals[::-1], second, first), page, warm), "E_cell", "dG0", "K")
    for node in ("E0_cell", "E_cell", "dG0", "K"):
        assert here[node] == there[node]
    assert here["E0_cell"] > 0
    assert {here["anode"], there["anode"]} == {"left", "right"}


@some
@given(pairs, amounts, amounts, pages, st.booleans())
def test_potential_energy_and_equilibrium_agree_in_sign(metals, first, second, page, written):
    run = solved(cell(two_metals(*metals, first, second), page, as_written=written), "E_cell", "dG", "dG0", "lgK")
    assert math.copysign(1, run["dG0"]) == -math.copysign(1, run["lgK"]) == -math.copysign(1, run["E0_cell"])
    assert run["E_cell"] == 0 or math.copysign(1, run["dG"]) == -math.copysign(1, run["E_cell"])


@some
@given(pairs, amounts, amounts, pages, warmths, st.booleans())
def test_single_electrodes_give_the_same_cell(metals, first, second, page, warm, written):
    run = solved(
        cell(two_metals(*metals, first, second), page, warm, as_written=written, electrodes=True, nernst="ln"),
        "E_cell",
        "left.E",
        "right.E",
    )
    right = "right" if written else run["cathode"]
    left = "left" if right == "right" else "right"
    assert run["E_cell"] == pytest.approx(run[f"{right}.E"] - run[f"{left}.E"], abs=1e-12)


@some
@given(pairs, amounts, amounts)
def test_exact_constants_bring_both_forms_together(metals, first, second):
    """The lg form differs by the rounding of the printed slope alone: 0.0592 V against 0.05916 V."""
    log = abs(math.log10(float(first)) * 2) + abs(math.log10(float(second)) * 2) + 1
    ln = solved(cell(two_metals(*metals, first, second), nernst="ln"), "E_cell")
    lg = solved(cell(two_metals(*metals, first, second), nernst="lg"), "E_cell")
    assert abs(ln["E_cell"] - lg["E_cell"]) < 5e-5 * 3 * log


@some
@given(st.sampled_from(sorted(CHARGES)), st.lists(amounts, min_size=2, max_size=2, unique=True), pages)
def test_the_dilute_side_of_a_concentration_cell_is_the_anode(metal, both, page):
    run = solved(cell(two_metals(metal, metal, *both), page), "E_cell", "anode")
    assert run["anode"] == ("left" if float(both[0]) < float(both[1]) else "right")
    assert run["E0_cell"] == 0
    ratio = max(map(float, both)) / min(map(float, both))
    slope = float(cell(two_metals(metal, metal, *both), page).given["slope"].value)
    assert run["E_cell"] == pytest.approx(slope / CHARGES[metal] * math.log10(ratio), abs=1e-12)


def test_equal_solutions_of_one_metal_have_no_anode():
    with pytest.raises(Faulty) as raised:
        cell(two_metals("Cu", "Cu", "0.10", "0.10"))
    assert str(raised.value) == (
        "expected two electrodes of different potential; found the values are equal, so neither can be chosen [no-anode]"
    )


@some
@given(st.sampled_from(sorted(CHARGES)), st.integers(1, 400), st.integers(1, 400), st.integers(2, 5), pages)
def test_mass_grows_with_current_and_time(metal, current, minutes, times, page):
    one = solved(bath(metal, page, I=f"{current / 100} A", t=f"{minutes} min"), "m", "q")
    more = solved(bath(metal, page, I=f"{current / 100} A", t=f"{minutes * times} min"), "m", "q")
    assert more["m"] == pytest.approx(times * one["m"], rel=1e-12)
    assert more["q"] == pytest.approx(times * current / 100 * minutes * 60, rel=1e-12)
    milli = solved(bath(metal, page, I=f"{current * 10} mA", t=f"{minutes * 60} s"), "m")
    assert milli["m"] == pytest.approx(one["m"], rel=1e-12)


@some
@given(st.sampled_from(sorted(CHARGES)), st.integers(1, 400), st.integers(1, 100), pages)
def test_faradays_law_in_one_line_is_its_steps(metal, current, percent, page):
    whole = solved(bath(metal, page, I=f"{current / 100} A", t="30 min"), "m")
    part = solved(bath(metal, page, I=f"{current / 100} A", t="30 min", efficiency=f"{percent} %"), "m")
    assert part["m"] == pytest.approx(percent / 100 * whole["m"], rel=1e-12)
    assert whole["m"] == pytest.approx(current / 100 * 1800 * whole["M"] / (CHARGES[metal] * whole["F"]), rel=1e-12)


@some
@given(st.sampled_from(sorted(CHARGES)), pages)
def test_a_question_turned_round_comes_back(metal, page):
    there = solved(bath(metal, page, I="2.50 A", t="30 min"), "m")
    back = solved(bath(metal, page, I="2.50 A", m=f"{there['m']!r} g"), "t:min")
    assert back["t:min"] == pytest.approx(30, rel=1e-12)
    assert solved(bath(metal, page, t="30 min", m=f"{there['m']!r} g"), "I")["I"] == pytest.approx(2.5, rel=1e-12)
