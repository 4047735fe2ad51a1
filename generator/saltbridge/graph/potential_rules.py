"""Rules that compare several potentials or readings: strongest, widest apart, between two, whole cells, outliers.

A rule whose name goes on after a comma is the wrong way of a slip: ``highest, other side`` is ``highest`` read on the wrong
side of the arrow. Part of the closed list of rules.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Callable, Mapping, Sequence
from itertools import combinations
from typing import Any

from saltbridge.graph.laws import Undefined

_OTHER_SIDE = {"oxidised": "reduced", "reduced": "oxidised"}
_TIE = Undefined("two of them are equal, so neither can be chosen")
_HAIR = 1e-9  # V or cells: less than any printed place


def _one(found: Sequence[str], several: str) -> Any:
    return found[0] if len(found) == 1 else Undefined(several if found else "none of them fits")


def _best(values: Sequence[float], keys: Sequence[str], bound: float) -> Any:
    found = [key for key, value in zip(keys, values, strict=True) if abs(value - bound) < _HAIR]
    return found[0] if len(found) == 1 else _TIE


def _other_side(best: Callable[[Sequence[float]], float]) -> Callable[[Sequence[Any], Sequence[str]], Any]:
    """The right row, but the species on the wrong side of its arrow."""

    def run(values: Sequence[Any], keys: Sequence[str]) -> Any:
        found = _best(values, keys, best(values))
        if isinstance(found, Undefined):
            return found
        owner, _, side = found.rpartition(".")
        return f"{owner}.{_OTHER_SIDE[side]}"

    return run


# ------------------------------------------------------------------ pairs


def _gaps(
    best: Callable[[Sequence[float]], float], size: Callable[[float], float]
) -> Callable[[Sequence[Any], Sequence[str]], Any]:
    """The pair of rows whose values lie farthest apart or nearest; keys are the pairs in the order of combinations."""

    def run(values: Sequence[Any], keys: Sequence[str]) -> Any:
        gaps = [abs(size(one) - size(other)) for one, other in combinations(values, 2)]
        return _best(gaps, keys, best(gaps))

    return run


def _inverted(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The one pair that stands in one order by the first half of the values and in the other by the second half."""
    half = len(values) // 2
    readings, table = values[:half], values[half:]
    pairs = combinations(range(half), 2)
    found = [key for key, (a, b) in zip(keys, pairs, strict=True) if (readings[a] - readings[b]) * (table[a] - table[b]) < 0]
    return _one(found, "more than one pair is out of place")


# ------------------------------------------------------------------ between two


def _between(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The one candidate above the first value and below the second."""
    low, high, *candidates = values
    return _one([key for key, value in zip(keys, candidates, strict=True) if low < value < high], "more than one fits")


def _of_candidates(best: Callable[[Sequence[float]], float]) -> Callable[[Sequence[Any], Sequence[str]], Any]:
    return lambda values, keys: _best(values[2:], keys, best(values[2:]))


def _sign_of_first_alone(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """Judged by the potential of one half alone, the second input."""
    return keys[0] if values[1] > 0 else keys[1]


# ------------------------------------------------------------------ whole numbers and repeats


def _round_up(values: Sequence[Any], _keys: Sequence[str]) -> Any:
    return float(math.ceil(values[0] - _HAIR))


def _round_down(values: Sequence[Any], _keys: Sequence[str]) -> Any:
    return float(math.floor(values[0] + _HAIR))


def _farthest(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The repeat farthest from the median."""
    middle = statistics.median(values)
    away = [abs(value - middle) for value in values]
    return _best(away, keys, max(away))


def _of_the_others(best: Callable[[Sequence[float]], float]) -> Callable[[Sequence[Any], Sequence[str]], Any]:
    """The highest or lowest value but for that of the key told first."""
    return lambda values, keys: best([value for key, value in zip(keys, values[1:], strict=True) if key != values[0]])


POTENTIAL_RULES: Mapping[str, Callable[[Sequence[Any], Sequence[str]], Any]] = {
    "highest, other side": _other_side(max),
    "lowest, other side": _other_side(min),
    "highest, place in print": lambda _values, keys: keys[0],
    "lowest, place in print": lambda _values, keys: keys[-1],
    "widest gap": _gaps(max, float),
    "narrowest gap": _gaps(min, float),
    "widest gap, gap of sizes": _gaps(max, abs),
    "narrowest gap, gap of sizes": _gaps(min, abs),
    "inverted": _inverted,
    "between": _between,
    "between, highest": _of_candidates(max),
    "between, lowest": _of_candidates(min),
    "by sign, sign of the first alone": _sign_of_first_alone,
    "round up": _round_up,
    "round up, round down": _round_down,
    "farthest": _farthest,
    "highest of the others": _of_the_others(max),
    "lowest of the others": _of_the_others(min),
    "falling": lambda values, keys: "<".join(key for _, key in sorted(zip(values, keys, strict=True), reverse=True)),
}
