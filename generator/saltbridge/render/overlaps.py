"""Labels of a drawing that run into one another, found from the same layout that draws them."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import combinations

from saltbridge.document import Figure
from saltbridge.render.figures import Box, label_boxes
from saltbridge.render.labels import Label

_SLACK = 0.5
"""Drawing units by which boxes may meet; letters never fill theirs."""


def overlapping(figure: Figure) -> tuple[tuple[str, str], ...]:
    """Pairs of labels that overlap; a number line is looked at lying and standing."""
    key = (figure.name, tuple(figure.labels.items()), tuple(figure.numbers.items()), figure.flags)
    return _overlapping(key)


_Drawn = tuple[str, tuple[tuple[str, Label], ...], tuple[tuple[str, float], ...], frozenset[str]]


@lru_cache(maxsize=4096)
def _overlapping(key: _Drawn) -> tuple[tuple[str, str], ...]:
    name, labels, numbers, flags = key
    figure = Figure(name, dict(labels), dict(numbers), flags, "")
    ways = [figure]
    if name == "number-line":
        ways = [replace(figure, flags=flags - {"vertical"}), replace(figure, flags=flags | {"vertical"})]
    return tuple(
        (one.label, other.label) for way in ways for one, other in combinations(label_boxes(way), 2) if _meet(one, other)
    )


def _meet(one: Box, other: Box) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    along = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > _SLACK and along > _SLACK
