"""Figures, rounding and the printed form of a number.

Every measured number is first taken to twelve significant digits, then rounded once, half away from zero. The first step
removes what binary fractions add (2.675 is 2.67499… in memory); without it many ties fall the wrong way. The page's script
takes the same twelve digits (``toPrecision(12)``, which also rounds ties away from zero), so both sides compare alike.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Context, Decimal
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from saltbridge.document import Inscription, Piece
from saltbridge.faults import fault

if TYPE_CHECKING:
    from collections.abc import Callable

MINUS = "\N{MINUS SIGN}"
NARROW_SPACE = "\N{NARROW NO-BREAK SPACE}"
TIMES = "\N{MULTIPLICATION SIGN}"

_TWELVE = Context(prec=12, rounding=ROUND_HALF_UP)
_WIDE = Context(prec=1000, rounding=ROUND_HALF_UP)  # holds any binary64 written out in full
_PLAIN_FROM, _PLAIN_BELOW = -3, 6  # powers of ten between which a number is written without an exponent
_NUMBER = re.compile(r"([+\-\u2212]?)(?:(\d+)(?:\.(\d*))?|\.(\d+))(?:[eE]([+\-]?\d{1,4}))?", re.ASCII)

Measured = float | Decimal


class NumberWords(NamedTuple):
    """The words that read a number aloud, in the bank's language."""

    minus: str = "minus"
    plus: str = "plus"
    times_ten_to: str = "times 10 to the"


ENGLISH = NumberWords()


def number_words(words: Callable[[str], str]) -> NumberWords:
    """The words that read a number aloud, said by a catalogue."""
    return NumberWords(*map(words, ENGLISH))


# ------------------------------------------------------------------ rounding


def _twelve_digits(value: Measured) -> Decimal:
    """The value to twelve significant digits; raises ValueError for a value that is no finite number."""
    digits = _TWELVE.create_decimal_from_float(value) if isinstance(value, float) else _TWELVE.create_decimal(value)
    if not digits.is_finite():
        raise ValueError(f"{value} can't be rounded: it is not a finite number")
    return digits


def twelve(value: float) -> float:
    """The value to twelve significant digits, half away from zero; what is not finite stays as it is."""
    return float(_TWELVE.create_decimal_from_float(value))


def to_decimals(value: Measured, places: int) -> Decimal:
    """The value to a number of decimal places, half away from zero; zero has no sign. Raises ValueError unless finite."""
    rounded = _WIDE.quantize(_twelve_digits(value), place_of(-places))
    return rounded or rounded.copy_abs()


def to_figures(value: Measured, figures: int) -> Decimal:
    """The value to a number of significant figures, half away from zero, trailing zeros kept.

    Zero gets the same number of decimals as a number between 1 and 10 would. Raises ValueError unless finite.
    """
    digits = _twelve_digits(value)
    if not digits:
        return Decimal((0, (0,), 1 - figures))
    rounded = _to_so_many(figures).plus(digits)
    return _WIDE.quantize(rounded, place_of(rounded.adjusted() - figures + 1))


@lru_cache(maxsize=64)
def _to_so_many(figures: int) -> Context:
    return Context(prec=figures, rounding=ROUND_HALF_UP)


@lru_cache(maxsize=1024)
def place_of(exponent: int) -> Decimal:
    """One unit at a power of ten: 0.01 for -2."""
    return Decimal((0, (1,), exponent))


def last_place(value: Decimal) -> Decimal:
    """One unit in the last written place: 0.01 for 1.10, 100 for 9.65E+4."""
    return place_of(_exponent(value))


def _exponent(value: Decimal) -> int:
    if not value.is_finite():
        raise ValueError(f"{value} has no last place")
    return int(value.as_tuple().exponent)


# ------------------------------------------------------------------ figures of a text


class _Parts(NamedTuple):
    sign: str
    whole: str
    decimals: str
    exponent: int | None


def _split(text: str) -> _Parts:
    """Sign, digits and exponent of a number in a bank's or sheet's own writing; raises Faulty for anything else."""
    found = _NUMBER.fullmatch(text)
    if found is None:
        raise fault("number", expected="a number such as 1.10 or 1.50e-3", found=repr(text))
    sign, whole, decimals, bare, exponent = found.groups()
    return _Parts(sign, whole or "0", decimals or bare or "", int(exponent) if exponent else None)


