"""Steps as JSON for the page: its interpreter gives the same numbers as the graph."""

from __future__ import annotations

import json
from typing import Any

import pytest
from cells_for_tests import Solved, bath, cell, solved, two_metals

from saltbridge.algebra.rounding import rounder
from saltbridge.answers.run import run as run_page
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Given, Rule, Situation, Undefined
from saltbridge.graph.planner import plan
from saltbridge.graph.routes import routes
from saltbridge.graph.solved import points_of
from saltbridge.scenarios.cell.galvanic import Temperature


def _key(run: Solved, target: str) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """The steps up to a target and the givens, through JSON as a page has them."""
    wanted = {step.node for step in run.graph.upstream(target)}
    steps = [
        {"node": step.node, "tree": run.graph.page_tree(step.node)}
        for step in run.graph.steps
        if step.law is not None and step.node in wanted
    ]
    given = {
        step.node: run.graph.value(run.cells, step.node)
        for step in run.graph.steps
        if step.law is None or step.node not in wanted
    }
    return json.loads(json.dumps(steps)), json.loads(json.dumps(given))


SHAPES = [
    ("standard", lambda: cell(two_metals("Zn", "Cu"), "school"), "E0_cell"),
    ("powers", lambda: cell(two_metals("Ag", "Al", "0.020", "0.30")), "dG:kJ/mol"),
    ("natural log", lambda: cell(two_metals("Ag", "Zn", "0.020", "0.30"), nernst="ln"), "E_cell"),
    ("celsius", lambda: cell(two_metals("Zn", "Cu", "0.020", "0.30"), "college", Temperature("37", "°C")), "lgK"),
    ("constant", lambda: cell(two_metals("Ni", "Ag"), "school"), "K"),
    ("electrodes", lambda: cell(two_metals("Cu", "Cu", "0.020", "0.30")), "E_cell"),
    ("salt", lambda: cell("Ag(s) | AgCl(s) | Cl^-(aq, 0.050) || Cu^2+(aq, 0.20) | Cu(s)"), "E_cell"),
    ("mass", lambda: bath("Cu", I="250 mA", t="1.5 h", efficiency="85 %"), "m"),
    ("time", lambda: bath("Cr", I="2.50 A", m="1.20 g"), "t:min"),
]  # fmt: skip
each_shape = pytest.mark.parametrize(("situation", "target"), [each[1:] for each in SHAPES], ids=[each[0] for each in SHAPES])


@each_shape
def test_the_page_runs_to_the_same_numbers(situation, target: str):
    run = solved(situation(), target)
    steps, given = _key(run, target)
    page = run_page(steps, given)
    for step in steps:
        ours = run[step["node"]]
        assert page[step["node"]] == (ours if isinstance(ours, str) else pytest.approx(ours, rel=1e-12)), step


@each_shape
def test_the_page_rounds_each_step_as_the_graph_does(situation, target: str):
    run = solved(situation(), target)
    steps, given = _key(run, target)
    rough = run.graph.run(run.start, None, rounder(3), target)
    page = run_page(steps, {**given, **{name: run.graph.value(run.cells, name) for name in given}}, {}, {"figures": 3})
    assert page[target] == pytest.approx(run.graph.value(rough, target), rel=1e-12)


@each_shape
def test_slips_on_the_page_give_the_same_values(situation, target: str):
    run = solved(situation(), target)
    steps, given = _key(run, target)
    told = 0
    for point in points_of(run.graph, target, run.situation, catalogue()):
        if point.json is None:
            continue
        ours = run.graph.value(run.graph.run(run.start, point.put), target)
        page = run_page(steps, given, {point.node: json.loads(json.dumps(point.json))})[target]
        assert page == (None if isinstance(ours, Undefined) else pytest.approx(ours, rel=1e-12)), point.slip.id
        told += 1
    assert told > 0


@each_shape
def test_routes_on_the_page_give_the_same_values(situation, target: str):
    run = solved(situation(), target)
    steps, given = _key(run, target)
    for route in routes(run.graph, target):
        if route.rounded or not (route.tells(run.cells)):
            continue
        ours = run.graph.rerun(run.cells, route.part)
        page = run_page(steps, given, json.loads(json.dumps(dict(route.json))))[target]
        assert page == pytest.approx(ours, rel=1e-12), route.json


@pytest.mark.parametrize("name", ["lowest", "highest"])
def test_the_rules_that_a_page_knows_agree(name: str):
    for values in ((0.34, -0.76), (-0.76, 0.34), (1.0, 1.0)):
        situation = Situation(given={key: Given(value, "V", str(value)) for key, value in zip("ab", values, strict=True)})
        law = Rule("side", name, ("a", "b"), keys=("left", "right"))
        situation.laws = [law, Rule("rest", "other", ("side",), keys=("left", "right")), Rule("same", "same", ("a",))]
        situation.laws.append(Rule("chosen", "pick", ("side", "a", "b"), keys=("left", "right")))
        graph = Graph(plan(situation, ["side", "rest", "same", "chosen"]))
        out = graph.run(graph.start(situation.given))
        steps = [{"node": step.node, "tree": graph.page_tree(step.node)} for step in graph.steps if isinstance(step.law, Rule)]
        page = run_page(steps, dict(zip("ab", values, strict=True)))
        for node in ("side", "rest", "same", "chosen"):
            ours = graph.value(out, node)
            assert page[node] == (None if isinstance(ours, Undefined) else ours), (node, values)


@pytest.mark.parametrize(("warm", "there"), [("298.15", True), ("310.15", False)])
def test_the_page_is_told_298_only_at_25_degrees(warm: str, there: bool):
    run = solved(cell(two_metals("Zn", "Cu", "0.10", "0.50"), "college", Temperature(warm, "K"), nernst="ln"), "E_cell")
    told = [dict(route.json) for route in routes(run.graph, "E_cell") if route.holds(run.start)]
    assert ({"T": "298"} in told) == there
