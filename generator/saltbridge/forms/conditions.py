"""Conditions a draw must keep: ``E0_cell >= 0.20 V``, ``left.metal != "Zn"``, ``abs(E_cell) > 0.1 V or n == 2 and I < 1.00 A``.

    condition  = both { "or" both }
    both       = comparison { "and" comparison }
    comparison = term ( ">=" | "<=" | "==" | "!=" | ">" | "<" ) term
    term       = name | "abs(" name ")" | number [ unit ] | quoted text
    name       = word { "." word }

The word "none" is what a name without a value is. Nothing else is read and nothing is evaluated: no other calls, no arithmetic,
no further brackets.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, NamedTuple, Self

from saltbridge import sigfigs, units
from saltbridge.faults import Faulty, fault

LONGEST = 200  # characters
MOST = 8  # comparisons
NONE = "none"  # what a name without a value is compared with
NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*(?:\.[A-Za-z][A-Za-z0-9_]*){0,3}", re.ASCII)

Operator = Literal[">=", "<=", "==", "!=", ">", "<"]
_COMPARE: dict[Operator, Callable[[float, float], bool]] = {
    ">=": operator.ge, "<=": operator.le, "==": operator.eq, "!=": operator.ne, ">": operator.gt, "<": operator.lt,
}  # fmt: skip


class Measured(NamedTuple):
    """A value with its unit, as a lookup hands it over; the unit of a pure number is ``""`` or ``"1"``."""

    value: float
    unit: str


class Called(str):
    """A metal as a lookup hands it over: its name or its symbol, and the other of the two, which a condition may say as well."""

    __slots__ = ("other",)
    other: str

    def __new__(cls, text: str, other: str) -> Self:
        """The text of it, with what it is called too."""
        made = super().__new__(cls, text)
        made.other = other
        return made


@dataclass(frozen=True, slots=True)
class Name:
    """A quantity or thing of the scenario; ``magnitude``: its absolute value is compared."""

    path: str
    magnitude: bool = False


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
        """Whether it is true of the values that ``lookup`` gives; an undefined value (None) is like nothing but the word "none"."""
        left, right = _value(self.left, lookup), _value(self.right, lookup)
        if left is None or right is None:
            return self.sign == "==" and NONE in (left, right)
        one, other = _measured(left), _measured(right)
        if one is not None and other is not None:
            return _COMPARE[self.sign](sigfigs.twelve(one.value), sigfigs.twelve(_in_unit(other, one.unit)))
        if self.sign not in ("==", "!=") or one is not None or other is not None:
            raise fault(
                "condition-kind",
                expected="two numbers or two words" if self.sign in ("==", "!=") else f"two numbers round `{self.sign}`",
                found=f"`{as_told(left)}` and `{as_told(right)}`",
                hint="Words can only be the same (==) or not (!=).",
            )
        return _same(left, right) is (self.sign == "==")


@dataclass(frozen=True, slots=True)
class Condition:
    """Comparisons: those of one alternative must all be true. ``source`` is what the teacher wrote."""

    alternatives: tuple[tuple[Comparison, ...], ...]
    source: str

    @property
    def comparisons(self) -> tuple[Comparison, ...]:
        """All comparisons, in order."""
        return tuple(each for alternative in self.alternatives for each in alternative)

    @property
    def names(self) -> tuple[str, ...]:
        """The names it looks up, each once, in order."""
        terms = (term for each in self.comparisons for term in (each.left, each.right))
        return tuple(dict.fromkeys(term.path for term in terms if isinstance(term, Name)))

    def holds(self, lookup: Callable[[str], object]) -> bool:
        """Whether all comparisons of one alternative are true; every one is looked at, so that no fault in one hides.

        ``lookup`` maps a name to a ``Measured``, a plain number, a text (anything else is compared by its text) or
        None where it is undefined. Raises ``Faulty`` where kinds or units don't go together.
        """
        held = [[each.holds(lookup) for each in alternative] for alternative in self.alternatives]
        return any(map(all, held))


def _value(term: Term, lookup: Callable[[str], object]) -> object:
    match term:
        case Name(path, magnitude=True):
            return _magnitude(path, lookup(path))
        case Name(path):
            return lookup(path)
        case Amount(printed, unit):
            return Measured(float(printed), unit)
        case Word(text):
            return text


def _magnitude(path: str, value: object) -> Measured | None:
    found = _measured(value)
    if value is not None and found is None:
        raise fault("condition-kind", expected="a number inside `abs(…)`", found=f"`{path}`, which is `{value}`")
    return found and Measured(abs(found.value), found.unit)


def _same(one: object, other: object) -> bool:
    """Whether two words are the same; a metal's name and its symbol are."""
    return str(one) == str(other) or bool(_names_of(one) & _names_of(other))


def _names_of(value: object) -> frozenset[str]:
    return frozenset({str(value), value.other} if isinstance(value, Called) else {str(value)})


def as_told(value: object) -> str:
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
    | (?P<or>or\b)
    | abs\s*\(\s*(?P<magnitude>[A-Za-z_][\w.]*)\s*\)
    | (?P<name>[A-Za-z_][\w.]*)
    | (?P<amount>[-+\u2212]?[\d.][^<>=!"']*?(?=\s*(?:[<>=!"']|\b(?:and|or)\b|$)))
    | (?P<other>\S)
    )""",
    re.VERBOSE,
)
_HINT = (
    'Write it as `E0_cell >= 0.20 V`, `left.metal != "Zn"`, `abs(E_cell) > 0.1 V`, or several of these joined by `and` and `or`.'
)


def parse_condition(text: str) -> Condition:
    """Read a condition; raises ``Faulty`` (code ``condition``) that shows what could not be read."""
    if len(text) > LONGEST:
        raise _unread(f"at most {LONGEST} characters", f"{len(text)}", "Write several conditions as a list.")
    tokens = [(found.lastgroup or "", found[found.lastgroup or 0]) for found in _TOKEN.finditer(text)]
    alternatives = [_parts(group, "and") for group in _parts(tokens, "or")]
    if (number := sum(map(len, alternatives))) > MOST:
        raise _unread(f"at most {MOST} comparisons", f"{number}", "Write several conditions as a list.")
    return Condition(tuple(tuple(_comparison(each, text) for each in group) for group in alternatives), text)


def _parts(tokens: list[tuple[str, str]], joint: str) -> list[list[tuple[str, str]]]:
    """The tokens between the joints of a kind."""
    parts: list[list[tuple[str, str]]] = [[]]
    for token in tokens:
        if token[0] == joint:
            parts.append([])
        else:
            parts[-1].append(token)
    return parts


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
    if kind in ("name", "magnitude"):
        if not NAME.fullmatch(text):
            raise _unread("a name such as `E0_cell` or `left.metal`", f"`{text}`", _HINT)
        return Name(text, magnitude=kind == "magnitude")
    try:
        return Amount(*units.parse_quantity(text.strip()))
    except Faulty as trouble:
        first = trouble.faults[0]
        raise _unread(first.expected, first.found, first.hint) from None


def _unread(expected: str, found: str, hint: str) -> Faulty:
    return fault("condition", expected=expected, found=found, hint=hint)
