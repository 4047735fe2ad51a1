"""A graph through points that are told, to be read off: voltage against current, potential against pH or lg c, readings of a titration."""

from __future__ import annotations

from math import log10

from saltbridge.chemistry.inscriptions import merged
from saltbridge.compose.context import Context
from saltbridge.compose.plots.axes import axis, axis_label, told_value, with_room
from saltbridge.compose.plots.figure_context import FigureContext
from saltbridge.document import Axis, Curve, Figure, Inscription, Mark, Piece, Plot, Point
from saltbridge.scenarios.figures.figure_records import GraphLine, points_of

BARE = "bare"
_STRAIGHT = 2
"""So many points make a straight line, which is drawn across the whole graph."""


def line_graph(figure: FigureContext) -> Figure:
    """The first line of the entry that the draw has all points of."""
    context = figure.context
    line = next(each for each in figure.entry.lines if figure.entry.has_line(each, figure.has))
    pairs = list(zip(points_of(line.across, figure.has), points_of(line.up, figure.has), strict=True))
    points = tuple((_place(x, line, context), told_value(y, context)) for x, y in pairs)
    told_there = BARE not in figure.use.words.values()
    names = [_values(x, y, context) if told_there else "" for x, y in pairs]
    plot = _plot(points, names, line, context)
    told = "; ".join(f"{_spoken(x, context)}, {_spoken(y, context)}" for x, y in pairs)
    spoken = figure.words(figure.entry.says[0].text, up=plot.up.label.spoken, across=plot.across.label.spoken, points=told)
    return Figure("plot", {}, {}, frozenset(), spoken, plots=(plot,))


def _values(x: str, y: str, context: Context) -> Inscription:
    """Both quantities of a point, as ``0.20 A, 1.44 V``."""
    pieces = [shown.pieces for name in (x, y) if isinstance(shown := context.shown(name), Inscription)]
    return Inscription("quantity", merged([*pieces[0], Piece("base", ", "), *pieces[-1]]), "")


def _spoken(node: str, context: Context) -> str:
    shown = context.shown(node)
    return shown.spoken if isinstance(shown, Inscription) else shown.text


def _plot(points: tuple[Point, ...], names: list[Inscription | str], line: GraphLine, context: Context) -> Plot:
    label_across = axis_label(line.named[0], context, log=line.log)
    label_up = axis_label(line.named[1], context)
    zero = 0.0 if line.from_zero else points[0][0]
    across = axis([zero, *(x for x, _ in points)], label_across, context)
    if len(points) > _STRAIGHT:
        marks = tuple(Mark(x, y) for x, y in points)
        return Plot(across, axis([y for _, y in points], label_up, context, up=True), (Curve(points),), marks)
    ends = _extended(points, across)
    return Plot(across, axis(with_room([y for _, y in ends]), label_up, context, up=True), (Curve(ends),), _marks(points, names))


def _marks(points: tuple[Point, ...], names: list[Inscription | str]) -> tuple[Mark, ...]:
    """The two points with their names on the side of the line that is free: over a falling line at first, under it at last."""
    (first, second), falls = points, points[1][1] < points[0][1]
    return (
        Mark(*first, names[0], over=falls, anchor="start"),
        Mark(*second, names[1], over=not falls, anchor="end"),
    )


def _extended(points: tuple[Point, ...], across: Axis) -> tuple[Point, ...]:
    """The straight line through two points from one end of the axis to the other."""
    (x1, y1), (x2, y2) = points
    slope = (y2 - y1) / (x2 - x1)
    return tuple((x, y1 + slope * (x - x1)) for x in (across.low, across.high))


def _place(node: str, line: GraphLine, context: Context) -> float:
    value = told_value(node, context)
    return log10(value) if line.log else value
