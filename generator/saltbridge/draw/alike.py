"""Draws that leave no single answer to give: two options that read alike, two things that stand level in an order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from saltbridge.bank.parts import ChoosePart, OrderPart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.template import Template
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_orders import owners_of
from saltbridge.draw.drawn_sets import none_fits
from saltbridge.draw.drawn_tables import shown_leaves
from saltbridge.draw.log import Reason

LEVEL = 1e-9  # two values nearer than this have no order


def alike(template: Template, drawn: Drawn, may_fall_out: Mapping[str, tuple[str, ...]]) -> Iterator[Reason]:
    """Why a draw is turned down, at the part that it spoils; ``may_fall_out`` are by key the options that some draws lack."""
    for leaf in shown_leaves(template, drawn):
        part, options, by = leaf.part, f"{leaf.key}.from", f"{leaf.key}.by"
        if isinstance(part, ChoosePart):
            if len(part.options) - sum(not drawn.has(name) for name in may_fall_out.get(leaf.key, ())) < 2:
                yield Reason("fewer than two options that are there", options, _line(template, options))
            if _repeats(tuple(_options(part, drawn))):
                yield Reason("two options that read alike", options, _line(template, options))
        if isinstance(part, SeveralPart) and none_fits(part, drawn):
            yield Reason("none of the things fits", f"{leaf.key}.where", _line(template, f"{leaf.key}.where"))
        if isinstance(part, OrderPart) and _level(part, drawn):
            yield Reason("two things that stand level in the order", by, _line(template, by))


def _repeats(options: tuple[object, ...]) -> bool:
    return len(set(options)) < len(options)


def _line(template: Template, key: str) -> int:
    return template.lines.get(key, 0)


def _options(part: ChoosePart, drawn: Drawn) -> Iterator[object]:
    """What each option that is a name of this draw stands for; words of the author's own differ already."""
    for option in part.options:
        if option.may_be_name and drawn.has(option.text) and option.text not in drawn.lists:
            yield drawn.lookup(option.text)


def _level(part: OrderPart, drawn: Drawn) -> bool:
    nodes = [f"{owner}.{part.by}" for owner in owners_of(part, drawn.lists)]
    values = sorted(
        value for node in nodes if node in drawn.graph.index and isinstance(value := drawn.graph.value(drawn.cells, node), float)
    )
    return any(higher - lower <= LEVEL for lower, higher in pairwise(values))
