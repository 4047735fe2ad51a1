"""Judges what is typed in the notation of chemistry: a species, a cell diagram, an expression for Q or K.

Nothing is worked out here: what the student's own choices lead to stands in the key (``led``) and is looked up; an expression follows the
factor by which the student's own equation is a multiple of the right one (``power`` names its node), or the one of a wrong equation (``forms``).
The **own value** is the form of the key that was typed, or what stands for it in ``values``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from saltbridge.answers import typed_diagrams, typed_expressions, typed_species
from saltbridge.answers.following import Own, Way, own_answers, ways
from saltbridge.answers.run import run
from saltbridge.answers.typed_species import Finding, Unreadable
from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]
Typed = Any
"""A species, diagram or expression as its reader gives it."""


@dataclass(frozen=True, slots=True)
class Notation:
    """How answers of a kind are read and compared: with the right one by a key, and with another whether they are the same."""

    read: Callable[[object, str], Typed]
    compare: Callable[[Typed, Typed, Key], Finding]
    same: Callable[[Typed, Typed], bool]


def _same_species(one: typed_species.TypedSpecies, other: typed_species.TypedSpecies) -> bool:
    return typed_species.identity(one.species) == typed_species.identity(other.species)


NOTATIONS: Mapping[str, Notation] = {
    "species": Notation(
        lambda typed, _: typed_species.read_answer(typed),
        lambda typed, right, key: typed_species.compare(typed, right.species, states=bool(key.get("states"))),
        _same_species,
    ),
    "diagram": Notation(
        typed_diagrams.read_diagram,
        lambda typed, right, key: typed_diagrams.compare(
            typed, right, states=bool(key.get("states")), amounts=bool(key.get("amounts"))
        ),
        typed_diagrams.same,
    ),
    "expression": Notation(
        lambda typed, _: typed_expressions.read_expression(typed),
        lambda typed, right, key: typed_expressions.compare(typed, right, key.get("left_out", ())),
        typed_expressions.same,
    ),
}


@dataclass(frozen=True, slots=True)
class _Led:
    """What a way through the earlier answers leads to, and the wrong forms with the ids of their errors."""

    right: Typed
    wrong: Sequence[tuple[Typed, Sequence[str]]]
    text: str


def judge_notation(key: Key, typed: object, earlier: Mapping[str, Any]) -> Verdict:
    """Judge a typed species, diagram or expression; ``earlier`` are the student's own values by part label."""
    notation = NOTATIONS[key["kind"]]
    mine = notation.read(typed, key.get("mark", "."))
    if isinstance(mine, Unreadable):
        return Verdict("unread", (mine.why,), readings=mine.readings)
    finding = notation.compare(mine, _of_key(notation, key["right"]), key)
    own = _own(notation, key, mine)
    if finding.verdict != "not-yet":
        return Verdict("right" if finding.verdict == "right" else "right-but", finding.why, own=own)
    answers = own_answers(key, earlier)
    found = _follows(notation, key, mine, answers) or _slipped(notation, key, mine, answers)
    found = found or Verdict("not-yet", finding.why)
    return Verdict(found.verdict, found.why, found.slips, own=found.own or own, parts=found.parts)


def _of_key(notation: Notation, text: str) -> Typed:
    return notation.read(text, ".")


def _follows(notation: Notation, key: Key, mine: Typed, answers: Sequence[Own]) -> Verdict | None:
    """What a typed one follows from; a way that it fits as it is goes before one that it fits but for something to mend."""
    found = [(notation.compare(mine, led.right, key), way, led) for way, led in _led(notation, key, answers)]
    for verdict in ("right", "right-but"):
        for finding, way, led in found:
            if finding.verdict == verdict:
                return Verdict("follows", finding.why, own=_value(key, led.text), parts=way.wrong[:1])
    return None


def _slipped(notation: Notation, key: Key, mine: Typed, answers: Sequence[Own]) -> Verdict | None:
    """A known error, or one on top of what the student's own answers lead to."""
    wrong = [(_of_key(notation, text), ids) for text, ids in key.get("slips", {}).items()]
    if known := _errors_of(notation, mine, wrong):
        return Verdict("slip", slips=known)
    for way, led in _led(notation, key, answers):
        if found := _errors_of(notation, mine, led.wrong):
            return Verdict("slip-on-own", slips=found, parts=way.wrong[:1])
    return None


def _errors_of(notation: Notation, mine: Typed, wrong: Sequence[tuple[Typed, Sequence[str]]]) -> tuple[str, ...]:
    found = [error for other, ids in wrong if notation.same(mine, other) for error in ids]
    return tuple(dict.fromkeys(found))


def _led(notation: Notation, key: Key, answers: Sequence[Own]) -> Iterator[tuple[Way, _Led]]:
    """What each way with a wrong answer in it leads to, where it is another than the right one."""
    for way in ways(answers):
        values = run(key.get("graph", ()), key.get("given", {}), way.put) if way.wrong else {}
        found = _by_power(key, values) if key.get("power") else _looked_up(notation, key, values)
        if found:
            yield way, found


def _looked_up(notation: Notation, key: Key, values: Mapping[str, Any]) -> _Led | None:
    for outcomes, text, *wrong in key.get("led", ()):
        if all(values.get(node) == each for node, each in outcomes.items()):
            errors = wrong[0].items() if wrong else ()
            return _Led(_of_key(notation, text), [(_of_key(notation, other), ids) for other, ids in errors], text)
    return None


def _by_power(key: Key, values: Mapping[str, Any]) -> _Led | None:
    """The expression that the student's own equation has: a power of the right one, or one of its own."""
    notation, way = NOTATIONS["expression"], values.get(key["power"])
    if isinstance(way, str):
        text = key.get("forms", {}).get(way)
        return _Led(_of_key(notation, text), (), text) if text else None
    if not isinstance(way, float) or not way.is_integer() or way in {0.0, 1.0}:
        return None
    forms = [(key["right"], ()), *key.get("slips", {}).items()]
    led = [(typed_expressions.to_power(_of_key(notation, text), Fraction(int(way))), ids) for text, ids in forms]
    (right, _), *wrong = led
    return _Led(right, [each for each in wrong if each[0]], "") if right else None


def _own(notation: Notation, key: Key, mine: Typed) -> str | None:
    forms = (key["right"], *key.get("slips", {}), *(led[1] for led in key.get("led", ())))
    text = next((text for text in forms if notation.same(mine, _of_key(notation, text))), None)
    return None if text is None else _value(key, text)


def _value(key: Key, text: str) -> str | None:
    found: str | None = key.get("values", {}).get(text, text) if text else None
    return found
