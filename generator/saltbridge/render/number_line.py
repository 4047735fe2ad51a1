"""Layout of the number line of potentials: a ruler in volts, a mark at each value, and labels that never overlap.

Upright, labels stand in one column beside the ruler, moved apart as little as possible and joined to their marks by
leaders that never cross. Lying, each label is a flag on a staff: staffs get taller from right to left, so that none
runs through another's label.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from saltbridge.render.labels import SIZE, Label, label_width

PITCH = 17.0
"""Distance of two labels' baselines, in drawing units."""

_BASELINE = SIZE * 0.35
_UPRIGHT_RULER, _UPRIGHT_TEXT, _MARGIN = 46.0, 84.0, 12.0
_LYING_WIDTH, _GAP = 320.0, 8.0
_LYING_WIDE = 760.0
_LYING_NARROW = 240.0
_AXIS_ROOM = 40.0
_FEW = 7


@dataclass(frozen=True, slots=True)
class Mark:
    """A value on the ruler, its leader as a path and its label's place."""

    key: str
    x: float
    y: float
    path: str
    text_x: float
    text_y: float


@dataclass(frozen=True, slots=True)
class Ruler:
    """What is drawn once: size of the drawing, ends of the ruler and its whole volts as (position, volts)."""

    upright: bool
    width: float
    height: float
    start: float
    end: float
    across: float
    ticks: tuple[tuple[float, int], ...]


def bounds(values: Mapping[str, float]) -> tuple[int, int]:
    """The whole volts that hold all values with a little room."""
    low = math.floor(min(values.values(), default=0.0) - 0.05)
    high = math.ceil(max(values.values(), default=0.0) + 0.05)
    return low, max(high, low + 1)


def upright(labels: Mapping[str, Label], values: Mapping[str, float]) -> tuple[Ruler, tuple[Mark, ...]]:
    """The line standing, the highest potential on top."""
    low, high = bounds(values)
    length = max(150.0, 46.0 * (high - low), PITCH * (len(values) + 1))
    top = _MARGIN + 24.0
    bottom = top + length

    def at(volts: float) -> float:
        return top + length * (high - volts) / (high - low)

    order = sorted(values, key=lambda key: (at(values[key]), key))
    spots = spread([at(values[key]) for key in order], PITCH, top + 4, bottom - 4)
    marks = tuple(_beside(key, at(values[key]), spot) for key, spot in zip(order, spots, strict=True))
    widest = max((label_width(labels[key]) for key in order), default=0.0)
    width = 20.0 * math.ceil((_UPRIGHT_TEXT + widest + 8) / 20)
    ticks = tuple((at(volts), volts) for volts in range(low, high + 1))
    return Ruler(True, width, bottom + _MARGIN + 10, top, bottom, _UPRIGHT_RULER, ticks), marks


def _beside(key: str, value_y: float, label_y: float) -> Mark:
    edge, bend, text = _UPRIGHT_RULER, _UPRIGHT_RULER + 8, _UPRIGHT_TEXT
    path = f"M{edge:.0f} {value_y:.1f}H{bend:.0f}L{text - 10:.0f} {label_y:.1f}H{text - 4:.0f}"
    return Mark(key, edge, value_y, path, text, label_y + _BASELINE)


def spread(targets: list[float], pitch: float, first: float, last: float) -> list[float]:
    """Places in order, at least ``pitch`` apart and as near as can be to their sorted targets (least squares), kept within ends.

    Neighbours that would touch are pooled into a block that stands at its mean. Where the room is too small the places
    run on beyond ``last``.
    """
    blocks: list[list[float]] = []  # mean of (target − rank · pitch), count
    for rank, target in enumerate(targets):
        blocks.append([target - rank * pitch, 1.0])
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            mean, count = blocks.pop()
            blocks[-1] = [(blocks[-1][0] * blocks[-1][1] + mean * count) / (blocks[-1][1] + count), blocks[-1][1] + count]
    highest = max(first, last - pitch * (len(targets) - 1))
    bases = [min(max(mean, first), highest) for mean, count in blocks for _ in range(int(count))]
    return [base + rank * pitch for rank, base in enumerate(bases)]


def lying(labels: Mapping[str, Label], values: Mapping[str, float], *, narrow: bool = False) -> tuple[Ruler, tuple[Mark, ...]]:
    """The line lying, low potentials on the left; with many marks every other flag hangs below the ruler."""
    low, high = bounds(values)
    whole = _LYING_NARROW if narrow else _LYING_WIDTH if len(values) <= _FEW else _LYING_WIDE
    start = _MARGIN + 14
    end = _right_end(labels, values, start, whole, (low, high))

    def at(volts: float) -> float:
        return start + (end - start) * (volts - low) / (high - low)

    order = sorted(values, key=lambda key: (values[key], key))
    both = len(values) > _FEW
    above, below = (order[::2], order[1::2]) if both else (order, [])
    places = {key: at(values[key]) for key in order}
    over, under = _rows(above, places, labels), _rows(below, places, labels)
    top = _MARGIN + PITCH * (max(over.values(), default=0) + 1) + 8
    foot = top + 24
    height = foot + (PITCH * (max(under.values()) + 1) + 14 if under else _MARGIN)
    marks = [_flag(key, places[key], top, top - 8 - PITCH * over[key]) for key in above]
    marks += [_flag(key, places[key], foot, foot + 8 + PITCH * (under[key] + 0.6)) for key in below]
    ticks = tuple((at(volts), volts) for volts in range(low, high + 1))
    return Ruler(False, whole, height, start, end, top, ticks), tuple(marks)


def _right_end(
    labels: Mapping[str, Label], values: Mapping[str, float], start: float, whole: float, ends: tuple[int, int]
) -> float:
    """Where the ruler must end so that the label furthest right still fits, in steps of ten."""
    low, high = ends
    end = whole - _MARGIN - 14 - _AXIS_ROOM
    for key, value in values.items():
        share = (value - low) / (high - low)
        if share > 0:
            end = min(end, start + (whole - 6 - label_width(labels[key]) - start) / share)
    return max(start + 80.0, 10.0 * math.floor(end / 10))


def _rows(order: list[str], places: Mapping[str, float], labels: Mapping[str, Label]) -> dict[str, int]:
    """Row of each flag: one higher than any whose staff stands under its label."""
    rows: dict[str, int] = {}
    for key in reversed(order):
        reach = places[key] + label_width(labels[key]) + _GAP
        rows[key] = 1 + max((row for other, row in rows.items() if places[other] <= reach), default=-1)
    return rows


def _flag(key: str, x: float, edge: float, baseline: float) -> Mark:
    tip = baseline - SIZE * 0.7 if baseline < edge else baseline
    return Mark(key, x, edge, f"M{x:.1f} {edge:.1f}V{tip:.1f}", x + 4, baseline)
