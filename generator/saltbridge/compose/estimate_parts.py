"""Parts that ask for the size or sign of a number before it is worked out."""

from __future__ import annotations

from typing import Any

from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.document import ChoiceField, Part, Spans, Text
from saltbridge.draw.drawn_estimates import bounds, estimate_law, options_of
from saltbridge.draw.finds import Find
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import picked_sides, walk


def estimate_part(label: str, part: EstimatePart, desk: Desk) -> Part:
    """A choice among sizes or signs; its working would be that of the number, so it has none."""
    find = desk.drawer.find(part)
    node, drawn = estimate_law(part, find).node, desk.drawn
    points = points_of(drawn.graph, node, drawn.situation, desk.catalogue)
    steps = walk(drawn.graph, find.node, frozenset(desk.known), picked=picked_sides(drawn.graph, drawn.cells))

    def offered(context: Context) -> list[float | str]:
        return options_of(part, node, context.drawn, points)[0]

    def right(context: Context) -> int:
        return offered(context).index(_value(context, node))

    def share(context: Context) -> dict[str, Any]:
        values, taken = options_of(part, node, context.drawn, points)
        slips = {str(at): list(taken[value]) for at, value in enumerate(values) if value in taken}
        return {"right": [values.index(_value(context, node))], "slips": slips, "values": values}

    def option(at: int) -> Spans:
        key = f"estimate {node} {at}"
        return (desk.slots.slot(key, lambda context: _said(offered(context)[at], find, context)),)

    count = len(offered(Context(desk.printer, drawn)))
    field = ChoiceField(tuple(option(at) for at in range(count)), desk.words("Choose one"))
    answer = desk.slots.slot(f"estimate {node} right", lambda context: _said(_value(context, node), find, context))
    hints = {point.slip.id: desk.words(point.slip.hint) for point in points}
    last = next((step.hint for step in reversed(steps) if step.hint), "")
    shape = {"kind": "choice", "node": node, "values": [], "hints": hints} | ({"otherwise": desk.words(last)} if last else {})
    made = Made(field, (), (answer,), shape, share, node, hints=desk.hints(steps), points=points)
    return desk.part(label, part, desk.followed(label, made), desk.policy.choose)


def _value(context: Context, node: str) -> float | str:
    value = context.drawn.graph.value(context.drawn.cells, node)
    assert isinstance(value, float | str)  # noqa: S101 - a draw without a value is refused
    return value


def _said(value: float | str, find: Find, context: Context) -> Spans:
    """A size by its two ends, a sign by its word."""
    printer = context.printer
    if isinstance(value, str):
        said = {"positive": printer.words("positive"), "zero": printer.words("zero"), "negative": printer.words("negative")}
        return (Text(said[value]),)
    signed = printer.signed(find.node)
    low, high = bounds(value)
    return printer.words.spans(
        "from {low} to {high}", low=printer.number(low, signed=signed), high=printer.quantity(high, find.unit, signed=signed)
    )
