"""What follows from a student's own earlier answers.

Each subset of them is a **way** with a range of its own; a later answer may lie in any of these ranges, never between two.
A number counts as typed and as rounded to the figures it was asked for, and where it is wrong also with the digits that
the student may have kept behind the last one typed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from saltbridge.answers.run import plain, run
from saltbridge.sigfigs import to_decimals, to_figures, twelve

Key = Mapping[str, Any]
Range = tuple[float, float]
MOST_WAYS = 32


@dataclass(frozen=True, slots=True)
class Own:
    """One earlier answer: its forms (as typed, as rounded); ``half`` a last place where it is a wrong number, else 0."""

    label: str
    node: str
    forms: tuple[float | str, ...]
    wrong: bool
    half: float


@dataclass(frozen=True, slots=True)
class Way:
    """Some of the own answers put at their nodes; ``wrong`` are the labels of those that are not right, nearest first."""

    put: Mapping[str, float | str]
    wrong: tuple[str, ...]
    kept: Mapping[str, float] = field(default_factory=dict)
    """Node → half a last place, for numbers whose further digits the student may have kept."""


def own_answers(key: Key, earlier: Mapping[str, Any]) -> list[Own]:
    """The student's answers to the parts that this key names, the nearest part first."""
    named = [each for each in key.get("earlier", ()) if earlier.get(each[0]) is not None]
    if not named:
        return []
    right = run(key.get("graph", ()), key.get("given", {}))
    return [_own(label, node, earlier[label], right.get(node), *asked) for label, node, *asked in reversed(named)]


def _own(label: str, node: str, typed: Any, right: Any, asked: Mapping[str, int] | None = None) -> Own:
    value = plain(typed)
    if not isinstance(value, float) or not asked:
        return Own(label, node, (value,) if value is not None else (), _differ(value, right), 0.0)
    rounded = round_as(value, asked)
    wrong = _differ(rounded, round_as(right, asked) if isinstance(right, float) else right)
    return Own(label, node, tuple(dict.fromkeys((value, rounded))), wrong, _half_place(rounded, asked) if wrong else 0.0)


def _differ(one: Any, other: Any) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return twelve(one) != twelve(other)
    return bool(one != other)


def round_as(value: float, asked: Mapping[str, int]) -> float:
    """The value rounded to ``{"figures": …}`` or ``{"decimals": …}``."""
    if "figures" in asked:
        return float(to_figures(value, asked["figures"]))
    return float(to_decimals(value, asked["decimals"]))


def _half_place(value: float, asked: Mapping[str, int]) -> float:
    if "decimals" in asked:
        return float(f"1e{-asked['decimals']}") / 2
    return float(f"1e{to_figures(value, 12).adjusted() - asked['figures'] + 1}") / 2 if value else 0.0


def ways(own: Sequence[Own]) -> list[Way]:
    """The subsets of the own answers in each of their forms, those of the nearest parts first, at most ``MOST_WAYS``."""
    found: list[Way] = []
    most = math.prod(1 + len(each.forms) for each in own)
    for count in range(1, min(most, MOST_WAYS + 1)):
        left, put, used = count, dict[str, float | str](), list[Own]()
        for each in own:
            left, form = divmod(left, 1 + len(each.forms))
            if form:
                put[each.node] = each.forms[form - 1]
                used.append(each)
        wrong = tuple(each.label for each in used if each.wrong)
        found.append(Way(put, wrong, {each.node: each.half for each in used if each.half}))
    return found


def settled(key: Key, own: Sequence[Own], put: Mapping[str, Any]) -> bool:
    """Whether a slip would have changed an answer that the student got right, so that it can't have happened."""
    right = {each.node for each in own if not each.wrong}
    if not right or not put:
        return False
    graph, given = key.get("graph", ()), key.get("given", {})
    plainly, with_slip = run(graph, given), run(graph, given, put)
    return any(_differ(plainly.get(node), with_slip.get(node)) for node in right)


# ------------------------------------------------------------------ ranges


def on_scale(key: Key, value: float) -> float | None:
    """The value on the scale of its tolerance: itself or its common logarithm."""
    if key.get("scale", "linear") != "log":
        return value
    return twelve(math.log10(value)) if value > 0 else None


def range_of(key: Key, way: Way, put: Mapping[str, Any] | None = None) -> Range | None:
    """The hull over all routes of what follows along a way (and with a slip put in), half a place wider on both sides."""
    both = {**way.put, **(put or {})}
    values = list(results(key, both))
    if not values:
        return None
    bounds = [bound for value in values for bound in (value - _half(key, value), value + _half(key, value))]
    spread = sum(_spread(key, both, node, half) for node, half in way.kept.items())
    return twelve(min(bounds) - spread), twelve(max(bounds) + spread)


def results(key: Key, put: Mapping[str, Any]) -> Iterator[float]:
    """The asked value on its scale along every route, the plain one first."""
    for route in ({}, *key.get("routes", ())):
        value = _result(key, {**route.get("put", {}), **put}, route.get("round"))
        if value is not None:
            yield value


def _result(key: Key, put: Mapping[str, Any], rounding: Mapping[str, int] | None = None) -> float | None:
    value = run(key.get("graph", ()), key.get("given", {}), put, rounding, key["node"]).get(key["node"])
    if isinstance(value, float) and key.get("whole"):
        return float(to_decimals(value, 0))
    return on_scale(key, value) if isinstance(value, float) else None


def _spread(key: Key, put: Mapping[str, Any], node: str, half: float) -> float:
    """How far half a last place of an own value moves the result."""
    middle = _result(key, put)
    ends = [_result(key, {**put, node: put[node] + sign * half}) for sign in (-1, 1)]
    return max((abs(end - middle) for end in ends if end is not None), default=0.0) if middle is not None else 0.0


def _half(key: Key, value: float) -> float:
    """Half of the last place: the key's own, or that of this value where figures are asked for; none for a whole number."""
    if key.get("whole"):
        return 0.0
    if key.get("figures") is None or key.get("scale", "linear") == "log" or not value:
        return float(key["place"]) / 2
    return float(f"1e{to_figures(value, 12).adjusted() - key['figures'] + 1}") / 2
