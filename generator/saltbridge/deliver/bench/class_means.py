"""What a class found: the mean of each metal with its uncertainty, their order with ties, and whether differences add up.

The groups are what is repeated independently, so statistics run over groups: repeats of one group share its strips and its paper.
Uncertainties are those of a mean (type A), expanded by Student's t to 95 % (JCGM 100:2008, 4.2.3 and annex G).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from saltbridge.deliver.bench.class_readings import ClassReading, Pair, by_pair, group_values

CONFIDENCE = 0.95


@dataclass(frozen=True, slots=True)
class Mean:
    """A mean over groups, its expanded uncertainty (None with one group), and how many groups, V."""

    volts: float
    uncertainty: float | None
    groups: int


@dataclass(frozen=True, slots=True)
class Triangle:
    """A pair of metals read directly, against the difference of their two readings against the reference; V.

    ``agrees`` is None where the uncertainty of either is not known.
    """

    red: str
    black: str
    direct: Mean
    difference: Mean
    agrees: bool | None


def mean_of(values: Sequence[float]) -> Mean:
    """The mean of the groups' values with its expanded uncertainty."""
    count = len(values)
    middle = sum(values) / count
    if count < 2:
        return Mean(middle, None, count)
    deviation = sqrt(sum((value - middle) ** 2 for value in values) / (count - 1))
    return Mean(middle, students_t(count - 1) * deviation / sqrt(count), count)


def students_t(free: int) -> float:
    """The factor of Student's t for a two-sided interval at 95 %."""
    from scipy import stats  # noqa: PLC0415 - a heavy library, for the bench only

    return float(stats.t.ppf((1 + CONFIDENCE) / 2, free))


def class_means(readings: Sequence[ClassReading], reference: str) -> dict[str, Mean]:
    """The mean of each metal against the reference metal, which is itself zero by definition and not among them."""
    return {
        red: mean_of([*group_values(found).values()])
        for (red, black), found in by_pair(readings).items()
        if black == reference and red != reference
    }


def ranking(readings: Sequence[ClassReading], reference: str) -> tuple[tuple[str, ...], ...]:
    """The metals with the reference metal, the most negative first; those that the groups can't tell apart stand together.

    Two neighbours are told apart where the mean of their differences, group by group, is larger than its uncertainty.
    """
    values = _values(readings, reference)
    means = {metal: sum(found.values()) / len(found) for metal, found in values.items()}
    order = sorted(means, key=lambda metal: (means[metal], metal))
    places: list[list[str]] = []
    for metal in order:
        if places and not _apart(values[places[-1][-1]], values[metal]):
            places[-1].append(metal)
        else:
            places.append([metal])
    return tuple(tuple(place) for place in places)


def _values(readings: Sequence[ClassReading], reference: str) -> dict[str, Mapping[tuple[str, str], float]]:
    """What each group found for each metal, the reference metal at zero."""
    found = {pair[0]: group_values(each) for pair, each in by_pair(readings).items() if pair[1] == reference}
    who = {group for values in found.values() for group in values}
    return {**found, reference: dict.fromkeys(who, 0.0)}


def _apart(one: Mapping[tuple[str, str], float], other: Mapping[tuple[str, str], float]) -> bool:
    both = [other[who] - one[who] for who in one if who in other]
    if not both:
        return False
    mean = mean_of(both)
    return mean.uncertainty is not None and abs(mean.volts) > mean.uncertainty


def triangles(readings: Sequence[ClassReading], reference: str) -> tuple[Triangle, ...]:
    """Whether readings of two metals against each other are the differences of their readings against the reference."""
    pairs = {pair: group_values(found) for pair, found in by_pair(readings).items()}
    return tuple(
        _triangle(pair, pairs, reference)
        for pair in pairs
        if reference not in pair and all((metal, reference) in pairs for metal in pair)
    )


def _triangle(pair: Pair, pairs: Mapping[Pair, Mapping[tuple[str, str], float]], reference: str) -> Triangle:
    red, black = pair
    direct = mean_of([*pairs[pair].values()])
    ours, theirs = (pairs[metal, reference] for metal in pair)
    difference = mean_of([ours[who] - theirs[who] for who in ours if who in theirs] or [_middle(ours) - _middle(theirs)])
    unsure = (direct.uncertainty, difference.uncertainty)
    if unsure[0] is None or unsure[1] is None:
        return Triangle(red, black, direct, difference, None)
    return Triangle(red, black, direct, difference, abs(direct.volts - difference.volts) <= sqrt(unsure[0] ** 2 + unsure[1] ** 2))


def _middle(values: Mapping[tuple[str, str], float]) -> float:
    return sum(values.values()) / len(values)


def rebased(means: Mapping[str, float], reference: str) -> dict[str, float]:
    """The same readings against another metal: each less that metal's own, V."""
    return {metal: volts - means[reference] for metal, volts in means.items()}
