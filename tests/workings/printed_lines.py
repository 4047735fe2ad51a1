"""Reads a composed working back from its document tree: each line's numbers as printed, and what they come to.

Nothing of the derivation is used, only what stands on the page: a reader with a calculator, written apart.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from decimal import Decimal
from functools import reduce

from saltbridge import document as doc
from saltbridge.units import exact_factor

_NUMBER = re.compile(r"^([+−]?)(\d+(?:\u202f\d+)*(?:[.,]\d+(?:\u202f\d+)*)?)(?:\u202f×\u202f10)?")
_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")


@dataclass(frozen=True)
class Printed:
    """A number as it stands on the page, the power of ten of its last sure place, and the text of its unit."""

    value: Decimal
    place: int
    unit: str


class NotANumberError(Exception):
    """A line of symbols, or a choice in words."""


def printed(item: doc.Inscription) -> Printed:
    """The number of an inscription such as ``+0.34 V``, ``(1.45 × 10³⁷)`` or ``0.015 855 mol``."""
    pieces = [piece for piece in item.pieces if piece.text not in {"(", ")"}]
    first = "".join(piece.text for piece in pieces[:1])
    found = _NUMBER.match(first)
    if found is None:
        raise NotANumberError(item.plain)
    sign, digits = found[1], found[2].replace("\u202f", "").replace(",", ".")
    powered = found[0].endswith("10") and "×" in found[0]
    power = int(pieces[1].text.replace("−", "-").translate(_SUPERSCRIPTS)) if powered else 0
    rest = [first[found.end() :], *(piece.text for piece in pieces[1 + powered :])]
    decimals = len(digits.partition(".")[2])
    value = Decimal(("-" if sign == "−" else "") + digits).scaleb(power)
    closing = len(digits) - len(digits.rstrip("0")) if not decimals and not powered and digits.strip("0") else 0
    return Printed(value, power - decimals + closing, "".join(rest).strip("\u202f ()"))


def is_rounded(value: float, to: Printed) -> bool:
    """Whether a value printed to that place gives those digits (a tie may go either way by its last binary digit)."""
    exact, half = Decimal(repr(value)), Decimal(5).scaleb(to.place - 1)
    return abs(exact - to.value) <= half * Decimal("1.000001")


class Reader:
    """Evaluates the formulas of one variant."""

    def __init__(self, slots):
        self.slots = slots

    def chain(self, node):
        """The parts of a right-hand side that stand between signs of equality, as formulas; ``≈`` cuts likewise."""
        items = self.items(node)
        parts, signs = [[]], []
        for item in items:
            if isinstance(item, doc.Sign) and item.text in {"=", "≈"}:
                parts.append([])
                signs.append(item.text)
            else:
                parts[-1].append(item)
        return [tuple(part) for part in parts], signs

    def items(self, node):
        """A formula as a flat row, slots filled."""
        match node:
            case doc.Row(items):
                return tuple(each for item in items for each in self.items(item))
            case doc.Slot(index):
                return tuple(each for span in self.slots[index] for each in self.items(span))
            case doc.Maths(body):
                return self.items(body)
            case doc.Text(text):
                raise NotANumberError(text)
            case _:
                return (node,)

    def value(self, items):
        """What a row of terms comes to. Raises ``NotANumberError`` where symbols stand in it."""
        total, sign, factors = 0.0, 1.0, []
        place = 0
        while place < len(items):
            item = items[place]
            match item:
                case doc.Sign("+" | "−" as text):
                    if factors:
                        total += sign * reduce(lambda a, b: a * b, factors)
                    sign, factors = (1.0 if text == "+" else -1.0), []
                case doc.Sign("×"):
                    pass
                case doc.Sign("|"):
                    end = _closing(items, place)
                    factors.append(abs(self.value(items[place + 1 : end])))
                    place = end
                case _:
                    factors.append(self.term(item))
            place += 1
        return total + sign * reduce(lambda a, b: a * b, factors)

    def term(self, node):
        """What one term comes to."""
        match node:
            case doc.Inscription():
                return float(printed(node).value)
            case doc.Symbol("e"):
                return math.e
            case doc.Symbol():
                raise NotANumberError(node.base)
            case doc.Fraction(top, bottom):
                return self.of(top) / self.of(bottom)
            case doc.Power(base, exponent):
                return self.of(base) ** self.of(exponent)
            case doc.Fenced(body):
                return self.of(body)
            case doc.Root(body):
                return math.sqrt(self.of(body))
            case doc.Call(name, _, body):
                return self.call(name, body)

    def call(self, name, body):
        """A function's value."""
        if name in {"min", "max"}:
            inner = self.items(body.body)
            comma = next(at for at, item in enumerate(inner) if isinstance(item, doc.Sign) and item.text == ",")
            return {"min": min, "max": max}[name](self.value(inner[:comma]), self.value(inner[comma + 1 :]))
        return {"ln": math.log, "lg": math.log10}[name](self.of(body))

    def of(self, node):
        """What a formula comes to."""
        return self.value(self.items(node))


def _closing(items, opening):
    """Where the bars of a size end: a bar after a sign or another opening one opens, any other closes."""
    opened, closed = {opening}, 0
    for place in range(opening + 1, len(items)):
        if isinstance(items[place], doc.Sign) and items[place].text == "|":
            before = items[place - 1]
            if isinstance(before, doc.Sign) and (before.text != "|" or place - 1 in opened):
                opened.add(place)
            else:
                closed += 1
            if closed == len(opened):
                return place
    raise NotANumberError("a bar that does not close")


def single(part):
    """The one number of a part of a chain, or ``None`` where it is worked from several."""
    return printed(part[0]) if len(part) == 1 and isinstance(part[0], doc.Inscription) else None


def unlike_lines(step, slots):
    """Every place in a step where a line does not give the digits of the next; and how many places were looked at."""
    reader, found, looked = Reader(slots), [], 0
    before = None
    for line in step.lines:
        if not isinstance(line, doc.MathLine):
            before = None
            continue
        parts, signs = reader.chain(line.right)
        for place, part in enumerate(parts):
            try:
                value = reader.value(part)
            except NotANumberError:
                before = None
                continue
            number = single(part)
            continues = place > 0 or line.left is None
            if before is not None and continues and number is not None:
                looked += 1
                was, unit = before
                turned = was * _factor(unit, number.unit) + _offset(unit, number.unit)
                if not is_rounded(turned, number):
                    found.append(f"{was} {unit} gives {turned}, printed {part[0].plain} ({signs})")
            before = (value, number.unit if number else None)
    return found, looked


def _factor(unit, to):
    """How many of the second unit the first is; one where a line was worked from several numbers."""
    if unit is None or unit == to or _offset(unit, to):
        return 1.0
    return float(exact_factor(_typed(unit), _typed(to)))


def _offset(unit, to):
    """Between degrees Celsius and kelvins."""
    return {("°C", "K"): 273.15, ("K", "°C"): -273.15}.get((unit, to), 0.0)


def _typed(unit):
    """A printed unit as it is typed; a year, which has no symbol, is printed as a word."""
    return re.sub(r"^years?$", "y", unit).replace("·", " ").replace("\u202f", " ").replace("µ", "u").translate(_SUPERSCRIPTS)
