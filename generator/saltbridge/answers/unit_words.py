"""Units as students write them: compared by their symbols and powers, never converted here.

A key brings its own table of units with factors (``unit_factors``), so the script needs no units library.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal

from saltbridge.units import exact_factor, known_units, parse_unit, same_dimension

_SPELLINGS = str.maketrans(
    {
        "µ": "u",
        "μ": "u",
        "\N{GREEK CAPITAL LETTER OMEGA}": "ohm",
        "\N{OHM SIGN}": "ohm",
        "℃": "°C",
        "·": " ",
        "⋅": " ",
        "∙": " ",
        "•": " ",
        "*": " ",
    }
)
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_ATOM = re.compile(r"([A-Za-z°%]+)(?:\^?(-?[1-9]))?")
_SAME = {"l": "L", "ml": "mL", "sec": "s", "hr": "h", "yr": "y"}


def unit_key(text: str) -> str | None:
    """The symbols with their powers in alphabetical order, ``J:1 K:-1 mol:-1``; None for a text that can't be a unit."""
    plain = text.translate(_SPELLINGS).translate(_RAISED)
    over, slash, under = plain.partition("/")
    under = under.strip(" ")
    if "/" in under or (slash and not under):
        return None
    bracketed = under.startswith("(") and under.endswith(")")
    below = under[1:-1] if bracketed else under
    powers: dict[str, int] = {}
    for side, sign in ((over, 1), (below, -1)):
        for word in side.split(" "):
            if not word:
                continue
            atom = _ATOM.fullmatch(word)
            if not atom:
                return None
            symbol = _SAME.get(atom[1], atom[1])
            powers[symbol] = powers.get(symbol, 0) + sign * int(atom[2] or "1")
    kept = sorted(f"{symbol}:{power}" for symbol, power in powers.items() if power)
    return " ".join(kept) or None


def find_factor(typed: str, units: Mapping[str, str]) -> tuple[float, bool] | None:
    """The factor of a typed unit in a key's table, and whether its letters have the right case; None where it is not there.

    Letters in another case count only where exactly one unit fits: ``mv`` is mV where there is no MV.
    """
    wanted = unit_key(typed)
    by_key = {unit_key(unit): factor for unit, factor in units.items()}
    if wanted in by_key:
        return float(by_key[wanted]), True
    alike = [factor for key, factor in by_key.items() if key and wanted and key.lower() == wanted.lower()]
    return (float(alike[0]), False) if len(alike) == 1 else None


def unit_factors(unit: str) -> dict[str, str]:
    """A key's table for an asked unit: every usual unit of its kind with the factor to it, in decimal. Raises Faulty.

    Temperatures have no table beyond their own unit, since °C and K differ by more than a factor.
    """
    if not unit:
        return {}
    factors = {unit: "1"}
    if same_dimension(unit, "K"):
        return factors
    for other in known_units(unit):
        factors.setdefault(other, _decimal(other, unit))
    if same_dimension(unit, "mol/L"):
        factors["M"] = _decimal("mol/L", unit)
    for symbol, spelt in (("Ah", "A h"), ("mAh", "mA h"), ("Wh", "W h"), ("kWh", "kW h"), ("C", "A s")):
        if symbol in factors and parse_unit(unit) != parse_unit(spelt):
            factors[spelt] = factors[symbol]
    return factors


def _decimal(unit: str, to: str) -> str:
    """The factor written out; one that does not end is cut where a binary64 can't tell."""
    exact = exact_factor(unit, to)
    return f"{exact:f}" if len(exact.as_tuple().digits) <= 17 else f"{Decimal(repr(float(exact))):f}"
