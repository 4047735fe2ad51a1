"""Layout of plots: axes with ticks, a dotted grid to read off, curves with their names at the end, several graphs side by side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from saltbridge.document import Axis, Curve, Mark, Plot, Point
from saltbridge.render.labels import SIZE, Label, label_text, label_width, number
from saltbridge.render.number_line import PITCH, spread

WIDTH, NARROW = 320.0, 240.0
HIGH, FLAT = 220.0, 138.0
"""Heights of one graph on a page and on paper."""
SMALL_HIGH, SMALL_FLAT = 116.0, 112.0
RING, BASELINE = 8.5, 4.5
_TICK, _GAP = 4.0, 5.0
_TOP, _FOOT = 23.0, 20.0
_DOT = 3.0
_LONG = 56.0


@dataclass(frozen=True, slots=True)
class Placed:
    """A label with its baseline; ``ringed``: a letter to ask about, ``plated``: over a plate that hides the grid."""

    label: Label
    x: float
    y: float
    anchor: str = "start"
    ringed: bool = False
    plated: bool = False


@dataclass(frozen=True, slots=True)
class Laid:
    """A drawing of plots: its size, the paths of axes, grid and curves, points, labels."""

    width: float
    height: float
    axes: str
    grid: str
    curves: str
    heads: str
    points: tuple[tuple[float, float], ...]
    labels: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where the axes of a graph stand: left, right, top and foot."""

    left: float
    right: float
    top: float
    foot: float

    def x(self, axis: Axis, value: float) -> float:
        return self.left + (self.right - self.left) * (value - axis.low) / (axis.high - axis.low)

    def y(self, axis: Axis, value: float) -> float:
        return self.foot - (self.foot - self.top) * (value - axis.low) / (axis.high - axis.low)


