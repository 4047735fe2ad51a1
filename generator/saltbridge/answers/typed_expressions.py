"""Reads and compares a typed expression for Q or K: its factors and their powers, however they are written.

| typed                                                          | read as                                              |
|----------------------------------------------------------------|------------------------------------------------------|
| ``[Zn2+]/[Cu2+]`` ``Q = [Zn^2+]^1/[Cu²⁺]``                     | a quotient; what stands before ``=`` is a name       |
| ``[Ag+]^2`` ``[Ag+]²`` ``[Ag+]**2`` ``[Ag+]^{2}`` ``^-1`` ``^(1/2)`` | powers                                         |
| ``[A]·[B]`` ``[A]*[B]`` ``[A] x [B]`` ``[A][B]``               | a product; side by side it holds together below the line |
| ``c(Zn2+)`` ``a(Zn2+)`` ``p(H2)`` ``p_{H2}`` ``pH2``           | concentration, activity, pressure                    |
| ``([Zn2+]/c°)/([Cu2+]/c°)`` ``p(H2)/p0``                       | c° and p° may be written, then with every factor     |
| ``[A]/[B]·[C]``                                                | unread ``below-unclear``                             |
| ``[Ag+]2``                                                     | unread ``power-sign``: pasting has lost the level of the 2 |
| ``2[Ag+]`` ``[A]+[B]``                                         | read, and then found fault with                      |
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from saltbridge.answers.typed_species import Finding, Unreadable, identity, quoted, read_species, text_of
from saltbridge.chemistry.quotients import LONGEST
from saltbridge.chemistry.species import parse_species

DEEPEST = 6
LARGEST_POWER = 999
LARGEST_NUMBER = 1_000_000
_KNOWN = re.compile(r"[ -~·•∙⋅×÷°º⦵⊖⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*")
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_°{}]{0,11} ?= ?")
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")
_TIMES = re.compile(r" ?(?:[·•∙⋅×]|\*(?!\*)| [xX] ) ?")
_OVER = re.compile(" ?[/÷:] ?")
_PLUS = re.compile(r" ?\+ ?")
_GAP = re.compile(" ?")
_NUMBER = re.compile("[1-9][0-9]{0,2}(?![0-9.,])")
_HELD = re.compile(r"([cCaApP]) ?\(")
_STANDARD = re.compile(r"([cCpP])(?:\^?(?:°|º|⦵|⊖|\{[0°]\}|0)|⁰)")
_LOWERED = re.compile(r"([cCpP])_\{([^{}]*)\}")
_BESIDE = re.compile(r"[pP]_?([A-Z][A-Za-z0-9₀₁₂₃₄₅₆₇₈₉]*)")
_SIZE = "([+-]?)([0-9]{1,3})(?![0-9])(?:[.,]([0-9]{1,2})(?![0-9])"
_POWER = re.compile(rf" ?(?:\^|\*\*) ?(?:([({{]) ?{_SIZE}|/([1-9][0-9]?))? ?([)}}])|{_SIZE})?)|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{{1,3}})")
_COUNTED = re.compile(r"([1-9][0-9]{0,2}) ?(?=[A-Z\[(])")
_CLOSING = {"(": ")", "[": "]"}

Powers = dict[tuple[str, str], Fraction]
"""The power of each factor by its kind (c, p, a) and its species; ("c", "°") is the standard concentration."""
STANDARD = "°"


@dataclass(frozen=True, slots=True)
class TypedExpression:
    """Factors with their powers, a number that stands with them, and whether somewhere they are added."""

    powers: Powers = field(default_factory=dict)
    number: Fraction = Fraction(1)
    added: bool = False


class _StopError(Exception):
    """Carries the finding out of the reading; caught in ``read_expression``."""

    def __init__(self, why: str, readings: tuple[str, ...] = ()) -> None:
        super().__init__(why)
        self.found = Unreadable(why, readings)


# ------------------------------------------------------------------ reading


def read_expression(typed: object) -> TypedExpression | Unreadable:
    """Read a typed expression. Never raises; what can't be read is quoted, with its cure where there is one."""
    text = text_of(typed, LONGEST, _KNOWN, "expression-character")
    if isinstance(text, Unreadable):
        return text
    try:
        return _Reader(_NAME.sub("", text, count=1) if _NAME.match(text) else text).whole()
    except _StopError as stop:
        return stop.found


