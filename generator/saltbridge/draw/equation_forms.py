"""The equations, diagrams and expressions that common errors lead to in one draw."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from saltbridge.algebra.expression import Cells
from saltbridge.chemistry.equations import multiple_of, parse_equation
from saltbridge.chemistry.notations import NOTATIONS
from saltbridge.draw.drawn import Drawn
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Balance
from saltbridge.graph.slips import SlipPoint


def wrong_forms(drawn: Drawn, node: str, points: Sequence[SlipPoint], cells: Cells | None = None) -> dict[str, list[str]]:
    """Each wrong text with the ids of its errors; an equation that is a multiple of the right one is none.

    ``cells`` are the values of another run, such as one with a student's own answers in it; then its equation counts as the right one.
    """
    cells = drawn.cells if cells is None else cells
    right = cells[drawn.graph.index[node]]
    found: dict[str, list[str]] = {}
    for point in points:
        text = drawn.graph.rerun(cells, point.part)
        if isinstance(text, str) and differs(drawn.graph, node, text, right):
            ids = found.setdefault(text, [])
            ids += [] if point.slip.id in ids else [point.slip.id]
    return found


def differs(graph: Graph, node: str, text: str, right: str) -> bool:
    """Whether what stands at a node is another equation than the right one, or another diagram or expression."""
    law = graph.step(node).law
    return text != right if isinstance(law, Balance) and law.op in NOTATIONS else is_wrong(text, right)


@lru_cache(maxsize=4096)
def is_wrong(text: str, right: str) -> bool:
    """Whether an equation is no multiple of the right one; the other way round it is wrong."""
    factor = multiple_of(parse_equation(text), parse_equation(right))
    return factor is None or factor < 0
