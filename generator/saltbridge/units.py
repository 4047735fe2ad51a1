"""Units: reading, converting and printing them. The only file that sees the units library, and only when a factor is new.

A unit is written on one line: ``V``, ``kJ/mol``, ``J/(mol K)``, ``mol dm^-3``, ``kJ·mol⁻¹``, ``A/dm2``. The symbols known
are those of ``data/units.csv``; anything else is a fault that names what could stand there.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Literal, NamedTuple

from saltbridge.document import Inscription, Piece
from saltbridge.faults import Faulty, fault
from saltbridge.tables.substances import constants
from saltbridge.tables.unit_rows import unit_rows

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from pint import UnitRegistry

MINUS = "\N{MINUS SIGN}"
NARROW_SPACE = "\N{NARROW NO-BREAK SPACE}"

Style = Literal["slash", "power"]

_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_SPELLINGS = str.maketrans(
    {
        "µ": "u",
        "μ": "u",
        "\N{GREEK CAPITAL LETTER OMEGA}": "ohm",
        "\N{OHM SIGN}": "ohm",
        "ℓ": "L",
        MINUS: "-",
        "℃": "°C",
        "*": " ",
        "·": " ",
        "⋅": " ",
    }
)
_OTHER_NAMES = {
    "l": "L",
    "ml": "mL",
    "cl": "cL",
    "degC": "°C",
    "°K": "K",
    "sec": "s",
    "a": "y",
    "yr": "y",
    "hr": "h",
    "M": "mol/L",
}
_ATOM = re.compile(r"([A-Za-z°%]+)(?:\^?(-?[1-9]))?", re.ASCII)
_QUANTITY = re.compile(r"([+\-\u2212]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+\-]?\d{1,3})?)[ \u00a0\u2009\u202f]*(\D.*)?", re.ASCII)
_LONGEST = 40  # characters of a unit; the longest used is about ten

Factors = tuple[tuple[str, int], ...]


class Quantity(NamedTuple):
    """A number as printed and its unit in the project's writing; no unit is an empty text."""

    printed: str
    unit: str

    def __str__(self) -> str:
        """The text that draws are hashed by, kept for each quantity."""
        return _hashed_text(self)


@lru_cache(maxsize=8192)
def _hashed_text(quantity: Quantity) -> str:
    return repr(quantity)


# ------------------------------------------------------------------ reading


@lru_cache(maxsize=4096)
def parse_unit(text: str) -> Factors:
    """The symbols of a unit with their powers, in the order written; raises Faulty for a symbol that is not known."""
    if len(text) > _LONGEST:
        raise _unknown(text[:_LONGEST] + "…")
    over, slash, under = text.translate(_SPELLINGS).translate(_SUPERSCRIPTS).strip().partition("/")
    if slash and (not under.strip() or "/" in under):
        raise _unknown(text)
    under = under.strip()
    bracketed = under.startswith("(") and under.endswith(")")
    if not bracketed and len(under.split()) > 1:
        raise fault(
            "unit", expected="brackets round a product after the slash", found=repr(text), hint=f"Write {over}/({under})."
        )
    atoms = _atoms(text, over, 1) + _atoms(text, under[1:-1] if bracketed else under, -1)
    powers: dict[str, int] = {}
    for symbol, power in atoms:
        powers[symbol] = powers.get(symbol, 0) + power
    return tuple((symbol, power) for symbol, power in powers.items() if power)


def _atoms(text: str, side: str, sign: int) -> list[tuple[str, int]]:
    """The symbols on one side of the slash; ``1`` may stand alone above it."""
    found: list[tuple[str, int]] = []
    for word in side.split():
        if word == "1" and sign == 1:
            continue
        match = _ATOM.fullmatch(word)
        if match is None:
            raise _unknown(text)
        name = _OTHER_NAMES.get(match[1], match[1])
        for symbol, power in [("mol", 1), ("L", -1)] if name == "mol/L" else [(name, 1)]:
            if symbol not in unit_rows():
                raise _unknown(text)
            found.append((symbol, power * sign * int(match[2] or 1)))
    return found