def laid_out(plots: Sequence[Plot], *, flat: bool, narrow: bool) -> Laid:
    """One graph over the whole width; several side by side on paper, in two rows on a page."""
    width = NARROW if narrow else WIDTH
    if len(plots) == 1:
        height = FLAT if flat else HIGH
        return _together(width, height, [_graph(plots[0], 0.0, 0.0, width, height)])
    columns = len(plots) if flat and not narrow else 2
    wide, high = width / columns, SMALL_FLAT if flat else SMALL_HIGH
    if flat and narrow:
        high = SMALL_FLAT * 0.7
    laid = [_graph(plot, wide * (at % columns), high * (at // columns), wide, high) for at, plot in enumerate(plots)]
    return _together(width, high * -(-len(plots) // columns), laid)


def markup(laid: Laid, looks: Mapping[str, str]) -> str:
    """The drawing without its frame."""
    ink = looks["ink"]
    dots = "".join([f'<circle cx="{number(x)}" cy="{number(y)}" r="{_DOT}" fill="{ink}"/>' for x, y in laid.points])
    plates = "".join([_plate(each, looks) for each in laid.labels if each.plated])
    return (
        f'<g fill="none" stroke="{ink}" stroke-width="1.5" stroke-linejoin="round" stroke-linecap="round">'
        f'<path d="{laid.grid}" stroke-dasharray="0 5"/>{plates}<path d="{laid.axes}"/><path d="{laid.curves}"/></g>'
        f'<path d="{laid.heads}" fill="{ink}"/>{dots}'
        + "".join([(ring(each.x, each.y - BASELINE, looks) if each.ringed else "") + _text(each) for each in laid.labels])
    )


def ring(x: float, y: float, looks: Mapping[str, str]) -> str:
    """The ring round a letter to ask about, so that it is no label of what stands there."""
    return f'<circle cx="{number(x)}" cy="{number(y)}" r="{RING}" fill="{looks["plate"]}" stroke="{looks["ink"]}" stroke-width="1.5"/>'


def _plate(placed: Placed, looks: Mapping[str, str]) -> str:
    """A plate under a label, over the grid and under curves and axes."""
    width = label_width(placed.label)
    left = placed.x - {"start": 0.0, "middle": width / 2, "end": width}[placed.anchor]
    size = f'x="{number(left)}" y="{number(placed.y - SIZE * 0.8)}" width="{number(width)}" height="{number(SIZE)}"'
    return f'<rect {size} stroke="none" fill="{looks["plate"]}"/>'


def _text(placed: Placed) -> str:
    return label_text(placed.label, placed.x, placed.y, placed.anchor)


def _together(width: float, height: float, laid: Sequence[Laid]) -> Laid:
    return Laid(
        width, height, "".join([each.axes for each in laid]), "".join([each.grid for each in laid]),
        "".join([each.curves for each in laid]), "".join([each.heads for each in laid]),
        tuple(point for each in laid for point in each.points), tuple(label for each in laid for label in each.labels),
    )  # fmt: skip


# ------------------------------------------------------------------ one graph


def _graph(plot: Plot, left: float, top: float, wide: float, high: float) -> Laid:
    frame = _frame(plot, left, top, wide, high)
    ends = list(_ends(plot, frame))
    labels = (*_axis_labels(plot, frame, left, top), *_curve_labels(ends, frame))
    if plot.letter:
        labels = (*labels, Placed(plot.letter, left + wide - 14, top + 16, "middle", ringed=True))
    points = tuple((frame.x(plot.across, mark.x), frame.y(plot.up, mark.y)) for mark in plot.marks)
    labels = (*labels, *(_at_mark(mark, point) for mark, point in zip(plot.marks, points, strict=True) if mark.label))
    grid, axes = _grid(plot, frame), _axes(plot, frame)
    heads = "" if plot.across.ticks else _heads(frame)
    return Laid(wide, high, axes, grid, "".join([_curve(curve, plot, frame) for curve in plot.curves]), heads, points, labels)


def _frame(plot: Plot, left: float, top: float, wide: float, high: float) -> _Frame:
    numbers = max((label_width(tick.text) for tick in plot.up.ticks), default=2.0)
    last = label_width(plot.across.ticks[-1].text) / 2 if plot.across.ticks else 0.0
    beside = 0.0 if _stands_below(plot) else _GAP + label_width(plot.across.label)
    beyond = max([last + beside if plot.across.ticks else 10.0, *map(_beyond, plot.curves)])
    foot = _FOOT + (SIZE + 3 if _stands_below(plot) else 0.0)
    return _Frame(left + numbers + _TICK + _GAP, left + wide - beyond - 4, top + _TOP, top + high - foot)


def _stands_below(plot: Plot) -> bool:
    """Whether the name of the axis across is too long to stand beside its numbers."""
    return bool(plot.across.ticks) and label_width(plot.across.label) > _LONG


def _beyond(curve: Curve) -> float:
    """The room beside the graph for a curve's name."""
    if curve.ringed:
        return 2 * RING + 6
    return label_width(curve.label) + 8 if curve.label else 0.0


def _at_mark(mark: Mark, point: Point) -> Placed:
    """The name of a marked point, clear of the point."""
    aside = {"start": _GAP, "middle": 0.0, "end": -_GAP}[mark.anchor]
    return Placed(mark.label, point[0] + aside, point[1] + (-_GAP - 2 if mark.over else SIZE + 2), mark.anchor, plated=True)


def _axes(plot: Plot, frame: _Frame) -> str:
    ticks = "".join([f"M{number(frame.x(plot.across, tick.at))} {number(frame.foot)}v{_TICK}" for tick in plot.across.ticks])
    ticks += "".join([f"M{number(frame.left)} {number(frame.y(plot.up, tick.at))}h-{_TICK}" for tick in plot.up.ticks])
    return f"M{number(frame.left)} {number(frame.top - 4)}V{number(frame.foot)}H{number(frame.right + 4)}{ticks}"


def _heads(frame: _Frame) -> str:
    """Heads of axes that only point the way."""
    return f"M{number(frame.left)} {number(frame.top - 8)}l-3.5 7h7ZM{number(frame.right + 8)} {number(frame.foot)}l-7 -3.5v7Z"


def _grid(plot: Plot, frame: _Frame) -> str:
    across = [f"M{number(frame.x(plot.across, tick.at))} {number(frame.foot)}V{number(frame.top)}" for tick in plot.across.ticks]
    up = [f"M{number(frame.left)} {number(frame.y(plot.up, tick.at))}H{number(frame.right)}" for tick in plot.up.ticks]
    return "".join([*across, *up])


def _curve(curve: Curve, plot: Plot, frame: _Frame) -> str:
    points = [f"{number(frame.x(plot.across, x))} {number(frame.y(plot.up, y))}" for x, y in curve.points]
    return f"M{'L'.join(points)}"


def _axis_labels(plot: Plot, frame: _Frame, left: float, top: float) -> Iterator[Placed]:
    """Numbers at the ticks, each axis named at its end; numbers that would touch are left out."""
    yield Placed(plot.up.label, left + 2 if plot.up.ticks else frame.left + 8, top + SIZE * 0.85)
    free = frame.foot + SIZE * 0.35 + SIZE
    for tick in plot.up.ticks:
        y = frame.y(plot.up, tick.at) + SIZE * 0.35
        if free - y >= SIZE and y - SIZE * 0.75 > top + SIZE * 1.2:
            yield Placed(tick.text, frame.left - _TICK - _GAP + 1, y, "end")
            free = y
    yield from _across_labels(plot, frame)


def _across_labels(plot: Plot, frame: _Frame) -> Iterator[Placed]:
    y = frame.foot + _TICK + SIZE
    if not plot.across.ticks:
        yield Placed(plot.across.label, frame.right + 4, frame.foot + SIZE + 2, "end")
        return
    last = plot.across.ticks[-1]
    end = frame.x(plot.across, last.at) + label_width(last.text) / 2
    yield Placed(last.text, frame.x(plot.across, last.at), y, "middle")
    yield Placed(plot.across.label, end, y + SIZE + 3, "end") if _stands_below(plot) else Placed(plot.across.label, end + _GAP, y)
    used, stop = float("-inf"), end - label_width(last.text) - _GAP
    for tick in plot.across.ticks[:-1]:
        x, half = frame.x(plot.across, tick.at), label_width(tick.text) / 2
        if x - half > used and x + half < stop:
            yield Placed(tick.text, x, y, "middle")
            used = x + half + _GAP


def _ends(plot: Plot, frame: _Frame) -> Iterator[tuple[Curve, float]]:
    """Each named curve with the height of its right end."""
    for curve in plot.curves:
        if curve.label:
            yield curve, frame.y(plot.up, curve.points[-1][1])


def _curve_labels(ends: Sequence[tuple[Curve, float]], frame: _Frame) -> Iterator[Placed]:
    """Names at the ends of curves, moved apart where they crowd."""
    ordered = sorted(ends, key=lambda each: each[1])
    for (curve, _), y in zip(ordered, spread([y for _, y in ordered], PITCH + 1, frame.top, frame.foot - 2), strict=True):
        if curve.ringed:
            yield Placed(curve.label, frame.right + RING + 5, y + BASELINE, "middle", ringed=True)
        else:
            yield Placed(curve.label, frame.right + 6, y + BASELINE)
