"""Conditions a draw must keep: ``E0_cell >= 0.20 V``, ``left.metal != right.metal``, ``I < 1.00 A and n == 2``.

    condition  = comparison { "and" comparison }
    comparison = term ( ">=" | "<=" | "==" | "!=" | ">" | "<" ) term
    term       = name | number [ unit ] | quoted text
    name       = word { "." word }

Nothing else is read and nothing is evaluated: no calls, no arithmetic, no "or".
"""

from __future__ import annotations

import operator
import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, NamedTuple

from saltbridge import sigfigs, units
from saltbridge.faults import Faulty, fault

LONGEST = 200  # characters
MOST = 8  # comparisons
NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*(?:\.[A-Za-z][A-Za-z0-9_]*){0,3}", re.ASCII)

Operator = Literal[">=", "<=", "==", "!=", ">", "<"]
_COMPARE: dict[Operator, Callable[[float, float], bool]] = {
    ">=": operator.ge, "<=": operator.le, "==": operator.eq, "!=": operator.ne, ">": operator.gt, "<": operator.lt,
}  # fmt: skip


class Measured(NamedTuple):
    """A value with its unit, as a lookup hands it over; the unit of a pure number is ``""`` or ``"1"``."""

    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Name:
    """A quantity or thing of the scenario."""

    path: str


@dataclass(frozen=True, slots=True)
class Amount:
    """A number as typed, with its unit (empty: a pure number)."""

    printed: str
    unit: str


@dataclass(frozen=True, slots=True)
class Word:
    """A quoted text."""

    text: str


Term = Name | Amount | Word


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two terms compared."""

    left: Term
    sign: Operator
    right: Term

    def holds(self, lookup: Callable[[str], object]) -> bool:
        """Whether it is true of the values that ``lookup`` gives; an undefined value (None) makes it false."""
        left, right = _value(self.left, lookup), _value(self.right, lookup)
        if left is None or right is None:
            return False
        one, other = _measured(left), _measured(right)
        if one is not None and other is not None:
            return _COMPARE[self.sign](sigfigs.twelve(one.value), sigfigs.twelve(_in_unit(other, one.unit)))
        if self.sign not in ("==", "!="):
            raise fault(
                "condition-kind",
                expected=f"two numbers round `{self.sign}`",
                found=f"`{_told(left)}` and `{_told(right)}`",
                hint="Words can only be the same (==) or not (!=).",
            )
        return (str(left) == str(right)) is (self.sign == "==")


@dataclass(frozen=True, slots=True)
class Condition:
    """Comparisons that must all be true. ``source`` is what the teacher wrote."""

    comparisons: tuple[Comparison, ...]
    source: str

    @property
    def names(self) -> tuple[str, ...]:
        """The names it looks up, each once, in order."""
        terms = (term for each in self.comparisons for term in (each.left, each.right))
        return tuple(dict.fromkeys(term.path for term in terms if isinstance(term, Name)))

    def holds(self, lookup: Callable[[str], object]) -> bool:
        """Whether all comparisons are true.

        ``lookup`` maps a name to a ``Measured``, a plain number, a text (anything else is compared by its text) or
        None where it is undefined. Raises ``Faulty`` where kinds or units don't go together.
        """
        return all(each.holds(lookup) for each in self.comparisons)


def _value(term: Term, lookup: Callable[[str], object]) -> object:
    match term:
        case Name(path):
            return lookup(path)
        case Amount(printed, unit):
            return Measured(float(printed), unit)
        case Word(text):
            return text


def _told(value: object) -> str:
    """A value as a teacher would write it."""
    return f"{value.value:g} {value.unit}".strip() if isinstance(value, Measured) else str(value)


def _measured(value: object) -> Measured | None:
    if isinstance(value, Measured):
        return Measured(float(value.value), "" if value.unit == "1" else value.unit)
    if isinstance(value, int | float | Decimal) and not isinstance(value, bool):
        return Measured(float(value), "")
    return None


def _in_unit(value: Measured, unit: str) -> float:
    if value.unit == unit:
        return float(value.value)
    if not value.unit or not unit:
        there = value.unit or unit
        raise fault(
            "condition-unit",
            expected=f"a number with a unit, such as {there}",
            found="a number without one",
            hint=f"Write the unit: `0.20 {there}`.",
        )
    return float(units.convert(value.value, value.unit, unit))


# ------------------------------------------------------------------ reading

_TOKEN = re.compile(
    r"""\s*(?:
      (?P<word>"[^"]*"|'[^']*')
    | (?P<sign>>=|<=|==|!=|>|<)
    | (?P<and>and\b)
    | (?P<name>[A-Za-z_][\w.]*)
    | (?P<amount>[-+\u2212]?[\d.][^<>=!"']*?(?=\s*(?:[<>=!"']|\band\b|$)))
    | (?P<other>\S)
    )""",
    re.VERBOSE,
)
_HINT = 'Write it as `E0_cell >= 0.20 V`, `left.metal != "Zn"` or two of these joined by `and`.'


def parse_condition(text: str) -> Condition:
    """Read a condition; raises ``Faulty`` (code ``condition``) that shows what could not be read."""
    if len(text) > LONGEST:
        raise _unread(f"at most {LONGEST} characters", f"{len(text)}", "Write several conditions as a list.")
    tokens = [(found.lastgroup or "", found[found.lastgroup or 0]) for found in _TOKEN.finditer(text)]
    groups: list[list[tuple[str, str]]] = [[]]
    for token in tokens:
        if token[0] == "and":
            groups.append([])
        else:
            groups[-1].append(token)
    if len(groups) > MOST:
        raise _unread(f"at most {MOST} comparisons", f"{len(groups)}", "Write several conditions as a list.")
    return Condition(tuple(_comparison(group, text) for group in groups), text)


def _comparison(tokens: list[tuple[str, str]], text: str) -> Comparison:
    shape = [kind for kind, _ in tokens]
    if len(shape) != 3 or shape[1] != "sign" or "sign" in (shape[0], shape[2]) or "other" in shape:
        raise _unread("a comparison of two terms", f"`{text}`", _HINT)
    (left_kind, left), (_, sign), (right_kind, right) = tokens
    typed: Operator = next(known for known in _COMPARE if known == sign)
    terms = _term(left_kind, left), _term(right_kind, right)
    if not any(isinstance(term, Name) for term in terms):
        raise _unread("a name on one side at least", f"`{text}`", _HINT)
    if typed not in ("==", "!=") and any(isinstance(term, Word) for term in terms):
        raise _unread(f"numbers round `{sign}`", f"`{text}`", "Words can only be the same (==) or not (!=).")
    return Comparison(terms[0], typed, terms[1])


def _term(kind: str, text: str) -> Term:
    if kind == "word":
        return Word(text[1:-1])
    if kind == "name":
        if not NAME.fullmatch(text):
            raise _unread("a name such as `E0_cell` or `left.metal`", f"`{text}`", _HINT)
        return Name(text)
    try:
        return Amount(*units.parse_quantity(text.strip()))
    except Faulty as trouble:
        first = trouble.faults[0]
        raise _unread(first.expected, first.found, first.hint) from None


def _unread(expected: str, found: str, hint: str) -> Faulty:
    return fault("condition", expected=expected, found=found, hint=hint)
