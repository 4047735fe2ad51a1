"""The oxidation state diagram of two steps: n E° of each species against the electrons that it has given, counted from the last."""

from __future__ import annotations

from saltbridge.compose.plots.axes import axis, axis_label, symbol_label, told_value, with_room
from saltbridge.compose.plots.figure_context import FigureContext
from saltbridge.document import Curve, Figure, Inscription, Mark, Piece, Plot

SLOTS = ("last", "middle", "first")
"""Labels of the three species from the left, the most reduced first."""


def oxidation_state_diagram(figure: FigureContext) -> Figure:
    """Each step is a line whose slope is its standard potential."""
    context = figure.context
    points, x, y = [(0.0, 0.0)], 0.0, 0.0
    for electrons, potential in reversed(list(figure.entry.curves.values())):
        n = told_value(electrons, context)
        x, y = x + n, y + n * told_value(potential, context)
        points.append((x, y))
    names = [figure.label(figure.entry.labels[slot][0]) for slot in SLOTS]
    (_, middle, last), sags = points, points[1][1] * points[2][0] < points[2][1] * points[1][0]
    marks = (
        Mark(0.0, 0.0, names[0], over=middle[1] < 0, anchor="start"),
        Mark(*middle, names[1], over=not sags),
        Mark(*last, names[2], over=last[1] > middle[1], anchor="end"),
    )
    across = axis([], axis_label(figure.entry.axes[0], context), context, ends=(0.0, x), whole=True)
    up = axis(with_room(y for _, y in points), _product(figure), context, up=True)
    spoken = figure.spoken(figure.entry.says[0])
    return Figure("plot", {}, {}, frozenset(), spoken, plots=(Plot(across, up, (Curve(tuple(points)),), marks),))


def _product(figure: FigureContext) -> Inscription:
    """``nE° / V``."""
    n, potential = (symbol_label(name, figure.context) for name in figure.entry.axes)
    return Inscription("symbol", (*n.pieces, *potential.pieces, Piece("base", " / V")), f"{n.spoken} {potential.spoken}")