class _Reader:
    """Reads from left to right."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.place = 0

    def whole(self) -> TypedExpression:
        found = self.sum(0)
        if self.place < len(self.text):
            raise self.stuck()
        return found

    def take(self, sign: re.Pattern[str]) -> re.Match[str] | None:
        found = sign.match(self.text, self.place)
        if found:
            self.place = found.end()
        return found

    def stuck(self) -> _StopError:
        return _StopError("expression", (quoted(self.text[self.place :].strip(" ") or self.text),))

    def sum(self, depth: int) -> TypedExpression:
        """Products, rightly one of them."""
        if depth > DEEPEST:
            raise self.stuck()
        found = self.product(depth)
        while self.take(_PLUS):
            found = _combined(found, self.product(depth), Fraction(1), added=True)
        return found

    def product(self, depth: int) -> TypedExpression:
        """Chains joined by signs; after a stroke only further strokes, since it would be unclear what stands below."""
        found, below = self.chain(depth), False
        while True:
            if self.take(_OVER):
                found, below = _combined(found, self.chain(depth), Fraction(-1)), True
            elif self.take(_TIMES):
                if below:
                    raise _StopError("below-unclear")
                found = _combined(found, self.chain(depth), Fraction(1))
            else:
                return found

    def chain(self, depth: int) -> TypedExpression:
        """Factors side by side."""
        found = self.power(depth)
        while self.begins():
            found = _combined(found, self.power(depth), Fraction(1))
        return found

    def begins(self) -> bool:
        """Whether another factor stands here, with or without a space before it."""
        start = self.place
        self.take(_GAP)
        if any(sign.match(self.text, self.place) for sign in (_HELD, _STANDARD, _LOWERED, _BESIDE)) or self.here in {"[", "("}:
            return True
        if self.here.isdecimal() and self.here.isascii():
            raise _StopError("power-sign")
        self.place = start
        return False

    @property
    def here(self) -> str:
        return self.text[self.place : self.place + 1]

    def power(self, depth: int) -> TypedExpression:
        base = self.atom(depth)
        found = self.take(_POWER)
        return _raised(base, self.exponent(found)) if found else base

    def exponent(self, found: re.Match[str]) -> Fraction:
        opening, *inside, under, closing = found.groups()[:6]
        if found[10]:
            return Fraction(int(found[10].translate(_RAISED)))
        if opening and opening + (closing or "") not in {"()", "{}"}:
            raise self.stuck()
        sign, whole, decimals = inside if opening else found.groups()[6:9]
        size = Fraction(int(whole or "0"), int(under or "1"))
        size += Fraction(int(decimals), 10 ** len(decimals)) if decimals else 0
        return -size if sign == "-" else size

    def atom(self, depth: int) -> TypedExpression:
        if self.here == "[":
            return self.held("c")
        if found := self.take(_STANDARD):
            return _one(found[1].lower(), STANDARD)
        if found := self.take(_LOWERED):
            return _one(found[1].lower(), _named(found[2].strip(" ")))
        if found := self.take(_HELD):
            self.place -= 1
            return self.held(found[1].lower())
        if found := self.take(_BESIDE):
            return _one("p", _named(found[1]))
        if found := self.take(_NUMBER):
            return TypedExpression(number=Fraction(int(found[0])))
        if self.here == "(":
            self.place += 1
            self.take(_GAP)
            inside = self.sum(depth + 1)
            self.take(_GAP)
            if self.here != ")":
                raise self.stuck()
            self.place += 1
            return inside
        raise self.stuck()

    def held(self, kind: str) -> TypedExpression:
        """The species between the bracket that stands here and its partner; a number in it counts as one before it."""
        start, opening = self.place + 1, self.here
        depth = 0
        for place in range(self.place, len(self.text)):
            depth += (self.text[place] == opening) - (self.text[place] == _CLOSING[opening])
            if depth == 0:
                break
        else:
            raise self.stuck()
        inside = self.text[start:place].strip(" ")
        counted = _COUNTED.match(inside)
        found = _one(kind, _named(inside[counted.end() :] if counted else inside))
        self.place = place + 1
        return TypedExpression(found.powers, Fraction(int(counted[1]))) if counted else found


def _named(text: str) -> str:
    species = read_species(text)
    if isinstance(species, Unreadable):
        raise _StopError(species.why, species.readings)
    return identity(species)


def _one(kind: str, name: str) -> TypedExpression:
    return TypedExpression({(kind, name): Fraction(1)})


def _combined(one: TypedExpression, other: TypedExpression, way: Fraction, *, added: bool = False) -> TypedExpression:
    """The product of both, the other to the power of 1 or -1."""
    right = _raised(other, way)
    powers = dict(one.powers)
    for name, power in right.powers.items():
        powers[name] = _bounded(powers.get(name, Fraction(0)) + power, LARGEST_POWER)
    return TypedExpression(powers, _bounded(one.number * right.number, LARGEST_NUMBER), one.added or other.added or added)


def _raised(base: TypedExpression, power: Fraction) -> TypedExpression:
    powers = {name: _bounded(each * power, LARGEST_POWER) for name, each in base.powers.items()}
    return TypedExpression(powers, _number(base.number, power), base.added)


def _number(base: Fraction, power: Fraction) -> Fraction:
    if base == 1:
        return base
    if power.denominator != 1:
        raise _StopError("expression", ())
    found = Fraction(1)
    for _ in range(abs(power.numerator)):
        found = _bounded(found * base, LARGEST_NUMBER)
    return 1 / found if power < 0 else found


def _bounded(value: Fraction, most: int) -> Fraction:
    if max(abs(value.numerator), value.denominator) > most:
        raise _StopError("too-long")
    return value


# ------------------------------------------------------------------ comparing


def compare(typed: TypedExpression, right: TypedExpression, left_out: Collection[str] = ()) -> Finding:
    """How a typed expression stands to the right one; ``left_out`` are species, as texts, that do not belong in it."""
    mine, theirs = _by_name(typed.powers), _by_name(right.powers)
    why = ["plus-for-times"] if typed.added else []
    outside = {identity(parse_species(species)) for species in left_out}
    if any(name in outside for name in mine):
        why.append("solids-in")
    if "e" in mine:
        why.append("electrons-in")
    mine = {name: power for name, power in mine.items() if name not in outside and name != "e"}
    why += _of_powers(mine, theirs, typed.number)
    if why == ["multiple"]:
        return Finding("right-but", ("multiple",))
    return Finding("not-yet", tuple(why)) if why else _of_forms(typed.powers, right.powers)


def same(one: TypedExpression, other: TypedExpression) -> bool:
    """Whether two expressions, right or wrong, are the same but for c°, p° and the letters of their factors."""
    return (_by_name(one.powers), one.number, one.added) == (_by_name(other.powers), other.number, other.added)


def to_power(expression: TypedExpression, way: Fraction) -> TypedExpression | None:
    """The expression that belongs to a multiple of the equation; ``None`` where its numbers grow beyond all use."""
    try:
        return _raised(expression, way)
    except _StopError:
        return None


def _by_name(powers: Powers) -> dict[str, Fraction]:
    """The powers by species, those that cancel and the standards left out."""
    found: dict[str, Fraction] = {}
    for (_, name), power in powers.items():
        if name != STANDARD:
            found[name] = found.get(name, Fraction(0)) + power
    return {name: power for name, power in found.items() if power}


def _of_powers(mine: dict[str, Fraction], theirs: dict[str, Fraction], number: Fraction) -> list[str]:
    """What is wrong about the factors and their powers."""
    why = ["factor-missing"] if theirs.keys() - mine.keys() else []
    if mine.keys() - theirs.keys():
        why.append("factor-extra")
    factors = ["number-as-factor"] if number != 1 else []
    if why:
        return [*why, *factors]
    ratios = {mine[name] / theirs[name] for name in theirs}
    if ratios <= {Fraction(1)}:
        return factors
    if all(ratio < 0 for ratio in ratios):
        return ["upside-down", *(["powers"] if ratios != {Fraction(-1)} else []), *factors]
    if any(ratio < 0 for ratio in ratios):
        return ["sides", *factors]
    if len(ratios) == 1 and not factors:
        return ["multiple"]
    return factors or ["powers"]


def _of_forms(mine: Powers, theirs: Powers) -> Finding:
    """What is still to be said of letters and standards where all else is right."""
    kinds = {name: kind for kind, name in theirs}
    why = [
        said
        for kind, said in (("p", "gas-by-pressure"), ("c", "dissolved-by-concentration"))
        if any(kinds.get(name) == kind and own not in {kind, "a"} for own, name in _told(mine))
    ]
    for kind in ("c", "p"):
        total = sum((power for (own, name), power in mine.items() if name != STANDARD and own == kind), Fraction(0))
        standard = mine.get((kind, STANDARD), Fraction(0))
        if standard and standard != -total and "standards" not in why:
            why.append("standards")
    return Finding("right-but", tuple(why)) if why else Finding("right")


def _told(powers: Powers) -> Iterable[tuple[str, str]]:
    return (key for key, power in powers.items() if power and key[1] != STANDARD)
