"""Readings of a class: one for each group, pair of metals and repeat, signed, in volts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import median


@dataclass(frozen=True, slots=True)
class ClassReading:
    """One reading of a meter: its ``line`` in the file, who read it, the metal of the red lead and of the black one, ``volts`` with its sign."""

    line: int
    class_name: str
    group: str
    red: str
    black: str
    volts: float
    printed: str

    @property
    def pair(self) -> tuple[str, str]:
        """The metals, that of the red lead first."""
        return self.red, self.black

    @property
    def who(self) -> tuple[str, str]:
        """The class and the group."""
        return self.class_name, self.group


Pair = tuple[str, str]


def by_pair(readings: Iterable[ClassReading]) -> dict[Pair, list[ClassReading]]:
    """The readings of each pair, in the order met."""
    found: dict[Pair, list[ClassReading]] = {}
    for reading in readings:
        found.setdefault(reading.pair, []).append(reading)
    return found


def group_values(readings: Iterable[ClassReading]) -> Mapping[tuple[str, str], float]:
    """What each group found for one pair: the median of its repeats, V."""
    repeats: dict[tuple[str, str], list[float]] = {}
    for reading in readings:
        repeats.setdefault(reading.who, []).append(reading.volts)
    return {who: median(values) for who, values in repeats.items()}
