"""Reads a number as students type it. The script's ``readNumber`` is its twin.

| typed                                    | read as                                                       |
|------------------------------------------|---------------------------------------------------------------|
| ``1.10`` ``1,10``                        | 1.10; point and comma both mark decimals                      |
| ``-1.1`` ``−1.1`` ``–1.1`` ``- 1.1``     | -1.1                                                          |
| ``+0.34``                                | 0.34                                                          |
| ``.5`` ``,5`` ``5.``                     | 0.5, 0.5, 5 (one sure figure)                                 |
| ``1.8×10^-3`` ``1.8x10^{-3}`` ``1.8*10**-3`` ``1.8·10⁻³`` ``1.8e-3`` ``1.8×10-3`` | 0.0018, two figures  |
| ``10^-3`` ``-10⁻³``                      | a power alone, one figure                                     |
| ``1.8×103``                              | unread ``power``: pasting has lost the level of the 3         |
| ``1/3``                                  | a third; a fraction has no figures, so where figures are asked it is right but for them |
| ``96 485`` ``0.059 16`` (any thin space) | threes counted from the mark; other spaces are unread ``spaces`` |
| ``1.10 V`` ``1100mV`` ``5 kJ mol-1`` ``3 volts`` | number and unit                                       |
| ``m = 0.632 g`` ``E ≈ 1.10``             | what stands before the sign is a name, and is left out        |
| ``0.632.`` ``0.632 g.``                  | the point at the end closes a sentence                        |
| ``44 min 20 s`` ``1 h 30 min``           | 2660 s, 5400 s, with as many figures as may be wanted         |
| ``1,234.5``                              | unread ``ambiguous``; readings 1234.5 and 1.2345              |
| ``1,234`` where the bank has a point     | unread ``ambiguous``; readings 1.234 and 1234; so ``1.234`` where it has a comma |
| ``1,234,567``                            | unread ``two-marks``                                          |
| ``1e400`` ``1e-400``                     | unread ``too-far``: beyond what can be computed with          |
| any other text, or other characters      | unread ``not-a-number``                                       |
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from saltbridge.answers.unit_words import unit_atoms

LONGEST = 80
MINUS = "\N{MINUS SIGN}"

_UNSEEN = re.compile("[\u200b\u200c\u200d\u2060\ufeff]")
_SPACES = re.compile("[ \t\r\n\u00a0\u2007\u2009\u202f]+")
_DASHES = re.compile("[\u2212\u2010-\u2015\ufe58\ufe63\uff0d]")
_KNOWN = re.compile("[ -~×·⋅∙•µμΩ\u2126°℃ℓ⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻]*")
_NAME = re.compile("(?:[A-Za-zΔνη][^=≈]{0,30})?[=≈] ?")
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")

_FRACTION = re.compile(r"([+-]?) ?([0-9]{1,6}) ?/ ?([0-9]{1,6})(?![0-9.,])(.*)")
_POWER = r"(?:(\^|\*\*)? ?([({])? ?([+-]?) ?([0-9]{1,3}) ?([)}])?|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,3}))(?![0-9.,⁰¹²³⁴⁵⁶⁷⁸⁹])"
_ALONE = re.compile(r"([+-]?) ?10(?=\^|\*\*|[⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹])" + _POWER + "(.*)")
_PLAIN = re.compile(r"([+-]?) ?([0-9.,](?:[0-9., ]*[0-9.,])?)(.*)")
_SHORT = re.compile(r" ?[eE]([+-]?[0-9]{1,3})(?![0-9.,])(.*)")
_TIMES = re.compile(r" ?[xX×*·⋅∙•] ?10 ?" + _POWER + "(.*)")
_WHOLE_GROUPS = re.compile(r"[0-9]{1,3}( [0-9]{3})+")
_DECIMAL_GROUPS = re.compile(r"[0-9]{3}( [0-9]{3})*( [0-9]{1,3})?")
_HOURS, _MINUTES, _SECONDS = (
    r"(?:h|hrs?|hours?|Std|Stunden?)",
    r"(?:min|mins|minutes?|Minuten?)",
    r"(?:s|secs?|seconds?|Sekunden?)",
)
_AMOUNT, _AND = "([0-9]{1,6}(?:[.,][0-9]{1,6})?)", r"(?: (?:and|und) |, ?| ?)"
_DURATION = re.compile(
    rf"(?:{_AMOUNT} ?{_HOURS})?(?:{_AND}{_AMOUNT} ?{_MINUTES})?(?:{_AND}{_AMOUNT} ?{_SECONDS})?", re.IGNORECASE
)
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")


@dataclass(frozen=True, slots=True)
class Number:
    """A number that was read: value and unit as typed.

    ``figures`` is the least and greatest count of significant figures (closing zeros of a whole number may or may not
    count), ``places`` the powers of ten of the first and last place that could be the last sure one. A fraction has none.
    """

    value: float
    unit: str
    figures: tuple[int, int] | None
    places: tuple[int, int] | None


@dataclass(frozen=True, slots=True)
class Unread:
    """Why a text was not read, and what it could mean."""

    why: str
    readings: tuple[str, ...] = ()


class _StopError(Exception):
    """Carries the finding out of the reading; caught in ``read_number``."""

    def __init__(self, why: str, readings: tuple[str, ...] = ()) -> None:
        super().__init__(why)
        self.found = Unread(why, readings)


def read_number(typed: object, decimal_mark: str = ".") -> Number | Unread:
    """Read a typed number with its unit; see the table above. Never raises."""
    if isinstance(typed, str) and len(typed) > LONGEST:
        return Unread("too-long")
    text = cleaned(typed) if isinstance(typed, str) else ""
    if not text:
        return Unread("empty")
    text = _unclosed(_NAME.sub("", text, count=1) if _NAME.match(text) else text)
    if not _KNOWN.fullmatch(text):
        return Unread("not-a-number")
    try:
        return _duration(text) or _fraction(text) or _power_alone(text) or _plain(text, decimal_mark)
    except _StopError as stop:
        return stop.found


def cleaned(text: str) -> str:
    """The text without what can't be seen, with one space for each run of them and one sign for every dash."""
    return _DASHES.sub("-", _SPACES.sub(" ", _UNSEEN.sub("", text)).strip(" "))


