"""What an exam's blueprint wishes, as ranges of marks over the questions that could stand in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from saltbridge.bank.blueprint import BlueprintKeys, SectionKeys, kinds_of


@dataclass(frozen=True, slots=True)
class Candidate:
    """A question that could stand in an exam; ``kinds`` are its marks by kind of part."""

    template: str
    outcome: str
    demand: str
    marks: int
    kinds: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Exam:
    """What is wished: the total, the sections, templates that must stand in it, and the blueprint."""

    marks: int
    blueprint: BlueprintKeys
    sections: tuple[SectionKeys, ...] = ()
    must_include: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Place:
    """One way to use a candidate: in a section (its number), or in an exam without sections (0)."""

    candidate: Candidate
    section: int


@dataclass(frozen=True, slots=True)
class Wish:
    """A range for the sum of ``weights`` over the places taken, around ``target``; ``soft``: the tolerance widens it."""

    key: str
    weights: tuple[float, ...]
    target: float
    low: float
    high: float
    soft: bool = False


def places(candidates: Sequence[Candidate], exam: Exam) -> tuple[Place, ...]:
    """Where each candidate may stand: only in sections whose kind of answer all its marks have."""
    if not exam.sections:
        return tuple(Place(each, 0) for each in candidates)
    return tuple(
        Place(each, number)
        for each in candidates
        for number, section in enumerate(exam.sections)
        if section.answers is None or each.kinds.keys() <= kinds_of(section.answers)
    )


def wishes(there: Sequence[Place], exam: Exam) -> tuple[Wish, ...]:
    """All wishes; the total and the sections exactly, cells of outcome and demand within the tolerance."""
    return tuple(_wishes(there, exam))


def _wishes(there: Sequence[Place], exam: Exam) -> Iterator[Wish]:
    marks = tuple(float(place.candidate.marks) for place in there)
    yield _exact("marks", marks, exam.marks)
    for number, section in enumerate(exam.sections):
        here = tuple(worth if place.section == number else 0.0 for worth, place in zip(marks, there, strict=True))
        yield _exact(f"sections[{number + 1}]", here, section.marks)
    for name in exam.must_include:
        yield _exact(f"must include: {name}", tuple(float(place.candidate.template == name) for place in there), 1)
    blueprint = exam.blueprint
    for start, wished in (blueprint.outcomes or {}).items():
        inside = tuple(worth * _begins(place.candidate.outcome, start) for worth, place in zip(marks, there, strict=True))
        yield _about(f"blueprint.outcomes.{start}", inside, wished, blueprint.tolerance)
    for demand, share in (blueprint.demand or {}).items():
        inside = tuple(worth * (place.candidate.demand == demand) for worth, place in zip(marks, there, strict=True))
        yield _about(f"blueprint.demand.{demand}", inside, float(share * exam.marks), blueprint.tolerance)
    for word, share in (blueprint.at_most or {}).items():
        yield _limit(f"blueprint.at most.{word}", _of_kinds(there, kinds_of(word)), share * exam.marks)


def _begins(outcome: str, start: str) -> bool:
    return outcome == start or outcome.startswith(f"{start}.")


def _of_kinds(there: Sequence[Place], kinds: frozenset[str]) -> tuple[float, ...]:
    return tuple(float(sum(worth for kind, worth in place.candidate.kinds.items() if kind in kinds)) for place in there)


def _exact(key: str, weights: tuple[float, ...], wished: int) -> Wish:
    return Wish(key, weights, wished, wished, wished)


def _about(key: str, weights: tuple[float, ...], wished: float, tolerance: int) -> Wish:
    return Wish(key, weights, wished, max(0.0, wished - tolerance), wished + tolerance, soft=True)


def _limit(key: str, weights: tuple[float, ...], most: Decimal) -> Wish:
    return Wish(key, weights, 0, 0, float(most))
