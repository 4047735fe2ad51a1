"""Answer keys: what a shape and a variant hand to the judges in Python and on the page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from saltbridge import units
from saltbridge.derivation.expression import to_json
from saltbridge.derivation.laws import Conversion, Rule, Undefined
from saltbridge.derivation.planner import Step
from saltbridge.derivation.routes import Route, routes, step_figures
from saltbridge.derivation.rules import to_json as rule_json
from saltbridge.derivation.slips import SlipPoint
from saltbridge.derivation.solved import Outcome
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.draws import Find
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
        key["graph"] = [{"node": step.node, "tree": tree} for step in steps if (tree := _step_json(step)) is not None]
        printed = drawn.outcomes[find.node].right.printed
        key["routes"] = [_route_json(route, nodes, step_figures(printed)) for route in routes(drawn.graph, find.node)]
    key["slips"] = [_slip_json(point, words, following=bool(following)) for point in points]
    return key


def _slip_json(point: SlipPoint, words: Any, *, following: bool) -> dict[str, Any]:
    entry: dict[str, Any] = {"id": point.slip.id, "hint": words(point.slip.hint), "twins": list(point.slip.twins)}
    if following and point.json is not None:
        entry["put"] = {point.node: point.json}
    return entry


def _step_json(step: Step) -> Any | None:
    if step.tree is not None:
        return to_json(step.tree)
    match step.law:
        case Conversion(source=source, factor=factor, offset=offset):
            scaled = ["*", source, twelve(factor)]
            return ["+", scaled, offset] if offset else scaled
        case Rule():
            return rule_json(step.law)
        case _:
            return None


def _route_json(route: Route, nodes: set[str], figures: int) -> dict[str, Any]:
    put = {node: value for node, value in route.json.items() if node in nodes or node == "slope"}
    return {"put": put, "round": {"figures": figures} if route.rounded else None}


@lru_cache(maxsize=64)
def _unit_factors(unit: str) -> Mapping[str, str]:
    """Every known unit of the same kind with its factor to the unit asked for."""
    if not unit:
        return {}
    return {unit: "1"} | {other: f"{units.exact_factor(other, unit):f}" for other in units.known_units(unit)}


def number_variant(drawn: Drawn, find: Find, found: Outcome, *, following: bool) -> dict[str, Any]:
    """The variant's share: value, range, slip ranges, and the givens where a later answer may follow from an earlier one."""
    right = found.right
    share: dict[str, Any] = {
        "value": str(right.printed), "exact": repr(twelve(found.exact)), "lo": f"{right.lo:f}", "hi": f"{right.hi:f}",
        "place": LOG_PLACE if find.asked.log else f"{right.place:f}",
        "slips": {each.point.slip.id: [f"{each.lo:f}", f"{each.hi:f}"] for each in found.slips},
    }  # fmt: skip
    if following:
        share["given"] = given_values(drawn, find.node)
    return share


def given_values(drawn: Drawn, node: str) -> dict[str, Any]:
    """The values that the page's interpreter starts from: every node upstream that it can't compute."""
    out: dict[str, Any] = {}
    for step in drawn.graph.upstream(node):
        value = drawn.cells[drawn.graph.index[step.node]]
        if _step_json(step) is None and not isinstance(value, Undefined):
            out[step.node] = twelve(value) if isinstance(value, float) else value
    for constant in ("slope", "F", "R", "T"):
        if constant in drawn.graph.index and constant not in out:
            value = drawn.cells[drawn.graph.index[constant]]
            if isinstance(value, float):
                out[constant] = twelve(value)
    return out
