"""Judges a typed equation: the right one, the one that the student's own earlier choices lead to, and the usual wrong ones.

Nothing is balanced here: the equations that the choices lead to stand in the key, and the student's own way through them is
looked up. The student's **own value** is the factor by which the typed equation is a multiple of that one (2 doubled, -1 the other way round), or for a
half-equation (``own`` "text") the form of the key that it is written in; so too for a whole equation that is written in a usual wrong form and is no multiple.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.answers.following import Own, own_answers, ways
from saltbridge.answers.run import run
from saltbridge.answers.typed_equations import compare, read_equation, same
from saltbridge.answers.typed_species import Unreadable
from saltbridge.answers.verdict import Verdict
from saltbridge.chemistry.equations import Equation, multiple_of, parse_equation

Key = Mapping[str, Any]


def judge_equation(key: Key, typed: object, earlier: Key) -> Verdict:
    """Judge a typed equation; ``earlier`` are the student's own values by part label."""
    equation = read_equation(typed)
    if isinstance(equation, Unreadable):
        return Verdict("unread", (equation.why,), readings=equation.readings)
    own = own_answers(key, earlier)
    finding = compare(equation, parse_equation(key["right"]), states=bool(key.get("states")))
    if finding.verdict == "right":
        return Verdict("right", own=_own(key, equation, own))
    if finding.verdict == "right-but":
        return Verdict("right-but", finding.why, own=_own(key, equation, own))
    found = _follows(key, equation, own) or _slipped(key, equation, own)
    return found or Verdict("not-yet", finding.why, own=_own(key, equation, own))


def _follows(key: Key, equation: Equation, own: Sequence[Own]) -> Verdict | None:
    for way in ways(own):
        led = _led_to(key, way.put) if way.wrong else None
        if led and compare(equation, parse_equation(led[1])).verdict != "not-yet":
            value = led[1] if key.get("own") == "text" else _factor(equation, led[1])
            return Verdict("follows", own=value, parts=way.wrong[:1])
    return None


def _slipped(key: Key, equation: Equation, own: Sequence[Own]) -> Verdict | None:
    """A known error, or one on top of what the student's own answers lead to."""
    known = _errors_of(equation, key.get("slips", {}))
    if known:
        return Verdict("slip", slips=known, own=_own(key, equation, own))
    for way in ways(own):
        led = _led_to(key, way.put) if way.wrong else None
        found = _errors_of(equation, led[2]) if led and len(led) > 2 else ()
        if found:
            return Verdict("slip-on-own", slips=found, own=_own(key, equation, own), parts=way.wrong[:1])
    return None


def _errors_of(equation: Equation, wrong: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    found = [error for text, ids in wrong.items() if same(equation, parse_equation(text)) for error in ids]
    return tuple(dict.fromkeys(found))


def _led_to(key: Key, put: Mapping[str, Any]) -> Sequence[Any] | None:
    """What these answers lead to, where it is another equation than the right one: [{node: outcome}, equation, {wrong: [error, …]}]."""
    if not put or not key.get("led"):
        return None
    values = run(key.get("graph", ()), key.get("given", {}), put)
    return next((led for led in key["led"] if all(values.get(node) == each for node, each in led[0].items())), None)


def _own(key: Key, equation: Equation, own: Sequence[Own]) -> float | str | None:
    """What later parts follow from: the factor, or the form of the key that the equation is written in."""
    if key.get("own") == "text":
        forms = (key["right"], *key.get("slips", {}), *(led[1] for led in key.get("led", ())))
        return next((text for text in forms if same(equation, parse_equation(text))), None)
    led = _led_to(key, {each.node: each.forms[0] for each in own if each.forms})
    factor = _factor(equation, led[1] if led else key["right"])
    return _wrong_form(key, equation) if factor is None else factor


def _wrong_form(key: Key, equation: Equation) -> str | None:
    return next((text for text in key.get("slips", {}) if same(equation, parse_equation(text))), None)


def _factor(equation: Equation, other: str) -> float | None:
    found = multiple_of(equation, parse_equation(other))
    return None if found is None else float(found)
