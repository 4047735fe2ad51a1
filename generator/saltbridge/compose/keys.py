"""Answer keys: what a shape and a variant hand to the judges in Python and on the page."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

from saltbridge.compose.printing import Printer
from saltbridge.compose.wanted import wanted
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.finds import Find
from saltbridge.graph.routes import Route, routes, step_figures
from saltbridge.graph.slips import SlipPoint
from saltbridge.sigfigs import twelve

Earlier = tuple[str, str, dict[str, int] | None]
"""Label and node of an earlier part, and to how many figures or decimals its number was asked (none for a choice)."""
LOG_PLACE = "0.1"
"""A quantity judged by its logarithm is judged to half of this, on the logarithm."""


def number_shape(
    drawn: Drawn, find: Find, points: Sequence[SlipPoint], earlier: Sequence[Earlier], printer: Printer
) -> dict[str, Any]:
    """The shape's share of a number's key. ``earlier``: the parts before that this one can follow from."""
    steps = drawn.graph.upstream(find.node)
    nodes = {step.node for step in steps}
    following = followed(earlier, nodes)
    key: dict[str, Any] = {
        "kind": "number", "node": find.node, "unit": find.unit, "mark": printer.settings.decimal_mark,
        "figures": find.asked.figures, "decimals": find.asked.decimals, "scale": "log" if find.asked.log else "linear",
        "earlier": following,
    }  # fmt: skip
    if find.asked.whole:
        key["whole"] = True
    if find.asked.decimals is not None:
        key["wanted"] = wanted(find.asked, find.unit, printer)
    if following:
        printed = drawn.outcomes[find.node].right.printed
        ways = [route for route in routes(drawn.graph, find.node) if route.holds(drawn.start)]
        key["routes"] = [_route_json(route, nodes, step_figures(printed)) for route in ways]
    key["slips"] = [_slip_json(point, printer.words, following=bool(following)) for point in points]
    return key


def followed(earlier: Sequence[Earlier], nodes: Collection[str]) -> list[list[Any]]:
    """The parts before whose nodes are among these, as a key tells them."""
    return [[label, node, *([asked] if asked else [])] for label, node, asked in earlier if node in nodes]


def _slip_json(point: SlipPoint, words: Any, *, following: bool) -> dict[str, Any]:
    entry: dict[str, Any] = {"id": point.slip.id, "hint": words(point.slip.hint)}
    if point.slip.twins:
        entry["twins"] = list(point.slip.twins)
    if following and point.json is not None:
        entry["put"] = {point.node: point.json}
    elif following:
        entry["at"] = point.node
    return entry


def errors(points: Sequence[SlipPoint]) -> list[dict[str, Any]]:
    """The errors on the way to a choice or an order, as what each puts into the page's graph."""
    return [{"id": point.slip.id, "put": {point.node: point.json}} for point in points if point.json is not None]


def rounding(find: Find) -> dict[str, int] | None:
    """To how many figures or decimals a number is asked for; nothing for a whole number."""
    if find.asked.whole:
        return None
    return {"figures": find.asked.figures or 3} if find.asked.decimals is None else {"decimals": find.asked.decimals}


def _route_json(route: Route, nodes: set[str], figures: int) -> dict[str, Any]:
    put = {node: value for node, value in route.json.items() if node in nodes or node == "slope"}
    return {"put": put, "round": {"figures": figures} if route.rounded else None}


def number_variant(drawn: Drawn, find: Find) -> dict[str, Any]:
    """The variant's share: value, range, slip ranges."""
    found = drawn.outcomes[find.node]
    right = found.right
    return {
        "value": str(right.printed), "exact": repr(twelve(found.exact)), "lo": f"{right.lo:f}", "hi": f"{right.hi:f}",
        "place": LOG_PLACE if find.asked.log else f"{right.place:f}",
        "slips": {each.point.slip.id: [f"{each.lo:f}", f"{each.hi:f}"] for each in found.slips},
    }  # fmt: skip
