"""Judges a typed equation: the right one, the one that the student's own earlier choices lead to, and the usual wrong ones.

Nothing is balanced here: the equations that the choices lead to stand in the key, and the student's own way through them is
looked up. The student's **own value** is the factor by which the typed equation is a multiple of that one (2 doubled, -1 the other way round).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.answers.following import own_answers, ways
from saltbridge.answers.run import run
from saltbridge.answers.typed_equations import Unreadable, compare, read_equation, same
from saltbridge.answers.verdict import Verdict
from saltbridge.chemistry.equations import Equation, multiple_of, parse_equation

Key = Mapping[str, Any]


def judge_equation(key: Key, typed: object, earlier: Key) -> Verdict:
    """Judge a typed equation; ``earlier`` are the student's own values by part label."""
    slips: Mapping[str, Sequence[str]] = key.get("slips", {})
    equation = read_equation(typed)
    if isinstance(equation, Unreadable):
        return Verdict("unread", (equation.why,), readings=equation.readings)
    own = own_answers(key, earlier)
    led = _led_to(key, {each.node: each.forms[0] for each in own if each.forms})
    factor = _factor(equation, led or key["right"])
    finding = compare(equation, parse_equation(key["right"]), states=bool(key.get("states")))
    if finding.verdict == "right":
        return Verdict("right", own=factor)
    if finding.verdict == "right-but":
        return Verdict("right-but", finding.why, own=factor)
    for way in ways(own):
        followed = _led_to(key, way.put) if way.wrong else None
        if followed and compare(equation, parse_equation(followed)).verdict != "not-yet":
            return Verdict("follows", own=_factor(equation, followed), parts=way.wrong[:1])
    found = [slip for text, ids in slips.items() if same(equation, parse_equation(text)) for slip in ids]
    if found:
        return Verdict("slip", slips=tuple(dict.fromkeys(found)), own=factor)
    return Verdict("not-yet", finding.why, own=factor)


def _led_to(key: Key, put: Mapping[str, Any]) -> str | None:
    """The equation that these answers lead to, where it is another than the right one."""
    if not put or not key.get("led"):
        return None
    values = run(key.get("graph", ()), key.get("given", {}), put)
    return next((text for choices, text in key["led"] if all(values.get(node) == each for node, each in choices.items())), None)


def _factor(equation: Equation, other: str) -> float | None:
    found = multiple_of(equation, parse_equation(other))
    return None if found is None else float(found)
