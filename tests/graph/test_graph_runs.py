"""Running a graph: it never raises, and every kind of override."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from cells_for_tests import bath, cell, solved, two_metals
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.algebra.expression import parse
from saltbridge.algebra.rounding import rounder
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Given, Rule, Situation, Undefined
from saltbridge.graph.planner import Step, plan
from saltbridge.sigfigs import to_figures

odd = st.one_of(
    st.sampled_from([0.0, -0.0, math.inf, -math.inf, math.nan, -1.0, 1e308, -1e308, 5e-324]), st.floats(-10, 10),
    st.sampled_from([None, "left", "right", "nowhere", Undefined("told so")]),
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_run_never_raises_and_what_is_undefined_says_why(data):
    run = solved(cell(two_metals("Ag", "Zn", "0.10", "0.50"), electrodes=True), "dG", "K", "left.E")
    cells = list(run.start)
    for place, value in enumerate(cells):
        if value is not None and data.draw(st.booleans()):
            cells[place] = data.draw(odd)
    put = {data.draw(st.integers(0, len(cells) - 1)): data.draw(odd) for _ in range(data.draw(st.integers(0, 2)))}
    rounded = data.draw(st.sampled_from([None, rounder(3)]))
    out = run.graph.run(cells, put, rounded)
    for step, value in zip(run.graph.steps, out, strict=True):
        if run.graph.index[step.node] in put or step.law is None:
            continue
        if isinstance(value, Undefined):
            assert value.why
        elif not isinstance(value, str):
            assert value is None or isinstance(step.law, Rule) or math.isfinite(value), step.node


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_a_part_run_again_is_the_whole_run(data):
    run = solved(cell(two_metals("Ag", "Zn", "0.10", "0.50")), "dG", "K")
    target = data.draw(st.sampled_from(["dG", "K", "E_cell"]))
    node = data.draw(st.sampled_from(["anode", "E0_cell", "Q", "E_cell", "n", "F", "left.c", "left.E0"]))
    value = data.draw(st.sampled_from(["left", "right"]) if node == "anode" else odd)
    put = {run.graph.index[node]: value}
    whole = run.graph.run(run.start, put)[run.graph.index[target]]
    again = run.graph.rerun(run.cells, run.graph.part(put, target))
    assert type(whole) is type(again)
    assert (
        isinstance(whole, Undefined) or whole == again or (isinstance(whole, float) and math.isnan(whole) and math.isnan(again))
    )


def test_undefined_flows_downstream_with_its_first_reason():
    run = solved(cell(two_metals("Zn", "Cu", "0.10", "0.50")), "dG")
    out = run.graph.run(run.start, {run.graph.index["Q"]: 0.0})
    reason = out[run.graph.index["E_cell"]]
    assert reason == Undefined("no value for E_cell: the logarithm or root of a number that has none")
    assert out[run.graph.index["dG"]] == reason


def test_a_value_at_a_node_is_seen_by_all_steps_below():
    run = solved(cell(two_metals("Zn", "Cu", "0.10", "0.50")), "dG", "K")
    out = run.graph.run(run.start, {run.graph.index["E0_cell"]: 1.5})
    assert out[run.graph.index["K"]] > run["K"]
    assert out[run.graph.index["dG"]] < run["dG"]
    assert out[run.graph.index["E0_cell"]] == 1.5


def test_a_law_at_one_step_is_seen_by_that_step_only():
    run = solved(cell(two_metals("Al", "Cu", "0.10", "0.50"), nernst="ln"), "dG", "lgK")
    without_n = run.graph.compile_tree(parse("E0_cell - R*T/F*ln(Q)"))
    out = run.graph.run(run.start, {run.graph.index["E_cell"]: without_n})
    assert out[run.graph.index["dG"]] == pytest.approx(-6 * run["F"] * out[run.graph.index["E_cell"]])  # n still counts here
    assert out[run.graph.index["lgK"]] == run["lgK"]
    everywhere = run.graph.run(run.start, {run.graph.index["n"]: 1.0})
    assert everywhere[run.graph.index["dG"]] == pytest.approx(-run["F"] * everywhere[run.graph.index["E_cell"]])
    assert everywhere[run.graph.index["lgK"]] == pytest.approx(run["lgK"] / 6)


def test_another_anode_turns_the_cell():
    run = solved(cell(two_metals("Zn", "Cu")), "E0_cell", "cathode")
    out = run.graph.run(run.start, {run.graph.index["anode"]: "right"})
    assert out[run.graph.index["cathode"]] == "left"
    assert out[run.graph.index["E0_cell"]] == -run["E0_cell"]
    odd_one = run.graph.run(run.start, {run.graph.index["anode"]: "top"})
    assert isinstance(odd_one[run.graph.index["E0_cell"]], Undefined)


def test_givens_are_not_touched_by_a_run():
    run = solved(bath("Cu", I="2.50 A", t="30 min"), "m")
    before = list(run.start)
    run.graph.run(run.start, {run.graph.index["q"]: 1.0}, rounder(2))
    assert run.start == before


def test_what_stands_above_and_below_a_node():
    run = solved(bath("Cu", I="2.50 A", t="30 min"), "m")
    assert [step.node for step in run.graph.upstream("q")] == ["I", "t:min", "t", "q"]
    assert [step.node for step in run.graph.downstream(["q"])] == ["n_e", "n_B", "m"]
    assert [step.node for step in run.graph.downstream(["F", "z"])] == ["n_e", "n_B", "m"]
    assert run.graph.downstream(["m"]) == ()


def test_every_result_but_the_target_is_rounded():
    run = solved(bath("Cu", I="2.53 A", t="31 min"), "m")
    rough = run.graph.run(run.start, None, rounder(3), "m")
    q = float(to_figures(2.53 * 1860, 3))
    n_e = float(to_figures(q / 96485, 3))
    n_b = float(to_figures(n_e / 2, 3))
    assert rough[run.graph.index["q"]] == q
    assert rough[run.graph.index["m"]] == pytest.approx(n_b * run["M"], rel=1e-15)


@settings(max_examples=500, deadline=None)
@given(st.floats(-1e15, 1e15, allow_nan=False), st.integers(1, 9))
def test_quick_rounding_is_the_careful_one(value: float, figures: int):
    assert rounder(figures)(value) == float(to_figures(value, figures))


@pytest.mark.parametrize(
    "value", [2.675, 1.005, 0.285, 999.5, 9.995, 0.09995, 99999.5, 1000.0, 999.9999999999999, 1e-15, 0.0, -2.5, 1e22]
)
@pytest.mark.parametrize("figures", [1, 2, 3, 4, 6, 8])
def test_ties_and_powers_of_ten_round_as_everywhere(value: float, figures: int):
    assert rounder(figures)(value) == float(to_figures(value, figures))


def test_equal_values_leave_no_choice_and_nan_is_no_number():
    situation = Situation(
        given={name: Given(value, "V", str(value)) for name, value in (("a", 1.0), ("b", 1.0), ("c", math.nan))}
    )
    situation.laws = [Rule("low", "lowest", ("a", "b"), keys=("x", "y")), Rule("high", "highest", ("a", "c"), keys=("x", "z"))]
    graph = Graph(plan(situation, ["low", "high"]))
    out = graph.run(graph.start(situation.given))
    assert out[graph.index["low"]] == Undefined("the values are equal, so neither can be chosen")
    assert out[graph.index["high"]] == Undefined("no value for high: a value is not a number")


@pytest.mark.parametrize(
    ("rule", "expected"),
    [("lowest", "y"), ("highest", "x"), ("rising", "y<z<x")],
)
def test_rules_over_three_strips(rule: str, expected: str):
    given_values = {"a": Given(0.1, "V", "0.1"), "b": Given(-1.1, "V", "-1.1"), "c": Given(-0.5, "V", "-0.5")}
    situation = Situation(given=given_values, laws=[Rule("out", rule, ("a", "b", "c"), keys=("x", "y", "z"))])
    graph = Graph(plan(situation, ["out"]))
    assert graph.value(graph.run(graph.start(situation.given)), "out") == expected


@pytest.mark.parametrize(("a", "b"), [(0.34, -0.76), (-0.76, 0.34)])
def test_highest_and_lowest_of_two_are_different_sides(a: float, b: float):
    situation = Situation(given={"a": Given(a, "V", str(a)), "b": Given(b, "V", str(b))})
    situation.laws = [Rule(rule, rule, ("a", "b"), keys=("left", "right")) for rule in ("lowest", "highest")]
    graph = Graph(plan(situation, ["lowest", "highest"]))
    out = graph.run(graph.start(situation.given))
    low, high = out[graph.index["lowest"]], out[graph.index["highest"]]
    assert (low, high) == (("left", "right") if a < b else ("right", "left"))


def test_a_step_knows_its_law_by_name():
    run = solved(bath("Cu", I="2.50 A", t="30 min"), "m")
    assert {step.node: step.law_id for step in run.graph.steps} == {
        "I": "given", "t:min": "given", "t": "min -> s", "q": "charge", "F": "read", "n_e": "electron-amount", "z": "balance",
        "n_B": "product-amount", "M": "read", "m": "mass",
    }  # fmt: skip
    assert replace(run.graph.step("m"), node="x") == Step(
        "x", "relation", ("n_B", "M"), run.graph.step("m").law, run.graph.step("m").tree
    )
