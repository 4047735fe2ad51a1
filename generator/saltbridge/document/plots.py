"""Plots: axes with ticks, curves and marked points, as numbers; whoever draws them lays them out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from saltbridge.document.pieces import Inscription

Point = tuple[float, float]


class Tick(NamedTuple):
    """A mark on an axis and its number as printed."""

    at: float
    text: str


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis from ``low`` to ``high``, named by quantity and unit; without ticks it only points the way."""

    label: Inscription
    low: float
    high: float
    ticks: tuple[Tick, ...] = ()


@dataclass(frozen=True, slots=True)
class Curve:
    """A line through points; ``label`` stands at its right end, in a ring where it is a letter to ask about."""

    points: tuple[Point, ...]
    label: Inscription | str = ""
    ringed: bool = False


@dataclass(frozen=True, slots=True)
class Mark:
    """A marked point; ``label`` stands over it or under it, beginning or ending there."""

    x: float
    y: float
    label: Inscription | str = ""
    over: bool = True
    anchor: Literal["start", "middle", "end"] = "middle"


@dataclass(frozen=True, slots=True)
class Plot:
    """One graph; ``letter`` tells several apart."""

    across: Axis
    up: Axis
    curves: tuple[Curve, ...] = ()
    marks: tuple[Mark, ...] = ()
    letter: str = ""
