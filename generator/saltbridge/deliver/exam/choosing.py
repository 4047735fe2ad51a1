"""Which templates make an exam: a whole-number programme over the blueprint's wishes (HiGHS, through scipy).

Where no choice meets all wishes, it says which can't be met, how near the bank comes, and what would do.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.deliver.exam.wishes import Candidate, Exam, Place, Wish, places, wishes
from saltbridge.draw.seeds import Seed
from saltbridge.faults import Fault, Faulty

_FIRM = 50.0  # how much dearer an exact wish is than a mark of a cell, where something has to give
_LEAN = 0.01  # so small that variety never costs a mark of a cell
_NEAR = 1e-6


@dataclass(frozen=True, slots=True)
class Chosen:
    """A template chosen, and its section's number from 0."""

    template: str
    section: int


def choose_questions(candidates: Sequence[Candidate], exam: Exam, seed: str) -> tuple[Chosen, ...]:
    """The questions of an exam, by section and then in the order of the bank. ``seed`` decides between choices that are as good.

    Raises ``Faulty`` (code ``blueprint``) with the wishes that can't be met together and what would do.
    """
    there = places(candidates, exam)
    asked = wishes(there, exam)
    found = _solved(there, asked, seed) if there else None
    if found is None:
        raise Faulty(_unmet(there, asked, exam))
    taken = [place for place, use in zip(there, found, strict=True) if use > 0.5]
    return tuple(Chosen(place.candidate.template, place.section) for place in sorted(taken, key=lambda place: place.section))


# ------------------------------------------------------------------ the programme


def _solved(there: Sequence[Place], asked: Sequence[Wish], seed: str) -> list[float] | None:
    """How far each place is taken (0 or 1), all wishes met and cells as near as can be; None where they can't be."""
    soft = [wish for wish in asked if wish.soft]
    lean = [_LEAN * (Seed("exam", place.candidate.template, seed).number("lean") % 1_000) / 1_000 for place in there]
    rows = [([*wish.weights, *[0.0] * len(soft)], wish.low, wish.high) for wish in asked]
    rows += _once(there, len(soft))
    for at, wish in enumerate(soft):  # how far a cell is off, upwards and downwards
        away = [float(at == other) for other in range(len(soft))]
        rows.append(([*wish.weights, *[-each for each in away]], float("-inf"), wish.target))
        rows.append(([*wish.weights, *away], wish.target, float("inf")))
    return _optimum([*lean, *[1.0] * len(soft)], rows, len(there))


def _eased(there: Sequence[Place], asked: Sequence[Wish]) -> list[float]:
    """The places taken where every wish may be missed, at a price: the nearest that the bank comes."""
    rows, price = [], [0.0] * len(there)
    for at, wish in enumerate(asked):
        give = [float(at == other) for other in range(len(asked))]
        rows.append(([*wish.weights, *give, *[-each for each in give]], wish.low, wish.high))
    price += [1.0 if wish.soft else _FIRM for wish in asked] * 2
    found = _optimum(price, [*rows, *_once(there, 2 * len(asked))], len(there))
    return found or [0.0] * len(there)


def _least_tolerance(there: Sequence[Place], asked: Sequence[Wish]) -> int | None:
    """The smallest tolerance with which all can be met; None where no tolerance would do."""
    rows = []
    for wish in asked:
        if wish.soft:
            rows.append(([*wish.weights, -1.0], float("-inf"), wish.target))
            rows.append(([*wish.weights, 1.0], wish.target, float("inf")))
        else:
            rows.append(([*wish.weights, 0.0], wish.low, wish.high))
    found = _optimum([*[0.0] * len(there), 1.0], [*rows, *_once(there, 1)], len(there))
    if found is None:
        return None
    return max((_missed_by(found, wish) for wish in asked if wish.soft), default=0)


def _missed_by(found: Sequence[float], wish: Wish) -> int:
    """How many whole marks a choice is off a wish's middle, rounded up."""
    return int(-(-(abs(_sum(found, wish) - wish.target) - _NEAR) // 1))


def _once(there: Sequence[Place], more: int) -> list[tuple[list[float], float, float]]:
    """Each template once at most, in whatever section."""
    names = dict.fromkeys(place.candidate.template for place in there)
    return [([*(float(place.candidate.template == name) for place in there), *[0.0] * more], 0.0, 1.0) for name in names]


def _optimum(price: Sequence[float], rows: Sequence[tuple[Sequence[float], float, float]], whole: int) -> list[float] | None:
    """The cheapest values, the first ``whole`` of them 0 or 1, the rest at least 0, that keep every row in its range."""
    from scipy import optimize  # noqa: PLC0415 - a heavy library, for exams only

    limits = optimize.LinearConstraint([row for row, _, _ in rows], [low for _, low, _ in rows], [high for _, _, high in rows])
    more = len(price) - whole
    bounds = optimize.Bounds([0.0] * len(price), [1.0] * whole + [float("inf")] * more)
    kinds: Any = [1] * whole + [0] * more  # 1: whole numbers only
    found: Any = optimize.milp(price, constraints=[limits], integrality=kinds, bounds=bounds)
    return [float(value) for value in found.x[:whole]] if found.x is not None else None


def _sum(found: Sequence[float], wish: Wish) -> float:
    return sum(weight * round(use) for weight, use in zip(wish.weights, found, strict=True))


# ------------------------------------------------------------------ what can't be met


def _unmet(there: Sequence[Place], asked: Sequence[Wish], exam: Exam) -> Iterator[Fault]:
    """The wishes that have to give, each with how near the bank comes and what would do."""
    found = _eased(there, asked)
    tolerance = _least_tolerance(there, asked)
    for wish in asked:
        reached = _sum(found, wish)
        if not wish.low - _NEAR <= reached <= wish.high + _NEAR:
            yield Fault("blueprint", _wished(wish), f"{reached:g} at the nearest", _cure(wish, exam, tolerance), key=wish.key)


def _wished(wish: Wish) -> str:
    if wish.key.startswith("must include"):
        return "a template that can stand in this exam"
    if wish.low == wish.high:
        return f"{wish.target:g} marks"
    return f"{wish.low:g} to {wish.high:g} marks"


def _cure(wish: Wish, exam: Exam, tolerance: int | None) -> str:
    if wish.key.startswith("must include"):
        return "Sign it, mark it `use: exam`, or leave it out."
    most = sum(weight for weight in wish.weights if weight)
    if most < wish.low - _NEAR:
        return f"The bank has {most:g} marks of it for this exam: write more questions of it, or ask for {most:g}."
    if tolerance is not None and tolerance > exam.blueprint.tolerance:
        return f"`tolerance: {tolerance}` can be met."
    return "Ask for less of it, or write a question of other marks."
