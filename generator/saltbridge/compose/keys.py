"""Answer keys: what a shape and a variant hand to the judges in Python and on the page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from saltbridge import units
from saltbridge.algebra.expression import names
from saltbridge.draw.drawer import Find
from saltbridge.draw.drawn import Drawn
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Undefined
from saltbridge.graph.routes import Route, routes, step_figures
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.step_json import step_json
from saltbridge.sigfigs import twelve

LOG_PLACE = "0.1"
"""A quantity judged by its logarithm is judged to half of this, on the logarithm."""


def number_shape(
    drawn: Drawn, find: Find, points: Sequence[SlipPoint], earlier: Sequence[tuple[str, str]], mark: str, words: Any
) -> dict[str, Any]:
    """The shape's share of a number's key. ``earlier``: labels and nodes of the parts before that this one can follow from."""
    steps = drawn.graph.upstream(find.node)
    nodes = {step.node for step in steps}
    following = [[label, node] for label, node in earlier if node in nodes]
    key: dict[str, Any] = {
        "kind": "number", "node": find.node, "unit": find.unit, "units": _unit_factors(find.unit), "mark": mark,
        "figures": find.asked.figures, "decimals": find.asked.decimals, "scale": "log" if find.asked.log else "linear",
        "earlier": following,
    }  # fmt: skip
    if following:
        key["graph"] = [{"node": step.node, "tree": tree} for step in steps if (tree := step_json(step)) is not None]
        printed = drawn.outcomes[find.node].right.printed
        ways = [route for route in routes(drawn.graph, find.node) if route.holds(drawn.start)]
        key["routes"] = [_route_json(route, nodes, step_figures(printed)) for route in ways]
    key["slips"] = [_slip_json(point, words, following=bool(following)) for point in points]
    return key


def _slip_json(point: SlipPoint, words: Any, *, following: bool) -> dict[str, Any]:
    entry: dict[str, Any] = {"id": point.slip.id, "hint": words(point.slip.hint), "twins": list(point.slip.twins)}
    if following and point.json is not None:
        entry["put"] = {point.node: point.json}
    return entry


def _route_json(route: Route, nodes: set[str], figures: int) -> dict[str, Any]:
    put = {node: value for node, value in route.json.items() if node in nodes or node == "slope"}
    return {"put": put, "round": {"figures": figures} if route.rounded else None}


@lru_cache(maxsize=64)
def _unit_factors(unit: str) -> Mapping[str, str]:
    """Every known unit of the same kind with its factor to the unit asked for."""
    if not unit:
        return {}
    return {unit: "1"} | {other: f"{units.exact_factor(other, unit):f}" for other in units.known_units(unit)}


def number_variant(drawn: Drawn, find: Find, points: Sequence[SlipPoint] | None) -> dict[str, Any]:
    """The variant's share: value, range, slip ranges, and with ``points`` the values that the page's interpreter starts from."""
    found = drawn.outcomes[find.node]
    right = found.right
    share: dict[str, Any] = {
        "value": str(right.printed), "exact": repr(twelve(found.exact)), "lo": f"{right.lo:f}", "hi": f"{right.hi:f}",
        "place": LOG_PLACE if find.asked.log else f"{right.place:f}",
        "slips": {each.point.slip.id: [f"{each.lo:f}", f"{each.hi:f}"] for each in found.slips},
    }  # fmt: skip
    if points is not None:
        share["given"] = given_values(drawn, find.node, points)
    return share


CONSTANTS = ("slope", "F", "R", "T")
"""Nodes that a route may need beside those upstream of the answer."""


def given_values(drawn: Drawn, node: str, points: Sequence[SlipPoint]) -> dict[str, Any]:
    """What the page's interpreter can't compute: givens upstream of the answer, and what slips and other forms need beside them."""
    graph = drawn.graph
    named = graph.memo.get(("given values", node))
    if named is None:
        named = graph.memo["given values", node] = _given_names(graph, node, points)
    values = {name: drawn.cells[graph.index[name]] for name in named}
    return {
        name: twelve(value) if isinstance(value, float) else value
        for name, value in values.items()
        if not isinstance(value, Undefined)
    }


def _given_names(graph: Graph, node: str, points: Sequence[SlipPoint]) -> tuple[str, ...]:
    upstream = graph.upstream(node)
    computed = {step.node for step in upstream if step_json(step) is not None}
    beside = {name for point in points if point.tree is not None for name in names(point.tree)} | set(CONSTANTS)
    wanted = {step.node for step in upstream} | (beside & set(graph.index))
    return tuple(sorted(wanted - computed))
