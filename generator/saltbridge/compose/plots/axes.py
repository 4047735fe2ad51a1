"""Axes of plots: ends and ticks at round numbers, and what stands beside them."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal

from saltbridge.compose.context import Context
from saltbridge.document import Axis, Inscription, Piece, Tick
from saltbridge.units import convert

_ROUND = (Decimal(1), Decimal(2), Decimal(5), Decimal(10), Decimal(20))
MOST_ACROSS, MOST_UP = 7, 5
_SLIGHT = 1e-9
_ROOM = 0.22


def symbol_label(node: str, context: Context) -> Inscription:
    """The symbol of a quantity for a drawing: E with mark and subscript."""
    symbol = context.printer.symbol(node)
    sub = (Piece("sub", symbol.sub),) if isinstance(symbol.sub, str) and symbol.sub else ()
    return Inscription("symbol", (Piece("base", symbol.base + symbol.mark), *sub), symbol.spoken)


def printed_unit(node: str, context: Context) -> str:
    """The unit in which a plot shows a quantity: that in which it is printed."""
    quantity = context.printer.entry(node)
    return quantity.show if quantity else ""


def told_value(node: str, context: Context) -> float:
    """The number of a quantity that is told, in the unit of its axis."""
    known = context.given(node)
    assert known is not None  # noqa: S101 - a figure shows what is told
    return float(convert(known.printed, known.unit, printed_unit(node, context)))


def axis_label(node: str, context: Context, *, log: bool = False) -> Inscription:
    """Quantity / unit, as ``E / V``; the logarithm of its number where ``log``."""
    symbol, unit = symbol_label(node, context), context.printer.unit(printed_unit(node, context))
    if unit is None:
        return symbol
    if log:
        pieces = (Piece("base", "lg("), *symbol.pieces, Piece("base", " / ("), *unit.pieces, Piece("base", "))"))
        return Inscription("symbol", pieces, f"lg {symbol.spoken}")
    return Inscription("symbol", (*symbol.pieces, Piece("base", " / "), *unit.pieces), symbol.spoken)


def axis(
    values: Iterable[float],
    label: Inscription,
    context: Context,
    *,
    ends: tuple[float, float] | None = None,
    up: bool = False,
    whole: bool = False,
) -> Axis:
    """The axis that holds all values, or runs just from one end to the other, with ticks a round step apart; ``up``: a low one."""
    found = list(values)
    low, high = ends or (min(found), max(found))
    step = _step(low, high, MOST_UP if up else MOST_ACROSS, exact=ends is not None, whole=whole)
    first = Decimal(math.floor(low / float(step) + _SLIGHT))
    last = max(Decimal(math.ceil(high / float(step) - _SLIGHT)), first + 1)
    places = max(0, -int(step.normalize().as_tuple().exponent))
    ticks = tuple(_tick(step * count, places, context) for count in range(int(first), int(last) + 1))
    return Axis(label, float(step * first), float(step * last), ticks)


def with_room(values: Iterable[float]) -> tuple[float, float]:
    """The ends of an axis that leaves room over and under its points for their names."""
    found = list(values)
    room = (max(found) - min(found)) * _ROOM
    return min(found) - room, max(found) + room


def _step(low: float, high: float, most: int, *, exact: bool, whole: bool) -> Decimal:
    """The least round step that makes few enough ticks; ``exact``: one that fits between the ends a whole number of times, if any does."""
    width = max(high - low, _SLIGHT)
    size = Decimal(10) ** math.floor(math.log10(width / most))
    steps = [step for each in _ROUND if float(step := size * each) * most >= width * (1 - _SLIGHT) and not (whole and step < 1)]
    fitting = [step for step in steps if not Decimal(repr(width)) % step] if exact else []
    return (fitting or steps)[0]


def _tick(value: Decimal, places: int, context: Context) -> Tick:
    shown = context.printer.number(f"{value:.{places}f}").plain if value else "0"
    return Tick(float(value), shown)


def bare(label: Inscription, low: float, high: float) -> Axis:
    """An axis without numbers, for the shape of a graph alone."""
    return Axis(label, low, high)
