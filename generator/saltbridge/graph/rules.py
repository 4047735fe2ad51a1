"""The closed list of rules: choices between named things, and whole numbers from a balance.

Each takes the values of its inputs and the keys they stand for, and gives a key or a whole number. ``JSON`` says which of
them the page's interpreter knows too.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from saltbridge.graph.corrosion_rules import CORROSION_RULES
from saltbridge.graph.laws import Rule, Undefined
from saltbridge.graph.potential_rules import POTENTIAL_RULES
from saltbridge.graph.redox_rules import REDOX_RULES

_EQUAL = Undefined("the values are equal, so neither can be chosen")

RuleFunction = Callable[[Sequence[Any], Sequence[str]], Any]


def _lowest(values: Sequence[Any], keys: Sequence[str]) -> Any:
    return _extreme(values, keys, min)


def _highest(values: Sequence[Any], keys: Sequence[str]) -> Any:
    return _extreme(values, keys, max)


def _lowest_magnitude(values: Sequence[Any], keys: Sequence[str]) -> Any:
    return _extreme([abs(value) for value in values], keys, min)


def _extreme(values: Sequence[Any], keys: Sequence[str], best: Any) -> Any:
    bound = best(values)
    found = [key for key, value in zip(keys, values, strict=True) if value == bound]
    return found[0] if len(found) == 1 else _equal(bool(found))


def _equal(really: bool) -> Undefined:
    """Two equal values; nan is neither above nor below nor equal."""
    if not really:
        raise ValueError("a value is not a number")
    return _EQUAL


def _other(values: Sequence[Any], keys: Sequence[str]) -> Any:
    rest = [key for key in keys if key != values[0]]
    return rest[0] if len(rest) == 1 else Undefined(f"{values[0]} is not one of {', '.join(keys)}")


def _pick(values: Sequence[Any], keys: Sequence[str]) -> Any:
    return values[1 + keys.index(values[0])]


def _by_sign(values: Sequence[Any], keys: Sequence[str]) -> Any:
    if values[0] == 0:
        return Undefined("the cell potential is zero, so nothing is oxidised or reduced")
    return keys[0] if values[0] > 0 else keys[1]


def _lcm(values: Sequence[Any], _keys: Sequence[str]) -> Any:
    return float(math.lcm(*(int(value) for value in values)))


def _times(values: Sequence[Any], _keys: Sequence[str]) -> Any:
    return values[0] // values[1]


def _same(values: Sequence[Any], _keys: Sequence[str]) -> Any:
    return values[0]


def _order_rising(values: Sequence[Any], keys: Sequence[str]) -> Any:
    return "<".join(key for _, key in sorted(zip(values, keys, strict=True)))


def _order_by_magnitude(values: Sequence[Any], keys: Sequence[str]) -> Any:
    return _order_rising([abs(value) for value in values], keys)


def _above(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The first key where the first value lies above the second, else the other."""
    if values[0] == values[1]:
        return _EQUAL
    return keys[0] if values[0] > values[1] else keys[1]


def _first(_values: Sequence[Any], keys: Sequence[str]) -> Any:
    return keys[0]


def _by_limits(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The first key from the higher limit on, the second up to the lower one; between them nothing is told."""
    value, high, low = values
    if low < value < high:
        return Undefined(f"{value:g} mol/L lies between {low:g} and {high:g} mol/L, where both form")
    return keys[0] if value >= high else keys[1]


def _acidity(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """Hydrogen alone makes a solution basic, oxygen alone makes it acidic; keys rises, falls, stays."""
    hydrogen, oxygen = values[0] == "hydrogen", values[1] == "oxygen"
    return keys[2] if hydrogen == oxygen else keys[0] if hydrogen else keys[1]


def _ions_left(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """What becomes of the metal ions where metal deposits (first key), else the second."""
    return keys[0] if values[0] == "cation" else keys[1]


def _sign(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """Keys for above zero, zero, below zero."""
    return keys[0] if values[0] > 0 else keys[1] if values[0] == 0 else keys[2]


def _effect(place: int, way: int) -> RuleFunction:
    """The key (rises, falls, stays) of a change whose effect stands at a place of the inputs."""

    def run(values: Sequence[Any], keys: Sequence[str]) -> Any:
        effect = way * values[place]
        return keys[0] if effect > 0 else keys[1] if effect < 0 else keys[2]

    return run


def _sure_figures(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """As many figures as the logarithm has sure decimals: its uncertainty stays within one of the last."""
    return keys[max(0, min(len(keys) - 1, math.floor(-math.log10(values[0]) + 1e-9)))]


def _figures_as_told(values: Sequence[Any], keys: Sequence[str]) -> Any:
    return keys[min(len(keys) - 1, int(values[1]))]


RULES: Mapping[str, RuleFunction] = {
    "sign": _sign,
    "against": _effect(0, -1),
    "with the ions": _effect(1, 1),
    "with the size": _effect(2, 1),
    "figures": _sure_figures,
    "figures as told": _figures_as_told,
    **REDOX_RULES,
    **CORROSION_RULES,
    **POTENTIAL_RULES,
    "lowest": _lowest,
    "highest": _highest,
    "lowest magnitude": _lowest_magnitude,
    "other": _other,
    "pick": _pick,
    "by sign": _by_sign,
    "lcm": _lcm,
    "times": _times,
    "same": _same,
    "above": _above,
    "below": lambda values, keys: _above(values[::-1], keys),
    "first": _first,
    "by limits": _by_limits,
    "pH": _acidity,
    "ions left": _ions_left,
    "rising": _order_rising,
    "rising magnitude": _order_by_magnitude,
}


# ------------------------------------------------------------------ running

Run = Callable[[list[Any]], Any]


def compiled(name: str, places: Sequence[int], keys: Sequence[str]) -> Run:
    """The rule as a function of a list of values, ``places`` saying where its inputs stand.

    It raises what the arithmetic or a look-up raises where an input is not what the rule needs.
    """
    if name in {"lowest", "highest"} and len(places) == 2:
        first, second = keys if name == "lowest" else reversed(keys)
        return _of_two(places[0], places[1], first, second)
    if name == "other" and len(keys) == 2:
        place, opposite = places[0], {keys[0]: keys[1], keys[1]: keys[0]}
        return lambda cells: opposite[cells[place]]
    if name == "pick":
        role, among = places[0], dict(zip(keys, places[1:], strict=True))
        return lambda cells: cells[among[cells[role]]]
    function = RULES[name]
    return lambda cells: function([cells[place] for place in places], keys)


def _of_two(first: int, second: int, if_lower: str, if_higher: str) -> Run:
    def run(cells: list[Any]) -> Any:
        a, b = cells[first], cells[second]
        if a < b:
            return if_lower
        if b < a:
            return if_higher
        return _equal(a == b)

    return run


def to_json(rule: Rule) -> Any | None:
    """The rule as a tree for the page's interpreter, or ``None`` where the page can't run it."""
    match rule.rule:
        case "lowest" | "highest":
            return [rule.rule, dict(zip(rule.keys, rule.inputs, strict=True))]
        case "pick":
            return ["pick", rule.inputs[0], dict(zip(rule.keys, rule.inputs[1:], strict=True))]
        case "other":
            return ["other", rule.inputs[0], list(rule.keys)]
        case "same":
            return rule.inputs[0]
        case _:
            return None
