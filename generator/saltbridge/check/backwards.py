"""A plain formula read backwards: the argument at which it gives a wanted value, found by Newton's method with a chord."""

from __future__ import annotations

from collections.abc import Callable
from math import isfinite

STARTS = (1.0, 0.1, 10.0, 2.0, 4.0, -1.0, 1e-3, 1e3, 300.0, 1e-6, -100.0, 1e5)
_STEPS = 100
_SMALL = 1e-7
_CLOSE = 1e-13


def backwards(formula: Callable[[float], float], wanted: float) -> float | None:
    """The argument at which ``formula`` gives ``wanted``, or ``None`` where none is found from any start."""
    for start in STARTS:
        try:
            found = _from(start, formula, wanted)
        except (ArithmeticError, ValueError):
            continue
        if found is not None:
            return found
    return None


def _from(start: float, formula: Callable[[float], float], wanted: float) -> float | None:
    x = start
    for _ in range(_STEPS):
        off = formula(x) - wanted
        step = abs(x) * _SMALL or _SMALL
        rise = (formula(x + step) - formula(x - step)) / (2 * step)
        if rise == 0 or not isfinite(rise):
            return None
        better = x - off / rise
        if abs(better - x) <= _CLOSE * abs(better) and abs(formula(better) - wanted) <= 1e-9 * abs(wanted):
            return better
        x = better
    return x if abs(formula(x) - wanted) <= 1e-12 * abs(wanted) else None