def figures_of(text: str) -> int:
    """Significant figures of a number as written, counting the closing zeros of a whole number: 3 for 300 and 1.50e-3.

    Zero counts its written digits. Raises Faulty for a text that is no number.
    """
    parts = _split(text)
    digits = parts.whole + parts.decimals
    return len(digits.lstrip("0")) or len(digits)


def decimals_of(text: str) -> int:
    """Decimal places of a number as written, after undoing its exponent: 2 for 1.10, 5 for 1.50e-3, 0 for 9.65e4."""
    parts = _split(text)
    return max(0, len(parts.decimals) - (parts.exponent or 0))


# ------------------------------------------------------------------ printing


def print_number(
    value: str | Decimal,
    decimal_mark: str = ".",
    *,
    signed: bool = False,
    scientific: bool | None = None,
    say: NumberWords = ENGLISH,
) -> Inscription:
    """The number as it is set: U+2212, thin groups of three from five digits on, and the words to read it.

    It is written with a power of ten where the text has an exponent, or below 0.001 and from a million on; ``scientific``
    forces either form. Closing zeros stay, they carry the figures. ``signed`` puts a plus before a positive number.
    Raises Faulty for a text that is no number.
    """
    if isinstance(value, Decimal):
        # A Decimal's own exponent says nothing about how it should be printed, so it goes through its size alone.
        return _printed(
            f"{value:f}", decimal_mark, signed, _by_size(value) if scientific is None else scientific, say, _exponent(value)
        )
    return _printed(value, decimal_mark, signed, scientific, say, None)


def _by_size(value: Decimal) -> bool:
    return bool(value) and not _PLAIN_FROM <= value.adjusted() < _PLAIN_BELOW


@lru_cache(maxsize=8192)
def _printed(text: str, mark: str, signed: bool, scientific: bool | None, say: NumberWords, last: int | None) -> Inscription:
    """The inscription, cached by its text: a Decimal as key would mix up 1.1 and 1.10. ``last`` is the last sure place."""
    parts = _split(text)
    digits = (parts.whole + parts.decimals).lstrip("0")
    exponent = parts.exponent or 0
    size = exponent + len(digits) - len(parts.decimals) - 1  # the power of ten of the first figure
    if scientific is None:
        scientific = bool(digits) and (parts.exponent is not None or not _PLAIN_FROM <= size < _PLAIN_BELOW)
    sign, spoken = _sign(parts.sign, signed, zero=not digits.strip("0"), say=say)
    if scientific and digits:
        kept = digits if last is None else digits[: max(1, size - last + 1)]
        return _scientific(kept, size, mark, (sign, spoken), say)
    if exponent:
        parts = _split(f"{Decimal(text.replace(MINUS, '-')):f}")
    whole = parts.whole.lstrip("0") or "0"
    tail = mark + parts.decimals if parts.decimals else ""
    shown = sign + _grouped(whole, mark, parts.decimals)
    return Inscription("number", (Piece("base", shown),), spoken + whole + tail)


def _sign(written: str, signed: bool, *, zero: bool, say: NumberWords) -> tuple[str, str]:
    """The sign as set and as said; zero has none."""
    if zero:
        return "", ""
    if written in ("-", MINUS):
        return MINUS, say.minus + " "
    return ("+", say.plus + " ") if signed else ("", "")


def _scientific(digits: str, size: int, mark: str, sign: tuple[str, str], say: NumberWords) -> Inscription:
    """One figure before the mark, the rest after it, and the power of ten."""
    rest = digits[1:]
    shown = f"{sign[0]}{_grouped(digits[0], mark, rest)}{NARROW_SPACE}{TIMES}{NARROW_SPACE}10"
    power = f"{MINUS}{-size}" if size < 0 else str(size)
    power_said = f"{say.minus} {-size}" if size < 0 else str(size)
    factor_said = digits[0] + (mark + rest if rest else "")
    spoken = f"{sign[1]}{factor_said} {say.times_ten_to} {power_said}"
    return Inscription("number", (Piece("base", shown), Piece("sup", power)), spoken)


def _grouped(whole: str, mark: str, decimals: str) -> str:
    """Digits on either side of the mark in threes, counted from the mark, where that side has five or more."""
    if len(whole) >= 5:
        head = len(whole) % 3
        groups = [whole[:head]] if head else []
        groups += [whole[start : start + 3] for start in range(head, len(whole), 3)]
        whole = NARROW_SPACE.join(groups)
    if len(decimals) >= 5:
        decimals = NARROW_SPACE.join(decimals[start : start + 3] for start in range(0, len(decimals), 3))
    return f"{whole}{mark}{decimals}" if decimals else whole
