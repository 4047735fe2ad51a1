"""A class's readings beside the table of standard potentials, re-based on the reference metal: gaps, inversions, and what would explain them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from saltbridge.tables.bench_causes import Cause

_LEAST_GAP = 0.02  # V: a gap below this is within what own-ion cells show (1.091 V for 1.10 V, an opened demonstration)


@dataclass(frozen=True, slots=True)
class Gap:
    """How far a metal's reading lies from its place in the table, V (positive: less negative than the table), and the causes of that sign."""

    metal: str
    read: float
    table: float
    causes: tuple[Cause, ...]

    @property
    def volts(self) -> float:
        """The reading less the table's difference."""
        return self.read - self.table


@dataclass(frozen=True, slots=True)
class Inversion:
    """Two metals that the class found in one order and the table has in the other; ``first`` is the more negative one of the class."""

    first: str
    second: str
    causes: tuple[Cause, ...]


def gaps(read: Mapping[str, float], table: Mapping[str, float], causes: Sequence[Cause]) -> tuple[Gap, ...]:
    """The gap of each metal, in the order of the readings."""
    return tuple(
        Gap(metal, volts, table[metal], fitting(metal, volts - table[metal], volts, causes))
        for metal, volts in read.items()
        if metal in table
    )


def fitting(metal: str, gap: float, read: float, causes: Sequence[Cause]) -> tuple[Cause, ...]:
    """Every cause that can shift this metal's reading in the direction of the gap; ``read`` says which way zero lies, V."""
    if abs(gap) < _LEAST_GAP:
        return ()
    return tuple(cause for cause in causes if cause.acts_on(metal) and cause.shifts(read) in (0, gap / abs(gap)))


def inversions(
    places: Sequence[Sequence[str]], read: Mapping[str, float], table: Mapping[str, float], causes: Sequence[Cause]
) -> tuple[Inversion, ...]:
    """The pairs that stand the other way round in the table; metals that the class can't tell apart are no inversion."""
    return tuple(
        Inversion(first, second, _turning(first, second, read, causes))
        for at, place in enumerate(places)
        for first in place
        for later in places[at + 1 :]
        for second in later
        if first in table and second in table and table[first] > table[second]
    )


def _turning(first: str, second: str, read: Mapping[str, float], causes: Sequence[Cause]) -> tuple[Cause, ...]:
    """What would make the first too low or the second too high; what shifts all strips alike turns no order."""
    own = [cause for cause in causes if not cause.alike]
    found = [*fitting(first, -1, read[first], own), *fitting(second, 1, read[second], own)]
    return tuple(dict.fromkeys(found))


def rank_correlation(read: Mapping[str, float], table: Mapping[str, float]) -> float | None:
    """Spearman's rank correlation of the two orders, −1 to 1; None for fewer than three metals."""
    both = [metal for metal in read if metal in table]
    if len(both) < 3:
        return None
    from scipy import stats  # noqa: PLC0415 - a heavy library, for the bench only

    return float(stats.spearmanr([read[metal] for metal in both], [table[metal] for metal in both]).statistic)


def neighbours(places: Sequence[Sequence[str]]) -> tuple[tuple[str, str], ...]:
    """The pairs of metals that stand next to each other in the class's order."""
    return tuple((one[-1], other[0]) for one, other in pairwise(places))
