"""Potentials against pH: iron in water with air, or one electrode."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from saltbridge.compose.plots.axes import axis, axis_label
from saltbridge.compose.plots.figure_context import FigureContext
from saltbridge.compose.plots.sampling import sampled
from saltbridge.document import Curve, Figure, Plot

_ENDS = (0.0, 14.0)
FLAT = 1e-6  # V: a line that rises or falls by less is level


def potential_and_ph(figure: FigureContext) -> Figure:
    """Each potential as a line from pH 0 to 14, named at its end by its couple or its letter."""
    context = figure.context
    curves = tuple(_curves(figure))
    label_across, label_up = (axis_label(name, context) for name in figure.entry.axes)
    up = axis([y for curve in curves for _, y in curve.points], label_up, context, up=True)
    across = axis([], label_across, context, ends=_ENDS)
    spoken = " ".join([figure.said, *_order(curves, figure), *(_said(curve, figure) for curve in curves)])
    return Figure("plot", {}, {}, frozenset(), spoken, plots=(Plot(across, up, curves),))


def _curves(figure: FigureContext) -> Iterator[Curve]:
    for name, (moved, wanted) in figure.entry.curves.items():
        ringed = name in figure.use.letters
        label = figure.letter(name) if ringed else figure.label(figure.entry.labels[name][0])
        yield Curve(sampled(wanted, moved, _ENDS, figure.context), label, ringed)


def _order(curves: Sequence[Curve], figure: FigureContext) -> Iterator[str]:
    """Which of several lines begins higher, as the eye sees it."""
    if len(curves) > 1:
        lines = ", ".join(_name(curve) for curve in sorted(curves, key=lambda curve: -curve.points[0][1]))
        yield figure.words("At pH 0 the lines stand in this order, the highest first: {lines}.", lines=lines)


def _name(curve: Curve) -> str:
    return curve.label if isinstance(curve.label, str) else curve.label.spoken


def _said(curve: Curve, figure: FigureContext) -> str:
    """Whether a line falls or stays level; its numbers are to be read off."""
    (_, first), (_, last) = curve.points
    label = _name(curve)
    if abs(last - first) < FLAT:
        return figure.words("The line {label} is level.", label=label)
    return figure.words("The line {label} falls evenly.", label=label)
