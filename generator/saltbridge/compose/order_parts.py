"""Parts that ask for an order of things: a node of the graph like any other, whose value names them from lowest to highest."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from saltbridge.bank.parts import OrderPart
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.compose.choices import own_words, taken_by_errors
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.slots import Filler
from saltbridge.compose.workings import working
from saltbridge.document import OrderField, Part, Spans, Step, Text
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_orders import node_of, owners_of, places_of, right_owners, shown_owners
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import walk
from saltbridge.policy import order_marks
from saltbridge.words import Words


def order_part(label: str, part: OrderPart, desk: Desk) -> Part:
    """An ordering part, as ``order`` makes it."""
    made = order(part, desk.drawn, desk.setter, desk.catalogue, desk.words, frozenset(desk.known))
    marks = order_marks(desk.policy, len(owners_of(part, desk.drawn.lists)))
    return desk.part(label, part, desk.followed(label, made), marks)


def order(part: OrderPart, drawn: Drawn, setter: MathSetter, catalogue: Catalogue, words: Words, known: frozenset[str]) -> Made:
    """An ordering part; the items stand in an order drawn for each variant."""
    node = node_of(part, drawn)
    points = points_of(drawn.graph, node, drawn.situation, catalogue)
    items = tuple(
        (setter.slots.slot(f"item {part.by} {place}", _item_at(part, place)),)
        for place in range(len(owners_of(part, drawn.lists)))
    )

    def share(context: Context) -> dict[str, Any]:
        shown = shown_owners(part, context.drawn)
        slips: dict[str, dict[str, None]] = {}
        for error, taken in taken_by_errors(context.drawn, node, points):
            wrong = places_of(part, shown, taken)
            if wrong is not None:
                slips.setdefault(",".join(map(str, wrong)), {})[error] = None
        right = places_of(part, shown, str(context.drawn.graph.value(context.drawn.cells, node)))
        return {"right": right, "values": list(shown), "slips": {wrong: list(found) for wrong, found in slips.items()}}

    shape = {"kind": "order", "node": node, "falling": part.direction == "descending"}
    shape["hints"] = {point.slip.id: words(point.slip.hint) for point in points}
    answer = setter.slots.slot(f"right order {part.by}", lambda context: _named(part, right_owners(part, context.drawn), context))
    # What comes first is said by the question, which may not speak of the value at all.
    field = OrderField(items, words("first"), words("last"), words("Put them in order"))
    steps = walk(drawn.graph, node, known)
    values = setter.slots.slot(
        f"values in order {part.by}", lambda context: _told_values(part, right_owners(part, context.drawn), context)
    )
    say = own_words(part.why, drawn, setter) or (Text(words("In order of their values:")),)
    told = Step(say, ((values,),), {})
    return Made(
        field, (*working(steps, setter, drawn.situation, words, {}), told), (answer,), shape, share, node, steps, points=points
    )


def _item_at(part: OrderPart, place: int) -> Filler:
    def fill(context: Context) -> Spans:
        return (context.shown(f"{shown_owners(part, context.drawn)[place]}.{part.show}"),)

    return fill


def _named(part: OrderPart, things: Sequence[str], context: Context) -> Spans:
    """The things in a row."""
    spans: list[Any] = []
    for place, thing in enumerate(things):
        spans += [Text(", ")] if place else []
        spans.append(context.shown(f"{thing}.{part.show}"))
    return tuple(spans)


def _told_values(part: OrderPart, things: Sequence[str], context: Context) -> Spans:
    """The things in a row, each with its value."""
    spans: list[Any] = []
    for place, thing in enumerate(things):
        spans += [Text("; ")] if place else []
        spans += [context.shown(f"{thing}.{part.show}"), Text(" "), context.quantity(f"{thing}.{part.by}")]
    return tuple(spans)
