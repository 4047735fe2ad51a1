"""The curve of a redox titration: the potential against the volume added, from the relations before, at and after equivalence."""

from __future__ import annotations

from saltbridge.compose.plots.axes import axis, axis_label, told_value
from saltbridge.compose.plots.figure_context import FigureContext
from saltbridge.compose.plots.sampling import sampled
from saltbridge.document import Curve, Figure, Plot

_SHARES = (0.01, 0.02, 0.04, 0.07, 0.12, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.88, 0.93, 0.96, 0.98, 0.99, 0.996, 0.999)
"""Shares of the equivalence volume, close together where the curve bends; mirrored beyond it."""
_BEYOND = 4
"""So many of the first are left out beyond: the curve ends before twice the volume."""
_END = 1.9


def titration_curve(figure: FigureContext) -> Figure:
    """The curve from the first drops to nearly twice the equivalence volume."""
    context, curves = figure.context, figure.entry.curves
    volume = told_value(figure.entry.axes[0], context)
    shares = {"before": _SHARES, "middle": (1.0,), "after": tuple(2 - share for share in reversed(_SHARES[_BEYOND:]))}
    points = [
        point
        for name, (moved, wanted) in curves.items()
        for point in sampled(wanted, moved, [volume * share for share in shares[name]], context)
    ]
    label_across, label_up = (axis_label(name, context) for name in figure.entry.axes)
    across = axis([0.0, volume * _END], label_across, context)
    up = axis([y for _, y in points], label_up, context, up=True)
    return Figure("plot", {}, {}, frozenset(), figure.said, plots=(Plot(across, up, (Curve(tuple(points)),)),))
