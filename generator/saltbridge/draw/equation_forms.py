"""The equations that common errors lead to in one draw."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from saltbridge.chemistry.equations import multiple_of, parse_equation
from saltbridge.draw.drawn import Drawn
from saltbridge.graph.slips import SlipPoint


def wrong_forms(drawn: Drawn, node: str, points: Sequence[SlipPoint]) -> dict[str, list[str]]:
    """Each wrong equation with the ids of its errors; one that is a multiple of the right one is none."""
    right = drawn.cells[drawn.graph.index[node]]
    found: dict[str, list[str]] = {}
    for point in points:
        text = drawn.graph.rerun(drawn.cells, point.part)
        if isinstance(text, str) and _is_wrong(text, right):
            ids = found.setdefault(text, [])
            ids += [] if point.slip.id in ids else [point.slip.id]
    return found


@lru_cache(maxsize=4096)
def _is_wrong(text: str, right: str) -> bool:
    factor = multiple_of(parse_equation(text), parse_equation(right))
    return factor is None or factor < 0
