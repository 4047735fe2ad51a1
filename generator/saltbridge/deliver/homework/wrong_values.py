"""What the common errors give in each part, for the marking grid: in the part itself, and followed through from an earlier one.

The values come from the keys that judge a student's answer, run as the judge runs them, so that the grid and a page say the same.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from saltbridge.answers.following import results, round_as
from saltbridge.answers.run import run
from saltbridge.document import option_sign
from saltbridge.sigfigs import to_decimals, to_figures

MOST_ERRORS = 5
_LOG_FIGURES = 2
Key = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Wrong:
    """A wrong answer to a part: the error that leads to it, the text to print (``number`` where it is one), the value behind it."""

    error: str
    text: str
    number: bool
    value: float | str | None
    follows: bool = False


def wrong_answers(key: Key) -> list[Wrong]:
    """What errors give in one part of one student's question; the key is merged with graph and givens."""
    return list(_own(key))


def followed(keys: Sequence[Key], at: int, chosen: Sequence[Sequence[Wrong]]) -> list[Wrong]:
    """What the ``chosen`` errors of earlier parts give in part ``at``, where that is not right; those told of the part itself are not told again."""
    key = keys[at]
    nodes = {str(each[1]): str(each[0]) for each in key.get("earlier", ())}
    by_node = {str(other.get("node")): wrongs for other, wrongs in zip(keys[:at], chosen[:at], strict=False)}
    there = {each.error for each in chosen[at]}
    found: dict[str, Wrong] = {}
    for node in nodes:
        for each in by_node.get(node, ()):
            if each.value is None or each.error in there:
                continue
            text, number, value = _leads_to(key, {node: each.value})
            if text and text != _right(key):
                found.setdefault(each.error, Wrong(each.error, text, number, value, follows=True))
    return list(found.values())


def commonest(rows: Sequence[Sequence[Wrong]]) -> list[str]:
    """The errors of a part that most students' versions show, at most five, in the order of their common-error list where they tie."""
    counts = Counter(name for row in rows for name in dict.fromkeys(each.error for each in row))
    return [name for name, _ in counts.most_common(MOST_ERRORS)]


# ------------------------------------------------------------------ in the part itself


def _own(key: Key) -> Iterator[Wrong]:
    kind, slips = key.get("kind"), key.get("slip_ranges", key.get("slips", {}))
    if not isinstance(slips, Mapping):
        return
    if kind == "number":
        for name, (low, high) in slips.items():
            written = _written(key, _middle(key, float(low), float(high)))
            yield Wrong(name, _number_text(key, written), number=True, value=written)
    elif kind == "choice":
        values = key.get("values") or []
        for option, names in slips.items():
            if option.isdigit() and names:
                value = values[int(option)] if int(option) < len(values) else None
                yield Wrong(
                    str(names[0]), option_sign(key, int(option)), number=False, value=value if isinstance(value, str) else None
                )


def _middle(key: Key, low: float, high: float) -> float:
    if key.get("scale") == "log" and low > 0 and high > 0:
        return math.sqrt(low * high)
    return (low + high) / 2


def _written(key: Key, value: float) -> float:
    """The value as a student writes it, rounded as it was asked for."""
    asked = _asked(key)
    return round_as(value, asked) if asked and value else value


def _asked(key: Key) -> dict[str, int]:
    if key.get("whole"):
        return {"decimals": 0}
    if key.get("scale") == "log":
        return {"figures": _LOG_FIGURES}
    if key.get("decimals") is not None:
        return {"decimals": int(key["decimals"])}
    return {"figures": int(key["figures"])} if key.get("figures") is not None else {}


def _number_text(key: Key, value: float) -> str:
    """The digits of a value as it was asked for, for ``print_number``."""
    asked = _asked(key)
    if "decimals" in asked:
        return f"{to_decimals(value, asked['decimals']):f}"
    rounded = to_figures(value, asked.get("figures", 3)) if value else Decimal(0)
    return f"{rounded:f}" if not value or -4 < rounded.adjusted() < 6 else f"{rounded:e}"


# ------------------------------------------------------------------ followed through


def _leads_to(key: Key, put: Mapping[str, Any]) -> tuple[str, bool, float | str | None]:
    """What a value put at an earlier node gives in this part: text, whether it is a number, value."""
    if key.get("kind") == "number":
        found = next(results(key, put), None)
        if found is None:
            return "", True, None
        value = 10.0**found if key.get("scale") == "log" and abs(found) < 300 else found
        value = _written(key, value)
        return _number_text(key, value), True, value
    if key.get("kind") == "choice":
        told = run(key.get("graph", ()), key.get("given", {}), put, None, str(key["node"])).get(str(key["node"]))
        values = list(key.get("values") or [])
        return (
            (option_sign(key, values.index(told)), False, told) if isinstance(told, str) and told in values else ("", False, None)
        )
    return "", False, None


def _right(key: Key) -> str:
    if key.get("kind") == "number" and "value" in key:
        return _number_text(key, float(key["value"]))
    right = key.get("right")
    return option_sign(key, int(right[0])) if key.get("kind") == "choice" and isinstance(right, list) and right else ""
