"""Equations as nodes: their steps, what a choice leads to, what is counted from them, and where a scenario refuses one."""

from __future__ import annotations

import pytest
from cells_for_tests import cell, solved, two_metals

from saltbridge.api import work
from saltbridge.faults import Faulty


def texts(find, *known, diagram=None):
    """The sentences of a working, and what was found."""
    told = work(diagram, list(known), find)
    return [step["say"] for step in told["steps"]], told["text"]


def test_a_half_equation_is_walked_step_by_step():
    said, found = texts("half_equation", "half_skeleton = H2O -> O2", "medium = acid")
    assert said == [
        "Balance the oxygen with water.",
        "Balance the hydrogen with hydrogen ions.",
        "Balance the charge with electrons.",
    ]
    assert found == "2H2O -> O2 + 4H^+ + 4 e-"


def test_a_metal_told_alone_has_the_half_equation_of_its_deposit():
    said, found = texts("half_cathode", "metal = Cu")
    assert (len(said), found) == (1, "Cu^2+ + 2 e- -> Cu")


def test_a_battery_is_charged_by_what_it_gives_turned_round():
    said, found = texts("equation_charge", "battery = lead-acid")
    assert said[-1] == "Charging runs the whole reaction backwards."
    assert found == "2PbSO4 + 2H2O -> PbO2 + 2SO4^2- + 4H^+ + Pb"


def test_the_same_half_in_hydroxide():
    assert texts("half_equation", "half_skeleton = OH^- -> O2", "medium = base")[1] == "4OH^- -> O2 + 2H2O + 4 e-"


def test_a_cell_written_down_is_added_from_its_halves():
    said, found = texts("equation", diagram="Zn(s) | Zn^2+(aq) || Ag^+(aq) | Ag(s)")
    assert found == "2Ag^+ + Zn -> 2Ag + Zn^2+"
    assert said[-1] == "Multiply the reduction half-equation by 2 so that the electrons cancel. Add the two."


@pytest.mark.parametrize(
    ("anode", "half", "whole", "power"),
    [
        ("right", "Zn -> Zn^2+ + 2 e-", "2Ag^+ + Zn -> 2Ag + Zn^2+", 1),
        ("left", "Ag -> Ag^+ + e-", "Zn^2+ + 2Ag -> Zn + 2Ag^+", -1),
    ],
)
def test_the_electrode_taken_for_the_anode_decides(anode, half, whole, power):
    """Silver on the left, zinc on the right: with the other anode everything stands the other way round, n stays."""
    run = solved(cell(two_metals("Ag", "Zn", "0.10", "0.50")), "equation", "n", "Q")
    put = run.graph.run(run.start, {run.graph.index["anode"]: anode})
    value = {name: run.graph.value(put, name) for name in ("half_anode", "equation", "n", "Q")}
    assert (value["half_anode"], value["equation"], value["n"]) == (half, whole, 2)
    assert value["Q"] == pytest.approx((0.50 / 0.10**2) ** power)


@pytest.mark.parametrize(("factor", "n", "power"), [(2.0, 4, 2), (0.5, 1, 0.5), (-1.0, 2, -1)])
def test_what_is_counted_follows_the_factor_of_the_equation(factor, n, power):
    """Twice the equation has twice the electrons and the square of Q; the potential stays (IUPAC Green Book 2.13, from memory)."""
    run = solved(cell(two_metals("Ag", "Zn", "0.10", "0.50")), "E_cell", "dG")
    put = run.graph.run(run.start, {run.graph.index["equation.factor"]: factor})
    plain = run.graph.run(run.start)
    value = {name: run.graph.value(put, name) for name in ("n", "Q", "dG", "E_cell")}
    assert value["n"] == n
    assert value["Q"] == pytest.approx((0.50 / 0.10**2) ** power)
    if factor > 0:
        assert value["E_cell"] == pytest.approx(run.graph.value(plain, "E_cell"))
        assert value["dG"] == pytest.approx(factor * run.graph.value(plain, "dG"))


@pytest.mark.parametrize(
    ("known", "half"),
    [
        (["gas = Cl2", "I = 2.0 A", "t = 100 s"], "2 Cl⁻ → Cl₂ + 2 e⁻"),
        (["gas = H2", "I = 2.0 A", "t = 100 s"], "2 H⁺ + 2 e⁻ → H₂"),
        (["metal = Cu", "I = 2.0 A", "t = 100 s"], "Cu²⁺ + 2 e⁻ → Cu"),
    ],
)
def test_a_half_equation_stands_as_it_happens(known, half):
    """Chlorine is made at an anode; the electrons only pass, whichever way."""
    said, _ = texts("m", *known)
    assert any(half in each for each in said)
    assert any("mol of electrons pass." in each for each in said)


def test_a_doubtful_question_is_refused_with_what_there_is():
    with pytest.raises(Faulty):
        work(None, ["half_skeleton = Fe -> Cu"], "half_equation")
