"""Which readings of a class look wrong, and why. Nothing is dropped here: a flag names the reading and every cause that fits.

The rule is that of reweighting (P. J. Rousseeuw and A. M. Leroy, Robust Regression and Outlier Detection, 1987, chapter 4; from memory):
the Hampel identifier (median, and 1.4826 times the median absolute deviation) first says which readings count; their mean and standard
deviation then judge every reading. As a metal has few readings in a school, its deviation is drawn towards what all metals together
show, and a reading is judged by the mean of the others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import median

from saltbridge.deliver.bench.class_readings import ClassReading, Pair, by_pair

NORMAL = 1.4826  # makes the median absolute deviation of a normal spread its standard deviation
FIRST_CUT = 3.5  # of those deviations, beyond which a reading does not count at first
CUT = 2.75  # standard deviations; a clean reading lies beyond it six times in a thousand
PRIOR = 25.0  # readings that the deviation of all pairs weighs beside a pair's own
LEAST = 3  # readings of a pair below which nothing can be said of any
SMALLEST = 0.002  # V: no meter of a school is finer in a hand than this, whatever the scatter
FACTOR = 1000.0


@dataclass(frozen=True, slots=True)
class Flag:
    """A reading that lies far from those of the others: ``causes`` that fit (``flipped lead``, ``factor 1000``), none where none does.

    ``centre`` and ``scale`` are those of its pair in V, ``away`` how many scales it lies off.
    """

    reading: ClassReading
    causes: tuple[str, ...]
    centre: float
    scale: float
    away: float


@dataclass(frozen=True, slots=True)
class Spread:
    """Of the readings of a pair that count: how many, their sum and their standard deviation, V."""

    counted: frozenset[int]
    total: float
    scale: float

    def centre(self, reading: ClassReading) -> float:
        """The mean of the others, V."""
        count, total = self._others(reading)
        return total / count

    def fits(self, volts: float, reading: ClassReading) -> bool:
        """Whether a value could stand clean in a reading's place; the mean of few others is itself unsure."""
        count, _ = self._others(reading)
        return abs(volts - self.centre(reading)) <= CUT * self.scale * sqrt(1 + 1 / count)

    def _others(self, reading: ClassReading) -> tuple[int, float]:
        own = id(reading) in self.counted
        return len(self.counted) - own, self.total - own * reading.volts


def spreads(readings: Iterable[ClassReading], usual: Mapping[Pair, float]) -> dict[Pair, Spread]:
    """The spread of each pair that has enough readings. ``usual`` are scatters of pairs relative to one another, V (1 where unknown)."""
    pairs = {pair: found for pair, found in by_pair(readings).items() if len(found) >= LEAST}
    counting = _counting(pairs, usual)
    squares = {pair: _squares([each.volts for each in found]) for pair, found in counting.items()}
    free = sum(len(found) - 1 for found in counting.values())
    common = sum(square / usual.get(pair, 1.0) ** 2 for pair, square in squares.items()) / free if free else 0.0
    spread = {}
    for pair, found in counting.items():
        variance = (squares[pair] + PRIOR * common * usual.get(pair, 1.0) ** 2) / (len(found) - 1 + PRIOR)
        values = frozenset(id(each) for each in found)
        spread[pair] = Spread(values, sum(each.volts for each in found), max(sqrt(variance), SMALLEST))
    return spread


def _counting(pairs: Mapping[Pair, list[ClassReading]], usual: Mapping[Pair, float]) -> dict[Pair, list[ClassReading]]:
    """The readings that count, by the Hampel identifier with one scale for all pairs."""
    centres = {pair: median(each.volts for each in found) for pair, found in pairs.items()}
    away = {id(each): abs(each.volts - centres[pair]) / usual.get(pair, 1.0) for pair, found in pairs.items() for each in found}
    reach = FIRST_CUT * NORMAL * median(away.values()) if away else 0.0
    least = {pair: SMALLEST / usual.get(pair, 1.0) for pair in pairs}
    kept = {pair: [each for each in found if away[id(each)] <= max(reach, least[pair])] for pair, found in pairs.items()}
    return {pair: found if len(found) >= LEAST - 1 else pairs[pair] for pair, found in kept.items()}


def _squares(values: Sequence[float]) -> float:
    middle = sum(values) / len(values)
    return sum((value - middle) ** 2 for value in values)


def flags(readings: Sequence[ClassReading], usual: Mapping[Pair, float]) -> tuple[Flag, ...]:
    """The readings that look wrong, in their own order."""
    return tuple(_flags(readings, spreads(readings, usual)))


def _flags(readings: Sequence[ClassReading], known: Mapping[Pair, Spread]) -> Iterator[Flag]:
    for reading in readings:
        spread = known.get(reading.pair)
        if spread is not None and not spread.fits(reading.volts, reading):
            centre = spread.centre(reading)
            away = abs(reading.volts - centre) / spread.scale
            yield Flag(reading, tuple(_causes(reading, spread)), centre, spread.scale, away)


def _causes(reading: ClassReading, spread: Spread) -> Iterator[str]:
    """What would turn the reading into a clean one; both are named where both would."""
    if spread.fits(-reading.volts, reading):
        yield "flipped lead"
    if any(spread.fits(reading.volts * factor, reading) for factor in (FACTOR, 1 / FACTOR)):
        yield "factor 1000"


def clean(readings: Sequence[ClassReading], flagged: Iterable[Flag]) -> tuple[ClassReading, ...]:
    """The readings without the flagged ones."""
    out = {id(flag.reading) for flag in flagged}
    return tuple(reading for reading in readings if id(reading) not in out)