def known_units(like: str = "") -> tuple[str, ...]:
    """The symbols of the table; given a unit, the usual units of its dimension."""
    if not like:
        return tuple(unit_rows())
    wanted = _dimension(parse_unit(like))
    usual = (*unit_rows(), *_USUAL_COMPOUNDS)
    return tuple(unit for unit in usual if _dimension(parse_unit(unit)) == wanted)


_USUAL_COMPOUNDS = (
    (
        "m2 dm2 cm2 mm2 m3 dm3 cm3 mol/L mol/dm3 mol/m3 mmol/L mmol/dm3 g/mol kg/mol J/mol kJ/mol J/(mol K) kJ/(mol K) V/K mV/K "
        "A/m2 A/dm2 A/cm2 mA/cm2 C/mol g/L g/dm3 g/cm3 kg/m3 mm/y um/y L/mol dm3/mol m3/mol S/m S/cm Wh/kg kWh/kg kWh/t kJ/g Wh/g Ah/g mAh/g"
    )
    .replace("J/(mol K)", "J/(mol·K)")
    .split()
)


# Units by their names, as a teacher may write them: "5 Volt", "30 mins".
_CALLED = {
    "volt": "V", "millivolt": "mV", "amp": "A", "ampere": "A", "milliamp": "mA", "sec": "s", "second": "s", "minute": "min",
    "min": "min", "hour": "h", "hr": "h", "day": "d", "year": "y", "gram": "g", "kilogram": "kg", "mole": "mol", "joule": "J",
    "kilojoule": "kJ", "coulomb": "C", "ohm": "ohm", "litre": "L", "liter": "L", "kelvin": "K", "celsius": "°C", "percent": "%",
}  # fmt: skip


def _unknown(text: str) -> Exception:
    meant = _CALLED.get(text.strip().lower().removesuffix("s"))
    hint = f"Write the symbol: {meant}." if meant else "Write kJ/mol, J/(mol K) or A/dm2."
    return fault("unit", expected=f"a unit made of {', '.join(unit_rows())}", found=repr(text), hint=hint)


@lru_cache(maxsize=4096)
def parse_quantity(text: str) -> Quantity:
    """A number and its unit, such as ``2.50 A``; the printed digits are kept as written. Raises Faulty for anything else."""
    found = _QUANTITY.fullmatch(text.strip()) if len(text) <= 2 * _LONGEST else None
    if found is None:
        raise fault(
            "quantity", expected="a number with a decimal point and a unit, such as 2.50 A", found=repr(text[: 2 * _LONGEST])
        )
    return Quantity(found[1].replace(MINUS, "-"), unit_text(found[2] or ""))


def quantity_in(text: str) -> Quantity | None:
    """The quantity that a text is; ``None`` for words and for a number with words after it."""
    try:
        return parse_quantity(text)
    except Faulty:
        return None


def unit_text(text: str) -> str:
    """A unit in the project's own writing: ``kJ mol-1`` and ``kJ·mol⁻¹`` both become ``kJ/mol``. Raises Faulty."""
    factors = parse_unit(text)
    over = " ".join(_written(symbol, power) for symbol, power in factors if power > 0)
    under = [_written(symbol, -power) for symbol, power in factors if power < 0]
    if not under:
        return over
    below = under[0] if len(under) == 1 else f"({' '.join(under)})"
    return f"{over or '1'}/{below}"


def _written(symbol: str, power: int) -> str:
    return symbol if power == 1 else f"{symbol}{power}"


# ------------------------------------------------------------------ converting


