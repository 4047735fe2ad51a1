"""Who gets which variant: different keys for all, none that is known already, and versions that are equally hard.

A question's **key** is every answer as it is printed; two students with one key could copy. Versions **match** where they have as
many steps, answers of the same sign and ions of the same charges, and each number within a factor of five.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain, cycle, islice

from saltbridge.draw.seeds import Seed

FACTOR = 5.0
"""Numbers of matched versions differ by this factor at most; common practice, no source."""

MOST_SHARING = 3
"""Students that share a key nobody else has seen, before keys are taken that are known already; common practice, no source."""

MOST_ANCHORS = 64
Layout = tuple[tuple[str, int, str], ...]


@dataclass(frozen=True, slots=True)
class Form:
    """What makes a version easy or hard: steps of each part, the sign of each number, the charges that it works with."""

    steps: tuple[int, ...]
    signs: tuple[int, ...]
    charges: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A variant that could be given out. ``layout`` are label, marks and kind of each part; ``sizes`` the common logarithms of its numbers."""

    template: str
    seed: str
    key: str
    situation: str
    layout: Layout
    form: Form
    sizes: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Match:
    """What the versions of a question have in common: their layout and form, and the middle of the window of their sizes."""

    layout: Layout
    form: Form
    middle: tuple[float, ...]
    half: float

    def holds(self, each: Candidate) -> bool:
        """Whether a candidate is a version that matches the others."""
        return each.layout == self.layout and each.form == self.form and self.distance(each) <= self.half + 1e-9

    def distance(self, each: Candidate) -> float:
        """How far a candidate's sizes lie from the middle, in powers of ten."""
        if len(each.sizes) != len(self.middle):
            return float("inf")
        return max((abs(size - middle) for size, middle in zip(each.sizes, self.middle, strict=True)), default=0.0)


@dataclass
class Pool:
    """Candidates met so far, one for each key; ``barred`` are keys and situations that may not be given out, each with why."""

    barred: Mapping[str, str] = field(default_factory=dict)
    fresh: dict[str, Candidate] = field(default_factory=dict)
    known: dict[str, Candidate] = field(default_factory=dict)
    draws: Counter[str] = field(default_factory=Counter)

    def add(self, candidates: Iterable[Candidate]) -> None:
        """Take candidates in."""
        for each in candidates:
            self.draws[each.key] += 1
            there = self.known if each.key in self.barred or each.situation in self.barred else self.fresh
            there.setdefault(each.key, each)

    @property
    def distinct(self) -> int:
        """How many keys were met."""
        return len(self.draws)

    def known_as(self, why: str) -> int:
        """How many of the keys met are barred for that reason."""
        return sum(why in (self.barred.get(each.key), self.barred.get(each.situation)) for each in self.known.values())


# ------------------------------------------------------------------ the match


def best_match(pool: Sequence[Candidate], needed: int) -> Match | None:
    """The match that most candidates keep, up to the number needed; None where there are no candidates."""
    best: tuple[tuple[int, int], Match] | None = None
    for (layout, form), group in _groups(pool).items():
        for match in _windows(layout, form, group):
            held = sum(match.holds(each) for each in group)
            score = (min(held, needed), held)
            if best is None or score > best[0]:
                best = (score, match)
            if held == len(group):
                break
    return best[1] if best else None


def _groups(pool: Iterable[Candidate]) -> dict[tuple[Layout, Form], list[Candidate]]:
    groups: dict[tuple[Layout, Form], list[Candidate]] = {}
    for each in pool:
        groups.setdefault((each.layout, each.form), []).append(each)
    return groups


def _windows(layout: Layout, form: Form, group: Sequence[Candidate]) -> Iterator[Match]:
    """Windows of a factor five: the middle of all first, then around some of the candidates."""
    half = math.log10(FACTOR) / 2
    columns = list(zip(*(each.sizes for each in group), strict=True))
    yield Match(layout, form, tuple((min(column) + max(column)) / 2 for column in columns), half)
    step = max(1, len(group) // MOST_ANCHORS)
    for each in group[::step]:
        yield Match(layout, form, each.sizes, half)


# ------------------------------------------------------------------ who gets what


def allocated(pool: Pool, match: Match, needed: int, taken: Collection[str] = ()) -> list[Candidate]:
    """A candidate for each of so many students, matched ones with keys of their own first.

    ``taken`` are the keys that others of the class have. Where keys run out they are shared evenly, by ``MOST_SHARING`` at most as long
    as there are barred ones, which come next.
    """
    alike = [each for each in pool.fresh.values() if each.layout == match.layout]
    free = _nearest_first((each for each in alike if each.key not in taken), match)
    if len(free) >= needed:
        return free[:needed]
    known = _nearest_first((each for each in pool.known.values() if each.layout == match.layout), match)
    fresh = _nearest_first(alike, match)
    if len(free) + (MOST_SHARING - 1) * len(fresh) >= needed or not known:
        return list(islice(chain(free, cycle(fresh)), needed)) if fresh else []
    unshared = [each for each in known if each.key not in taken]
    return list(islice(chain(free, unshared, cycle([*fresh, *known])), needed))


def _nearest_first(candidates: Iterable[Candidate], match: Match) -> list[Candidate]:
    """Matched candidates as they were met, then those of the same form by their distance, then the others."""

    def rank(each: Candidate) -> tuple[int, float]:
        if match.holds(each):
            return 0, 0.0
        return (1, match.distance(each)) if each.form == match.form else (2, match.distance(each))

    return sorted(candidates, key=rank)


# ------------------------------------------------------------------ what is told of it


@dataclass(frozen=True, slots=True)
class Likeness:
    """How alike the versions given out are: whether steps, signs and charges are one, and the widest factor between numbers."""

    steps: bool
    signs: bool
    charges: bool
    factor: float


def likeness(given: Sequence[Candidate]) -> Likeness:
    """How alike these are."""
    columns = list(zip(*(each.sizes for each in given), strict=False))
    widest = max((max(column) - min(column) for column in columns), default=0.0)
    forms = [each.form for each in given]
    return Likeness(
        steps=len({each.steps for each in forms}) <= 1,
        signs=len({each.signs for each in forms}) <= 1,
        charges=len({each.charges for each in forms}) <= 1,
        factor=10.0**widest,
    )


def set_seed(secret: str, question: str, number: int) -> str:
    """The seed of the candidate of that number of a set's question; without the secret nobody can tell it."""
    return f"{Seed(secret, question, 'set').number(str(number)):064x}"[:32]