def _unclosed(text: str) -> str:
    """Without the point that closes a sentence; the point of ``5.`` stays."""
    before = text[:-1].rstrip(" ")
    closes = text.endswith(".") and bool(re.search(r"[.,]|[A-Za-z%)]$", before))
    return before if closes else text


def _duration(text: str) -> Number | None:
    """Hours, minutes and seconds, at least two of them, in seconds."""
    found = _DURATION.fullmatch(text)
    told = [(size, amount) for size, amount in zip((3600, 60, 1), found.groups(), strict=True) if amount] if found else []
    if len(told) < 2:
        return None
    return Number(sum(size * float(amount.replace(",", ".")) for size, amount in told), "s", (1, 99), (-99, 99))


def _fraction(text: str) -> Number | None:
    found = _FRACTION.fullmatch(text)
    if not found:
        return None
    if int(found[3]) == 0:
        raise _StopError("not-a-number")
    value = int(found[2]) / int(found[3])
    return Number(-value if found[1] == "-" else value, _unit(found[4]), None, None)


def _power_alone(text: str) -> Number | None:
    found = _ALONE.fullmatch(text)
    if not found:
        return None
    exponent = _exponent(found.groups()[1:7])
    return Number(_value(found[1], "1", exponent), _unit(found[8]), (1, 1), (exponent, exponent))


def _plain(text: str, decimal_mark: str) -> Number:
    found = _PLAIN.fullmatch(text)
    if not found:
        raise _StopError("not-a-number")
    sign, digits, rest = found.groups()
    whole, decimals, marked = _digits(digits, decimal_mark, sign)
    exponent, rest = _scale(rest)
    value = _value(sign, f"{whole or '0'}.{decimals or '0'}", exponent)
    significant = (whole + decimals).lstrip("0") or "0"
    loose = 0 if marked else len(significant) - len(significant.rstrip("0") or "0")
    last = exponent - len(decimals)
    return Number(value, _unit(rest), (len(significant) - loose, len(significant)), (last, last + loose))


def _scale(rest: str) -> tuple[int, str]:
    """The power of ten after the digits, 0 where there is none, and what follows it."""
    if short := _SHORT.fullmatch(rest):
        return int(short[1]), short[2]
    if times := _TIMES.fullmatch(rest):
        return _exponent(times.groups()[:6]), times[7]
    return 0, rest


def _exponent(groups: tuple[str | None, ...]) -> int:
    caret, opening, sign, figures, closing, raised = groups
    if raised:
        return int(raised.translate(_RAISED))
    if (opening or "") + (closing or "") not in {"", "()", "{}"}:
        raise _StopError("not-a-number")
    if not caret and not sign:
        raise _StopError("power")
    return int((sign or "") + (figures or ""))


def _digits(text: str, decimal_mark: str, sign: str) -> tuple[str, str, bool]:
    """Digits before and after the mark, and whether there is a mark."""
    points, commas = text.count("."), text.count(",")
    shown = MINUS if sign == "-" else ""
    if points and commas:
        if points + commas > 2:
            raise _StopError("two-marks")
        tight = text.replace(" ", "")
        without = (tight.replace(",", ""), tight.replace(".", "").replace(",", "."))
        raise _StopError("ambiguous", tuple(shown + reading.replace(".", decimal_mark) for reading in without))
    if points + commas > 1:
        raise _StopError("two-marks")
    mark = "." if points else ","
    if points + commas and mark != decimal_mark and _THOUSANDS.fullmatch(text):
        raise _StopError("ambiguous", (shown + text.replace(mark, decimal_mark), shown + text.replace(mark, "")))
    whole, marked, decimals = text.partition(mark)
    if (" " in whole and not _WHOLE_GROUPS.fullmatch(whole)) or (" " in decimals and not _DECIMAL_GROUPS.fullmatch(decimals)):
        raise _StopError("spaces")
    if not whole and not decimals:
        raise _StopError("not-a-number")
    return whole.replace(" ", ""), decimals.replace(" ", ""), bool(marked)


def _value(sign: str, digits: str, exponent: int) -> float:
    value = float(f"{sign}{digits}e{exponent}")
    if not math.isfinite(value) or (value == 0 and digits.strip("0.")):
        raise _StopError("too-far")
    return value


def _unit(rest: str) -> str:
    """What follows the number, where it can be a unit."""
    unit = rest.strip(" ")
    if unit and unit_atoms(unit) is None:
        raise _StopError("not-a-number")
    return unit
