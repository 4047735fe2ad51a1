"""Parts that ask which datum is not needed: a choice among the data, which what lies upstream of the answer decides."""

from __future__ import annotations

from typing import Any

from saltbridge.bank.spare_part import SparePart
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.document import ChoiceField, Part, Spans
from saltbridge.draw.spare_data import data_of, spare_of
from saltbridge.graph.walk import picked_sides, walk


def spare_part(label: str, part: SparePart, desk: Desk) -> Part:
    """A choice among the data, each with its name and value. Raises ``Faulty`` (``no-right-option``) as ``spare_of`` does."""
    node, drawn = desk.drawer.find(part).node, desk.drawn
    spare_of(part, node, drawn)

    def right(context: Context) -> int:
        return data_of(part, context.drawn).index(spare_of(part, node, context.drawn))

    def share(context: Context) -> dict[str, Any]:
        at = right(context)
        return {
            "right": [at],
            "slips": {},
            "whys": {str(place): "datum-needed" for place in range(len(part.data)) if place != at},
        }

    def option(at: int) -> Spans:
        key = f"datum {at} of {part.find}"
        return (desk.slots.slot(key, lambda context: _said(data_of(part, context.drawn)[at], context)),)

    field = ChoiceField(tuple(option(at) for at in range(len(part.data))), desk.words("Choose one"))
    answer = desk.slots.slot(
        f"datum not needed for {part.find}", lambda context: _said(spare_of(part, node, context.drawn), context)
    )
    steps = walk(drawn.graph, node, frozenset(desk.known), picked=picked_sides(drawn.graph, drawn.cells))
    shape: dict[str, Any] = {"kind": "choice", "node": None, "values": []}
    made = Made(field, (), (answer,), shape, share, hints=desk.hints(steps))
    return desk.part(label, part, desk.followed(label, made), desk.policy.choose)


def _said(name: str, context: Context) -> Spans:
    """A datum by its name and its value as the text tells it."""
    quantity, shown = context.printer.entry(name), context.shown(name)
    if quantity is None:
        return (shown,)
    words = context.printer.words
    return words.spans("{quantity}, {value}", quantity=words(quantity.name), value=shown)
