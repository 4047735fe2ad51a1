"""A running cell: its potential against the fraction used up, as one graph to read off or as four shapes to choose from."""

from __future__ import annotations

from saltbridge.compose.plots.axes import axis, axis_label, bare, symbol_label
from saltbridge.compose.plots.figure_context import FigureContext
from saltbridge.compose.plots.sampling import sampled
from saltbridge.document import Curve, Figure, Plot, Point

_USED = (0.1, 2.0, 5.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 88.0, 93.0, 96.0, 98.0, 99.0, 99.5, 99.8, 99.95)
"""Per cent of the ion used up, close together where the curve bends."""
_ALL = 100.0
RIGHT = "late"
"""The right one of the shapes."""
_DEAD = 0.97
"""Where, as a share of the whole, the graph that stays level falls at once."""
_ROOM = 1.15
"""How far an axis runs beyond its highest value."""


def discharge_curve(figure: FigureContext) -> Figure:
    """The potential until it is zero."""
    context = figure.context
    points = _curve(figure)
    label_across, label_up = (axis_label(name, context) for name in figure.entry.axes)
    across = axis([], label_across, context, ends=(0.0, _ALL))
    up = axis([0.0, *(y for _, y in points)], label_up, context, up=True)
    return Figure("plot", {}, {}, frozenset(), figure.said, plots=(Plot(across, up, (Curve(points),)),))


def discharge_graphs(figure: FigureContext) -> Figure:
    """The right shape, from the numbers, among three from common errors; each has the letter that the draw gave it."""
    context, words = figure.context, figure.words
    shapes = _shapes(_curve(figure))
    end = max(x for points in shapes.values() for x, _ in points)
    start = max(y for points in shapes.values() for _, y in points)
    label_across, label_up = (symbol_label(name, context) for name in figure.entry.axes)
    across, up = bare(label_across, 0.0, end * _ROOM), bare(label_up, 0.0, start * _ROOM)
    by_letter = sorted((figure.letter(shape).plain, shape) for shape in shapes)
    plots = tuple(Plot(across, up, (Curve(shapes[shape]),), letter=letter) for letter, shape in by_letter)
    told = [
        words("Graph {letter} {shape}.", letter=letter, shape=words(figure.entry.letters[shape].says))
        for letter, shape in by_letter
    ]
    return Figure("plot", {}, {}, frozenset(), " ".join([figure.said, *told]), plots=plots)


def _shapes(points: tuple[Point, ...]) -> dict[str, tuple[Point, ...]]:
    """The right curve and the usual wrong ideas of it, between the same ends."""
    start, end = points[0][1], points[-1][0]
    return {
        RIGHT: points,
        "level": ((0.0, start), (end * _DEAD, start), (end * _DEAD, 0.0), (end, 0.0)),
        "straight": ((0.0, start), (end, 0.0)),
        "rising": ((0.0, start / 2), (end, start)),
    }


def _curve(figure: FigureContext) -> tuple[Point, ...]:
    """The part of the curve above zero, to the point where it meets the axis."""
    moved, wanted = figure.entry.curves[RIGHT]
    found = sampled(wanted, moved, _USED, figure.context)
    kept = [point for point in found if point[1] > 0]
    if len(kept) == len(found):
        return (*kept, (_ALL, 0.0))
    (x1, y1), (x2, y2) = found[len(kept) - 1], found[len(kept)]
    return (*kept, (x1 + (x2 - x1) * y1 / (y1 - y2), 0.0))