@cache
def _registry() -> UnitRegistry[Decimal]:
    """The library's registry with our table in it and nothing else, so that no other unit can slip in."""
    import pint  # noqa: PLC0415 - a quarter of a second, wanted only for the first new factor

    lines = [f"{_inner(symbol)} = {_meant(row.meaning)}" for symbol, row in unit_rows().items()]
    registry: UnitRegistry[Decimal] = pint.UnitRegistry(lines, non_int_type=Decimal)
    return registry


def _inner(symbol: str) -> str:
    """A symbol as a name the library accepts."""
    return {"°C": "degree_C", "%": "percent"}.get(symbol, symbol)


def _meant(meaning: str) -> str:
    number, _, unit = meaning.partition(" ")
    return f"{number} * {unit}" if unit else meaning


@lru_cache(maxsize=4096)
def _in_base(factors: Factors) -> tuple[Decimal, str]:
    """Size of a unit in base units, and its dimension as a text."""
    registry = _registry()
    quantity = registry.Quantity(Decimal(1), "dimensionless")
    for symbol, power in factors:
        quantity *= registry.Quantity(Decimal(1), _inner(symbol)) ** power
    base = quantity.to_base_units()
    return Decimal(base.magnitude), str(sorted((str(name), str(power)) for name, power in base.dimensionality.items()))


def _dimension(factors: Factors) -> str:
    return _in_base(factors)[1]


def in_base(unit: str) -> tuple[Decimal, Mapping[str, int]]:
    """Size of a unit in base units, and the powers of those by symbol (g, m, s, A, K, mol); raises Faulty for an unknown unit."""
    quantity = _registry().Quantity(Decimal(1), "dimensionless")
    for symbol, power in parse_unit(unit):
        quantity *= _registry().Quantity(Decimal(1), _inner(symbol)) ** power
    base = quantity.to_base_units()
    return Decimal(base.magnitude), {name: int(str(power)) for name, power in sorted(base.unit_items())}


@lru_cache(maxsize=4096)
def base_powers(unit: str) -> dict[str, Fraction]:
    """The powers of the base dimensions in a unit, empty for a pure number; raises Faulty for an unknown unit."""
    powers: dict[str, Fraction] = {}
    for symbol, power in parse_unit(unit):
        for name, each in _registry().Quantity(Decimal(1), _inner(symbol)).dimensionality.items():
            powers[str(name)] = powers.get(str(name), Fraction(0)) + power * Fraction(str(each))
    return {name: power for name, power in powers.items() if power}


def same_dimension(one: str, other: str) -> bool:
    """Whether two units measure the same kind of quantity; raises Faulty for an unknown unit."""
    return _dimension(parse_unit(one)) == _dimension(parse_unit(other))


@lru_cache(maxsize=4096)
def exact_factor(unit: str, to: str) -> Decimal:
    """How many ``to`` are in one ``unit``, exact where the decimal ends; °C counts as a difference here. Raises Faulty."""
    size, dimension = _in_base(parse_unit(unit))
    other, wanted = _in_base(parse_unit(to))
    if dimension != wanted:
        raise fault("dimension", expected=f"a unit of the same kind as {to}: {', '.join(known_units(to))}", found=unit)
    return (size / other).normalize()


@lru_cache(maxsize=4096)
def factor(unit: str, to: str) -> float:
    """How many ``to`` are in one ``unit``; raises Faulty where they measure different things."""
    return float(exact_factor(unit, to))


@cache
def celsius_zero() -> Decimal:
    """The zero of the Celsius scale in K."""
    return Decimal(constants()["T_zero"].printed)


def convert(value: Decimal | str | float, unit: str, to: str) -> Decimal:
    """A value in another unit, exact where the decimal ends: 25 °C is 298.15 K. Raises Faulty where the kinds differ."""
    number = Decimal(repr(value)) if isinstance(value, float) else Decimal(value)
    source, target = parse_unit(unit), parse_unit(to)
    if source == target:
        return number
    if source == _CELSIUS:
        number += celsius_zero()
    number *= exact_factor(unit, to)
    return number - celsius_zero() if target == _CELSIUS else number


