"""Judges a number with its unit: accepted range, unit, prefix, figures, what follows from earlier answers, known slips."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.answers.following import Own, Range, Way, on_scale, own_answers, range_of, results, settled, ways
from saltbridge.answers.numbers import Number, Unread, read_number
from saltbridge.answers.unit_words import Table, other_sizes, standing
from saltbridge.answers.verdict import Verdict
from saltbridge.sigfigs import to_decimals, to_figures, twelve

Key = Mapping[str, Any]
PREFIX_POWERS = (-9, -6, -3, -2, 2, 3, 6, 9)
"""Powers of ten between a number and the same in another prefix; hundreds only between a percentage and its number."""


@dataclass(frozen=True, slots=True)
class _Typed:
    """A number as typed, brought to the unit asked for. ``unit``: none, known, case (letters in another case), other, unknown."""

    number: Number
    value: float
    factor: float
    unit: str


def judge_number(key: Key, text: object, earlier: Mapping[str, Any], table: Table) -> Verdict:
    """Judge a typed number; ``earlier`` are the student's own values by part label."""
    number = read_number(text, key.get("mark", "."))
    if isinstance(number, Unread):
        return Verdict("unread", (number.why,), readings=number.readings)
    typed = _in_asked_unit(number, key, table)
    own = own_answers(key, earlier)
    found = _plainly(key, typed) or _follows(key, typed, own) or _slipped(key, typed, own)
    found = found or Verdict("not-yet", tuple(_reasons(key, typed, own, table)))
    return Verdict(found.verdict, found.why, found.slips, own=typed.value, parts=found.parts)


def _in_asked_unit(number: Number, key: Key, table: Table) -> _Typed:
    if not number.unit:
        return _Typed(number, twelve(number.value), 1.0, "none")
    unit, factor = standing(number.unit, key["unit"], table)
    return _Typed(number, twelve(number.value * factor), factor, unit)


def _accepted(key: Key) -> Range:
    bounds = (key["value"], key["value"]) if key.get("whole") else (key["lo"], key["hi"])
    return float(bounds[0]), float(bounds[1])


def _inside(value: float | None, bounds: Range | None) -> bool:
    return value is not None and bounds is not None and bounds[0] <= value <= bounds[1]


# ------------------------------------------------------------------ right, right but, unit, prefix


def _plainly(key: Key, typed: _Typed) -> Verdict | None:
    """What needs neither graph nor slips."""
    accepted = _accepted(key)
    if typed.unit == "other" or (typed.factor != 1 and _inside(twelve(typed.number.value), accepted)):
        return Verdict("not-yet", ("unit",))
    if _inside(typed.value, accepted):
        why = _remarks(key, typed)
        return Verdict("right-but" if why else "right", why)
    exact = float(key["exact"])
    if _rounded_further(key, typed, (exact, float(key["value"]))):
        return Verdict("right-but", (*_unit_remarks(key, typed), _figures_code(key)))
    powers = [power for power in PREFIX_POWERS if abs(power) > 2 or key["unit"] == "%"] if key["unit"] else []
    fitting = [power for power in powers if _inside(twelve(typed.value * float(f"1e{power}")), accepted)]
    if not fitting:
        return None
    told = _told_slips(key, typed.value)  # a slip that is itself a lost or doubled prefix has better words
    own_prefix = [slip for slip in told if _inside(_middle(key, slip) * float(f"1e{fitting[0]}"), accepted)]
    return None if own_prefix else Verdict("not-yet", ("prefix",))


def _unit_remarks(key: Key, typed: _Typed) -> tuple[str, ...]:
    if typed.unit == "unknown" or (typed.unit == "none" and key["unit"] and not key.get("unit_beside", True)):
        return ("unit",)
    return ("unit-case",) if typed.unit == "case" else ()


def _remarks(key: Key, typed: _Typed) -> tuple[str, ...]:
    """What an accepted value still lacks."""
    given = _figures(key, typed)
    if given == "fewer":
        return (*_unit_remarks(key, typed), _figures_code(key))
    drifted = given == "more" and not _close(key, typed.value)
    return (*_unit_remarks(key, typed), *(("rounding",) if drifted else ()))


def _figures(key: Key, typed: _Typed) -> str:
    """Whether the number was given to ``fewer``, ``more`` or the figures (or decimals) asked for: ``asked``."""
    figures, places = typed.number.figures, typed.number.places
    if key.get("whole") or (key.get("figures") is None and key.get("decimals") is None):
        return "asked"
    if figures is None or places is None:
        return "fewer"
    if key.get("figures") is not None:
        return _against(key["figures"], figures) if typed.value else "asked"
    shift = _power_of_ten(typed.factor)
    return "asked" if shift is None else _against(key["decimals"], (-places[1] - shift, -places[0] - shift))


def _figures_code(key: Key) -> str:
    return "decimals" if key.get("figures") is None and key.get("decimals") is not None else "figures"


def _against(wanted: int, given: tuple[int, int]) -> str:
    if given[1] < wanted:
        return "fewer"
    return "more" if given[0] > wanted else "asked"


def _power_of_ten(factor: float) -> int | None:
    """The power where the factor is one, so that decimals can be counted across prefixes."""
    power = round(math.log10(factor))
    return power if float(f"1e{power}") == factor else None


