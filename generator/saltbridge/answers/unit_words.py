"""Units as students write them, by symbol or name, measured against the unit asked for.

The units are those of ``data/units.csv`` in one table (``unit_table``); a page gets it in its data, in its own language.
Prefixes are taken off, so the table holds no unit twice.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any, Literal, NamedTuple

from saltbridge.sigfigs import twelve
from saltbridge.tables.unit_rows import unit_rows
from saltbridge.units import in_base

Table = Mapping[str, Any]
"""``symbols``: symbol → [size, {base unit: power}] · ``names``: small letters → symbol · ``prefixes``: word → sign."""
Standing = Literal["known", "case", "other", "unknown"]
"""Of the dimension asked for; so but for small and capital letters; of another dimension; no unit that we know."""
Powers = dict[str, int]

PREFIXES = {"p": -12, "n": -9, "u": -6, "m": -3, "c": -2, "d": -1, "h": 2, "k": 3, "M": 6, "G": 9}
PREFIX_WORDS = {"nano": "n", "micro": "u", "milli": "m", "centi": "c", "deci": "d", "hecto": "h", "kilo": "k", "mega": "M"}
PREFIX_WORDS |= {"mikro": "u", "zenti": "c", "dezi": "d", "hekto": "h"}  # German
SHORT_NAMES = {"amp": "A", "amps": "A", "sec": "s", "secs": "s", "mins": "min", "hr": "h", "hrs": "h", "yr": "y", "liter": "L"}
SHORT_NAMES |= {"liters": "L", "l": "L", "degrees": "°C"}

_SPELLINGS = str.maketrans(
    {"µ": "u", "μ": "u", "\N{GREEK CAPITAL LETTER OMEGA}": "ohm", "\N{OHM SIGN}": "ohm", "℃": "°C", "ℓ": "L"}
    | dict.fromkeys("·⋅∙•*×", " ")
)
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_ATOM = re.compile(r"([A-Za-z°%]+)(?:\^?(?:(-?[1-9])|\((-?[1-9])\)|\{(-?[1-9])\}))?")
_PER = re.compile(r" per ", re.IGNORECASE)


class Measure(NamedTuple):
    """Size in base units, and the powers of those."""

    size: float
    powers: Powers


@cache
def unit_table(words: Callable[[str], str] = str) -> Table:
    """The table of units, its names in a language."""
    rows = unit_rows()
    kept = [symbol for symbol in rows if not _is_prefixed(symbol)]
    names = {name.lower(): symbol for symbol in kept for name in (words(rows[symbol].one), words(rows[symbol].many))}
    symbols: dict[str, Any] = {}
    for symbol in kept:
        size, powers = in_base(symbol)
        symbols[symbol] = [float(size), {symbol: 1} if symbol == "°C" else dict(powers)]
    return {"symbols": symbols, "names": SHORT_NAMES | names, "prefixes": PREFIX_WORDS}


def _is_prefixed(symbol: str) -> bool:
    rows = unit_rows()
    if symbol[0] not in PREFIXES or symbol[1:] not in rows:
        return False
    (size, powers), (whole, same) = in_base(symbol), in_base(symbol[1:])
    return powers == same and float(size / whole) == float(f"1e{PREFIXES[symbol[0]]}")


# ------------------------------------------------------------------ reading


def unit_atoms(text: str) -> list[tuple[str, int]] | None:
    """The words of a unit with their powers; None for a text that can't be a unit."""
    plain = _PER.sub("/", text.translate(_SPELLINGS)).translate(_RAISED)
    over, slash, under = plain.partition("/")
    under = under.strip(" ")
    if "/" in under or (slash and not under):
        return None
    bracketed = under.startswith("(") and under.endswith(")")
    found: list[tuple[str, int]] = []
    for side, sign in ((over, 1), (under[1:-1] if bracketed else under, -1)):
        for word in side.split(" "):
            atom = _ATOM.fullmatch(word)
            if atom:
                found.append((atom[1], sign * int(atom[2] or atom[3] or atom[4] or "1")))
            elif word and not (word == "1" and sign == 1):
                return None
    return found or None


def standing(typed: str, asked: str, table: Table) -> tuple[Standing, float]:
    """How a typed unit stands to the unit asked for, and how many of that are in one of it (1 where they can't be compared)."""
    wanted = _measured(asked, table, _symbol) or Measure(1.0, {})
    exact = _measured(typed, table, _symbol)
    if exact and exact.powers == wanted.powers:
        return "known", twelve(exact.size / wanted.size)
    loose = _measured(typed, table, _symbol_in_any_case)
    if loose and loose.powers == wanted.powers:
        return "case", twelve(loose.size / wanted.size)
    return ("other" if exact or loose else "unknown"), 1.0


def _measured(text: str, table: Table, find: Callable[[str, Table], Measure | None]) -> Measure | None:
    """The whole text as one name, else word by word; None where a word is no unit."""
    plain = text.translate(_SPELLINGS).strip(" ")
    named = _named(plain.lower(), table)
    atoms = [(plain, 1)] if named else unit_atoms(text) or []
    size, powers = 1.0, dict[str, int]()
    for word, power in atoms:
        one = named or find(word, table) or _named(word.lower(), table)
        if one is None:
            return None
        size *= one.size**power
        for base, times in one.powers.items():
            powers[base] = powers.get(base, 0) + times * power
    if len(atoms) > 1 and "°C" in powers:  # a temperature in °C is not as many kelvins; in V/°C it is a difference
        powers["K"] = powers.get("K", 0) + powers.pop("°C")
    if not atoms and text.strip(" "):
        return None
    return Measure(size, {base: power for base, power in sorted(powers.items()) if power})


def _symbol(word: str, table: Table) -> Measure | None:
    symbols = table["symbols"]
    if word == "M":
        return _measured("mol/L", table, _symbol)
    if word in symbols:
        return Measure(symbols[word][0], symbols[word][1])
    return _scaled(word[:1], symbols.get(word[1:]))


def _symbol_in_any_case(word: str, table: Table) -> Measure | None:
    """The unit that a word means where its letters were written small or capital; the prefix as written comes first."""
    symbols: Mapping[str, Any] = {symbol.lower(): entry for symbol, entry in table["symbols"].items()}
    if word.lower() in symbols:
        return Measure(*symbols[word.lower()])
    sign, rest = word[:1], symbols.get(word[1:].lower())
    return _scaled(sign, rest) or _scaled(sign.swapcase(), rest)


def _scaled(sign: str, entry: Any) -> Measure | None:
    return Measure(entry[0] * float(f"1e{PREFIXES[sign]}"), entry[1]) if entry and sign in PREFIXES else None


def _named(name: str, table: Table) -> Measure | None:
    """The unit of a name in small letters, with or without a prefix."""
    names: Mapping[str, str] = table["names"]
    if name in names:
        return _symbol(names[name], table)
    for word, sign in table["prefixes"].items():
        if name.startswith(word) and name[len(word) :] in names:
            return _scaled(sign, table["symbols"].get(names[name[len(word) :]]))
    return None


# ------------------------------------------------------------------ other sizes


def other_sizes(asked: str, table: Table) -> Iterator[float]:
    """How many of the unit asked for are in each unit of its kind that has a symbol of its own: hours for seconds."""
    wanted = _measured(asked, table, _symbol) if asked else None
    if wanted is None:
        return
    for size, powers in table["symbols"].values():
        if dict(sorted(powers.items())) == wanted.powers:
            yield twelve(size / wanted.size)
