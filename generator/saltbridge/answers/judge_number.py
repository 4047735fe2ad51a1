"""Judges a number with its unit: the accepted range, unit, figures, what follows from earlier answers, known slips."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from saltbridge.answers.numbers import Number, Unread, read_number
from saltbridge.answers.run import run
from saltbridge.answers.unit_words import find_factor
from saltbridge.answers.verdict import Code, Verdict
from saltbridge.sigfigs import to_figures, twelve

Key = Mapping[str, Any]
Own = Mapping[str, Any]
Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Typed:
    """A number as typed, brought to the unit asked for. ``unit``: none, known, case (letters in another case), unknown."""

    number: Number
    value: float
    factor: float
    unit: str


def judge_number(key: Key, text: object, own: Own) -> Verdict:
    """Judge a typed number; ``own`` are the student's earlier values by node."""
    number = read_number(text, key.get("mark", "."))
    if isinstance(number, Unread):
        return Verdict("unread", (number.why,), readings=number.readings)
    typed = _in_asked_unit(number, key)
    code, why, slips = _judged(key, typed, own)
    return Verdict(code, why, slips, own=typed.value)


def _in_asked_unit(number: Number, key: Key) -> _Typed:
    if not number.unit:
        return _Typed(number, twelve(number.value), 1.0, "none")
    found = find_factor(number.unit, key.get("units", {}))
    if found is None:
        return _Typed(number, twelve(number.value), 1.0, "unknown")
    factor, exact_case = found
    return _Typed(number, twelve(number.value * factor), factor, "known" if exact_case else "case")


def _judged(key: Key, typed: _Typed, own: Own) -> tuple[Code, tuple[str, ...], tuple[str, ...]]:
    """Verdict, reasons and slips, in the order of judging."""
    accepted = (float(key["lo"]), float(key["hi"]))
    if _inside(typed.value, accepted):
        why = _remarks(key, typed)
        return ("right-but" if why else "right"), why, ()
    if typed.factor != 1 and _inside(twelve(typed.number.value), accepted):
        return "right-but", ("unit",), ()
    carried = _range(key, own) if own else None
    if carried and _inside(_on_scale(key, typed.value), carried):
        return "follows", (), ()
    found = _known_slips(key, typed.value)
    if found:
        return "slip", (), found
    on_own = _slips_on_own(key, typed.value, own)
    if on_own:
        return "slip-on-own", (), on_own
    return "not-yet", _reasons(key, typed, accepted, carried), ()


def _inside(value: float | None, bounds: Range) -> bool:
    return value is not None and bounds[0] <= value <= bounds[1]


# ------------------------------------------------------------------ right, but


def _remarks(key: Key, typed: _Typed) -> tuple[str, ...]:
    """What an accepted value still lacks."""
    why: list[str] = []
    if typed.unit == "unknown" or (typed.unit == "none" and key.get("unit") and not key.get("unit_beside", True)):
        why.append("unit")
    if typed.unit == "case":
        why.append("unit-case")
    match _figures(key, typed):
        case "fewer":
            why.append(_figures_code(key))
        case "more" if not _close(key, typed.value):
            why.append("rounding")
        case _:
            pass
    return tuple(why)


def _figures(key: Key, typed: _Typed) -> str:
    """Whether the number was given to ``fewer``, ``more`` or the figures (or decimals) asked for: ``asked``."""
    figures, places = typed.number.figures, typed.number.places
    if key.get("figures") is None and key.get("decimals") is None:
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
    mine, exact = _on_scale(key, value), _on_scale(key, float(key["exact"]))
    return mine is not None and exact is not None and twelve(abs(mine - exact)) <= twelve(float(key["place"]) / 2)


# ------------------------------------------------------------------ what follows


def _on_scale(key: Key, value: float) -> float | None:
    """The value on the scale of its tolerance: itself or its common logarithm."""
    if key.get("scale", "linear") != "log":
        return value
    return twelve(math.log10(value)) if value > 0 else None


def _range(key: Key, put: Own) -> Range | None:
    """The hull over all routes of what follows with these values put in, half a place wider on both sides."""
    bounds = [bound for value in _along_routes(key, put) for bound in (value - _half(key, value), value + _half(key, value))]
    return (twelve(min(bounds)), twelve(max(bounds))) if bounds else None


def _along_routes(key: Key, put: Own) -> Iterator[float]:
    for route in ({}, *key.get("routes", ())):
        both = {**route.get("put", {}), **put}
        value = run(key.get("graph", ()), key.get("given", {}), both, route.get("round"), key["node"]).get(key["node"])
        scaled = _on_scale(key, value) if isinstance(value, float) else None
        if scaled is not None:
            yield scaled


def _half(key: Key, value: float) -> float:
    """Half of the last place: the key's own, or that of this value where figures are asked for."""
    if key.get("figures") is None or key.get("scale", "linear") == "log" or not value:
        return float(key["place"]) / 2
    return float(f"1e{to_figures(value, 12).adjusted() - key['figures'] + 1}") / 2


# ------------------------------------------------------------------ slips


def _known_slips(key: Key, value: float) -> tuple[str, ...]:
    """The slips whose range holds the value, each followed by its twins."""
    ranges: Mapping[str, Any] = key.get("slip_ranges", {})
    twins = {slip["id"]: slip.get("twins", ()) for slip in key.get("slips", ())}
    found = [slip for slip, (low, high) in ranges.items() if _inside(value, (float(low), float(high)))]
    return tuple(dict.fromkeys(name for slip in found for name in (slip, *twins.get(slip, ()))))


def _slips_on_own(key: Key, value: float, own: Own) -> tuple[str, ...]:
    """The slips that lead to the value from the student's own earlier values."""
    if not own:
        return ()
    found: list[str] = []
    for slip in key.get("slips", ()):
        put: Mapping[str, Any] = slip.get("put", {})
        if not put or any(node in own for node in put):
            continue  # a slip at a part the student has answered would have shown there
        bounds = _range(key, {**own, **put})
        if bounds and _inside(_on_scale(key, value), bounds):
            found.append(slip["id"])
    return tuple(found)


# ------------------------------------------------------------------ not yet


def _reasons(key: Key, typed: _Typed, accepted: Range, carried: Range | None) -> tuple[str, ...]:
    """What to look at: the sign, the prefix, figures cut too soon."""
    if _inside(-typed.value, accepted) or (carried and _inside(_on_scale(key, -typed.value), carried)):
        return ("sign",)
    factors = [float(factor) for factor in key.get("units", {}).values()]
    if any(factor != typed.factor and _inside(twelve(typed.number.value * factor), accepted) for factor in factors):
        return ("prefix",)
    return (_figures_code(key),) if _cut_too_soon(key, typed) else ()


def _cut_too_soon(key: Key, typed: _Typed) -> bool:
    """Whether the value is the right one, rounded to fewer figures than asked for."""
    figures, exact = typed.number.figures, float(key["exact"])
    if figures is None or not typed.value or not exact or _figures(key, typed) != "fewer":
        return False
    return any(float(to_figures(exact, count)) == typed.value for count in range(figures[0], figures[1] + 1))