def _close(key: Key, value: float) -> bool:
    """Within half a place of the unrounded value: more figures than asked for do no harm then."""
    mine, exact = on_scale(key, value), on_scale(key, float(key["exact"]))
    return mine is not None and exact is not None and twelve(abs(mine - exact)) <= twelve(float(key["place"]) / 2)


def _rounded_further(key: Key, typed: _Typed, exact: Sequence[float]) -> bool:
    """Whether the number is one of these, rounded to fewer figures than asked for, but to one at least."""
    places, shift = typed.number.places, _power_of_ten(typed.factor)
    if places is None or shift is None or not typed.value or key.get("whole"):
        return False
    for value in exact:
        asked = _asked_place(key, value)
        if asked is None or not value:
            continue
        tried = range(max(places[0] + shift, asked + 1), min(places[1] + shift, to_figures(value, 12).adjusted()) + 1)
        if any(float(to_decimals(value, -place)) == typed.value for place in tried):
            return True
    return False


def _asked_place(key: Key, value: float) -> int | None:
    """The power of ten of the last place asked for; None where none is."""
    if key.get("figures") is not None:
        return to_figures(value, 12).adjusted() - int(key["figures"]) + 1 if value else None
    return None if key.get("decimals") is None else -int(key["decimals"])


# ------------------------------------------------------------------ what follows


def _follows(key: Key, typed: _Typed, own: Sequence[Own]) -> Verdict | None:
    """Whether the value follows along one of the ways; where all on that way is right, it was only rounded too soon."""
    value = on_scale(key, typed.value)
    for way in ways(own):
        if _inside(value, range_of(key, way)):
            return Verdict("follows", _remarks_on_way(key, typed), parts=way.wrong[:1]) if way.wrong else _drifted(key, typed)
        if way.wrong and key.get("scale", "linear") != "log" and _rounded_further(key, typed, list(results(key, way.put))):
            return Verdict("follows", (_figures_code(key),), parts=way.wrong[:1])
    return None


def _remarks_on_way(key: Key, typed: _Typed) -> tuple[str, ...]:
    return (*_unit_remarks(key, typed), *((_figures_code(key),) if _figures(key, typed) == "fewer" else ()))


def _drifted(key: Key, typed: _Typed) -> Verdict:
    return Verdict("right-but", (*_unit_remarks(key, typed), "rounding"))


# ------------------------------------------------------------------ slips


def _slipped(key: Key, typed: _Typed, own: Sequence[Own]) -> Verdict | None:
    """A known slip, or one on top of the student's own earlier answers; never one against what the student got right."""
    entries: dict[str, Mapping[str, Any]] = {slip["id"]: slip for slip in key.get("slips", ())}
    known = [name for name in _told_slips(key, typed.value) if not _is_settled(key, own, entries.get(name, {}))]
    if known:
        return Verdict("slip", slips=tuple(known))
    value = on_scale(key, typed.value)
    for way in ways(own):
        found = [slip["id"] for slip in _possible(key, own, way) if _inside(value, range_of(key, way, slip["put"]))]
        if found:
            return Verdict("slip-on-own" if way.wrong else "slip", slips=tuple(dict.fromkeys(found)), parts=way.wrong[:1])
    return None


def _told_slips(key: Key, value: float) -> tuple[str, ...]:
    """The slips whose range holds the value, each followed by its twins."""
    twins = {slip["id"]: slip.get("twins", ()) for slip in key.get("slips", ())}
    ranges: Mapping[str, Any] = key.get("slip_ranges", {})
    found = [slip for slip, (low, high) in ranges.items() if _inside(value, (float(low), float(high)))]
    return tuple(dict.fromkeys(name for slip in found for name in (slip, *twins.get(slip, ()))))


def _middle(key: Key, slip: str) -> float:
    bounds = key.get("slip_ranges", {}).get(slip)
    return (float(bounds[0]) + float(bounds[1])) / 2 if bounds else math.nan


def _is_settled(key: Key, own: Sequence[Own], slip: Mapping[str, Any]) -> bool:
    return any(each.node == slip.get("at") for each in own if not each.wrong) or settled(key, own, slip.get("put", {}))


def _possible(key: Key, own: Sequence[Own], way: Way) -> Iterator[Mapping[str, Any]]:
    """The slips that can sit on a way: not at a part the student has answered, where they would have shown."""
    for slip in key.get("slips", ()):
        put = slip.get("put")
        if put and not any(node in way.put for node in put) and not settled(key, own, put):
            yield slip


# ------------------------------------------------------------------ not yet


def _reasons(key: Key, typed: _Typed, own: Sequence[Own], table: Table) -> Iterator[str]:
    """What to look at: the sign, a whole number, the size of the unit."""
    accepted, turned = _accepted(key), on_scale(key, -typed.value)
    if _inside(-typed.value, accepted) or any(_inside(turned, range_of(key, way)) for way in ways(own)):
        yield "sign"
    elif key.get("whole") and not typed.value.is_integer():
        yield "whole"
    elif any(_inside(twelve(typed.value * size), accepted) for size in other_sizes(key["unit"], table)):
        yield "prefix"
