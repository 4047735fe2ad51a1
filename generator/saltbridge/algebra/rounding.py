"""Rounding the steps of a student who writes every result down: the same as ``sigfigs.to_figures``, in floats where that is safe."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache

from saltbridge.sigfigs import to_figures

_FLOATS_UP_TO = 6  # figures; beyond that the margin below would be too thin
_MARGIN = 1e-5  # nearer to a tie than this the twelve digits decide, in decimals
_SMALL, _LARGE = 1e-12, 1e12


@lru_cache(maxsize=16)
def rounder(figures: int) -> Callable[[float], float]:
    """A function that rounds to so many figures, half away from zero after twelve digits; it raises ValueError unless finite."""
    if figures > _FLOATS_UP_TO:
        return lambda value: float(to_figures(value, figures))
    least, most = 10.0 ** (figures - 1), 10.0**figures

    def rounded(value: float) -> float:
        size = abs(value)
        if _SMALL < size < _LARGE:
            places = figures - 1 - math.floor(math.log10(size))
            scaled = size * 10.0**places
            if least <= scaled < most and abs(scaled % 1.0 - 0.5) > _MARGIN:
                return round(value, places)
        return float(to_figures(value, figures))

    return rounded
