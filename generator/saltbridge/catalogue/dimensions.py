"""Whether the two sides of a relation measure the same kind of quantity.

A plain number fits wherever it stands (273.15 beside a temperature), a logarithm may be taken of anything, and a concentration counts as
relative to 1 mol/L where the sides would differ by a power of it, as in a solubility product. How large the units are is left to the outside cases of the relation.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from saltbridge.algebra.expression import Bin, Fn, Neg, Num, Ref, Tree, as_text
from saltbridge.catalogue.catalogue_records import Quantity, Relation
from saltbridge.catalogue.entries import Entry
from saltbridge.faults import Faulty
from saltbridge.units import base_powers

Dimension = Mapping[str, Fraction] | None
"""Powers of the base units; ``None`` for a plain number, which fits anywhere."""


class UnlikeError(Exception):
    """Two terms that can't be added or set equal; ``args`` are the two as text."""


def unlike_sides(entry: Entry, of: Relation, quantities: Mapping[str, Quantity]) -> None:
    """Note terms of a relation that can't be added, and sides that measure different things."""
    try:
        units = {name: base_powers(quantities[name].unit) for name in of.symbols}
        _alike((of.subject, units[of.subject]), (as_text(of.tree), _of(of.tree, units)))
    except (KeyError, Faulty):  # a quantity or a unit that isn't known: a fault already
        return
    except UnlikeError as unlike:
        one, other = unlike.args
        hint = "Look at the units of the quantities, or for a factor that is missing."
        expected = f"{one} and {other} of the same kind of quantity"
        entry.blame("unlike-sides", "equation", expected=expected, found=entry.text("equation"), hint=hint)


def _alike(one: tuple[str, Dimension], other: tuple[str, Dimension]) -> Dimension:
    """The kind that both have; a plain number takes that of the other."""
    if one[1] is not None and other[1] is not None and not _only_concentrations(_product(one[1], other[1], -1)):
        raise UnlikeError(one[0], other[0])
    return other[1] if one[1] is None else one[1]


def _only_concentrations(kind: Dimension) -> bool:
    """Whether a kind is none, or a power of a concentration."""
    powers = dict(kind or {})
    return not powers or powers == {"[substance]": (power := powers.get("[substance]", Fraction(0))), "[length]": -3 * power}


def _of(tree: Tree, units: Mapping[str, Dimension]) -> Dimension:
    match tree:
        case Num():
            return None
        case Ref(name):
            return units[name]
        case Neg(body):
            return _of(body, units)
        case Bin("+" | "-", left, right):
            return _alike((as_text(left), _of(left, units)), (as_text(right), _of(right, units)))
        case Bin("^", base, exponent):
            return _raised(_of(base, units), exponent)
        case Bin(op, left, right):
            return _product(_of(left, units), _of(right, units), 1 if op == "*" else -1)
        case Fn("sqrt", (body,)):
            return _raised(_of(body, units), Num("0.5"))
        case Fn("abs" | "min" | "max", args):
            kinds = [(as_text(arg), _of(arg, units)) for arg in args]
            return _alike(kinds[0], kinds[-1])
        case _:
            return {}


def _raised(kind: Dimension, exponent: Tree) -> Dimension:
    """A power; with an exponent that is a quantity the kind is open, unless the base is a pure number."""
    sign, number = (-1, exponent.body) if isinstance(exponent, Neg) else (1, exponent)
    if kind and not isinstance(number, Num):
        return None
    power = sign * Fraction(number.text) if isinstance(number, Num) else Fraction(1)
    return None if kind is None else {name: each * power for name, each in kind.items() if each * power}


def _product(one: Dimension, other: Dimension, sign: int) -> Dimension:
    if one is None and other is None:
        return None
    left, right = one or {}, other or {}
    powers = {name: left.get(name, Fraction(0)) + sign * right.get(name, Fraction(0)) for name in (*left, *right)}
    return {name: power for name, power in powers.items() if power}
