"""The equations that common errors lead to in one draw."""

from __future__ import annotations

from collections.abc import Sequence

from saltbridge.chemistry.equations import multiple_of, parse_equation
from saltbridge.draw.drawn import Drawn
from saltbridge.graph.slips import SlipPoint


def wrong_forms(drawn: Drawn, node: str, points: Sequence[SlipPoint]) -> dict[str, list[str]]:
    """Each wrong equation with the ids of its errors; one that is a multiple of the right one is none."""
    place = drawn.graph.index[node]
    right = parse_equation(drawn.cells[place])
    found: dict[str, list[str]] = {}
    for point in points:
        text = drawn.graph.run(drawn.start, point.put)[place]
        factor = multiple_of(parse_equation(text), right) if isinstance(text, str) else 1
        if factor is None or factor < 0:
            ids = found.setdefault(text, [])
            ids += [] if point.slip.id in ids else [point.slip.id]
    return found
