"""Labels of a drawing that run into one another, found from the same layout that draws them."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations

from saltbridge.document import Figure, Plot
from saltbridge.render.label_boxes import Box, label_boxes, ways
from saltbridge.render.labels import Label

_SLACK = 0.5
"""Drawing units by which boxes may meet; letters never fill theirs."""


def overlapping(figure: Figure) -> tuple[tuple[str, str], ...]:
    """Pairs of labels that overlap on a page or on paper; a number line is looked at lying and standing."""
    key = (figure.name, tuple(figure.labels.items()), tuple(figure.numbers.items()), figure.flags, figure.plots)
    return _overlapping(key)


_Drawn = tuple[str, tuple[tuple[str, Label], ...], tuple[tuple[str, float], ...], frozenset[str], tuple[Plot, ...]]


@lru_cache(maxsize=4096)
def _overlapping(key: _Drawn) -> tuple[tuple[str, str], ...]:
    name, labels, numbers, flags, plots = key
    figure = Figure(name, dict(labels), dict(numbers), flags, "", plots=plots)
    found = [
        (one.label, other.label)
        for way, paper in ways(figure)
        for one, other in combinations(label_boxes(way, paper=paper), 2)
        if _meet(one, other)
    ]
    return tuple(dict.fromkeys(found))  # what overlaps on a page and on paper is one pair


def _meet(one: Box, other: Box) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    along = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > _SLACK and along > _SLACK