_CELSIUS: Factors = (("°C", 1),)


# ------------------------------------------------------------------ printing


def unit_inscription(unit: str, style: Style = "slash", say: Callable[[str], str] = str) -> Inscription:
    """The unit as it is set, ``kJ/mol`` or ``kJ mol⁻¹``, with its words; ``say`` turns English words into the page's language."""
    return _inscribed(parse_unit(unit), style, say)


@lru_cache(maxsize=2048)
def _inscribed(factors: Factors, style: Style, say: Callable[[str], str]) -> Inscription:
    over = [factor for factor in factors if factor[1] > 0]
    under = [factor for factor in factors if factor[1] < 0]
    if factors in _IN_WORDS:
        return in_words(factors[0][0], say)
    pieces: list[Piece] = []
    if style == "power":
        _set(pieces, over + under)
    else:
        _set(pieces, over)
        if under:
            pieces.append(Piece("base", ("" if over else "1") + ("/(" if len(under) > 1 else "/")))
            _set(pieces, [(symbol, -power) for symbol, power in under])
            pieces += [Piece("base", ")")] if len(under) > 1 else []
    return Inscription("unit", _joined(pieces), _said(over, under, say))


_IN_WORDS: tuple[Factors, ...] = ((("y", 1),),)
"""Alone they are written as words: the SI Brochure has no symbol for the year."""


def in_words(symbol: str, say: Callable[[str], str], *, one: bool = False) -> Inscription:
    """A unit by its name, in the plural or for ``one``."""
    row = unit_rows()[symbol]
    name = say(row.one if one else row.many)
    return Inscription("unit", (Piece("base", name),), name)


def _set(pieces: list[Piece], factors: list[tuple[str, int]]) -> None:
    for place, (symbol, power) in enumerate(factors):
        pieces.append(Piece("base", (NARROW_SPACE if place else "") + _SHOWN.get(symbol, symbol)))
        if power != 1:
            pieces.append(Piece("sup", str(power).replace("-", MINUS)))


_SHOWN = {"ohm": "Ω", "kohm": "kΩ", "mohm": "mΩ"} | {
    symbol: "µ" + symbol[1:] for symbol in ("um", "ug", "uA", "uV", "umol", "uL")
}


def _joined(pieces: list[Piece]) -> tuple[Piece, ...]:
    """Neighbours on the same level as one piece."""
    joined: list[Piece] = []
    for piece in pieces:
        if joined and joined[-1].kind == piece.kind:
            joined[-1] = Piece(piece.kind, joined[-1].text + piece.text)
        else:
            joined.append(piece)
    return tuple(joined)


def _said(over: list[tuple[str, int]], under: list[tuple[str, int]], say: Callable[[str], str]) -> str:
    """The words: the last unit above the line in the plural, those below it in the singular after "per"."""
    words = [_power_said(symbol, power, say, many=place == len(over) - 1) for place, (symbol, power) in enumerate(over)]
    if under:
        words.append(say("per"))
        words += [_power_said(symbol, -power, say, many=False) for symbol, power in under]
    return " ".join(words)


def _power_said(symbol: str, power: int, say: Callable[[str], str], *, many: bool) -> str:
    row = unit_rows()[symbol]
    name = say(row.many if many else row.one)
    match power:
        case 1:
            return name
        case 2:
            return f"{say('square')} {name}"
        case 3:
            return f"{say('cubic')} {name}"
        case _:
            return f"{name} {say('to the')} {power}"


def quantity_inscription(number: Inscription, unit: Inscription | None) -> Inscription:
    """A number and its unit with a thin no-break space between; no space before nothing."""
    if unit is None or not unit.pieces:
        return Inscription("quantity", number.pieces, number.spoken)
    space = Piece("base", NARROW_SPACE)
    return Inscription("quantity", _joined([*number.pieces, space, *unit.pieces]), f"{number.spoken} {unit.spoken}")
