"""Sizes of units for the independent route: worked out here, in exact fractions, from what ``data/units.csv`` says of each unit."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from saltbridge.faults import fault
from saltbridge.tables import constant
from saltbridge.tables.unit_rows import unit_rows

# The units in which the plain formulas count, one for each kind of quantity; any other kind counts in m, g, s, A, K and mol.
COHERENT = (
    "1", "V", "K", "J/mol", "A", "s", "C", "mol", "g", "J/(mol K)", "ohm", "J", "J/g", "C/g", "V/K", "cm", "cm2", "cm/s", "dm3",
    "dm3/mol", "g/cm3", "A/cm2", "C/mol", "g/mol", "mol/L", "bar",
)  # fmt: skip
_WORD = re.compile(r"(?P<symbol>[A-Za-z%°]+)(?P<power>\d?)")

Powers = tuple[tuple[str, int], ...]


class _Size(NamedTuple):
    """How many base units a unit is, and the powers of the base units in it."""

    times: Fraction
    powers: Powers


def to_coherent(value: float, unit: str) -> float:
    """Give a value in the coherent unit of its quantity (V, K, J/mol, A, s, C, mol, g, g/mol, mol/L, bar or 1).

    Raises ``Faulty`` for a unit that isn't known. A temperature in °C becomes one in K.
    """
    if unit == "°C":
        return value + constant("T_zero")
    return value * _factor(unit)


def from_coherent(value: float, unit: str) -> float:
    """Give a value of the coherent unit in ``unit``; raises ``Faulty`` for a unit that isn't known."""
    if unit == "°C":
        return value - constant("T_zero")
    return value / _factor(unit)


@cache
def _factor(unit: str) -> float:
    size = _size(unit)
    return float(size.times / _coherent_sizes().get(size.powers, Fraction(1)))


@cache
def _coherent_sizes() -> dict[Powers, Fraction]:
    return {size.powers: size.times for size in map(_size, COHERENT)}


@cache
def _size(unit: str) -> _Size:
    """The size of a unit as written in the data, such as ``J/(mol K)``: what stands after the slash divides."""
    over, _, under = unit.partition("/")
    sizes = [(word, 1) for word in over.split()] + [(word, -1) for word in under.strip("()").split()]
    return _product([_raised(word, sign, unit) for word, sign in sizes if word != "1"])


def _raised(word: str, sign: int, unit: str) -> _Size:
    found = _WORD.fullmatch(word)
    if found is None or found["symbol"] not in unit_rows():
        raise fault("unknown-unit", expected=f"a unit made of {', '.join(unit_rows())}", found=repr(unit))
    return _power(_symbol(found["symbol"]), sign * int(found["power"] or 1))


@cache
def _symbol(symbol: str) -> _Size:
    """The size of one symbol: its row says a base dimension, or a number and the units that it is made of."""
    meaning = unit_rows()[symbol].meaning
    if meaning.startswith("["):
        return _Size(Fraction(1), ((meaning, 1),))
    number, *words = meaning.replace(" ** ", "^").split()
    parts, sign = [_Size(Fraction(number), ())], 1
    for word in words:
        if word in {"*", "/"}:
            sign = 1 if word == "*" else -1
        else:
            name, _, power = word.partition("^")
            parts.append(_power(_symbol(name), sign * int(power or 1)))
    return _product(parts)


def _power(size: _Size, power: int) -> _Size:
    return _Size(size.times**power, tuple((name, times * power) for name, times in size.powers))


def _product(sizes: list[_Size]) -> _Size:
    times, powers = Fraction(1), dict[str, int]()
    for size in sizes:
        times *= size.times
        for name, power in size.powers:
            powers[name] = powers.get(name, 0) + power
    return _Size(times, tuple(sorted((name, power) for name, power in powers.items() if power)))
