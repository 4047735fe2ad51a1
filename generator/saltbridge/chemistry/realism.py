"""Realism rules: what makes a drawn question one that a laboratory could hold and a class could answer.

A rule looks at the plain facts of a draw and gives None, or a sentence why the draw is turned down. A rule whose facts
are not told has nothing to say. The limits are common practice in teaching, no source; the precipitates are those of
solubility.csv.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from types import MappingProxyType
from typing import TYPE_CHECKING

from saltbridge import tables
from saltbridge.chemistry import bath_realism as bath
from saltbridge.tables.benches import anions

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from saltbridge.chemistry.realism_facts import Facts


@dataclass(frozen=True, slots=True)
class Rule:
    """A named rule, the sentence that explains it to a teacher, and its check: None, or why a draw is turned down.

    ``looks_at`` are quantities that it reads from ``Facts.values`` and that are worked out for it where they can be.
    """

    code: str
    sentence: str
    check: Callable[[Facts], str | None]
    looks_at: tuple[str, ...] = ()


LOWEST_POTENTIAL = 0.10
LOWEST_BENCH_POTENTIAL = 0.20
CONCENTRATIONS = (1e-4, 2.0)
CURRENTS = (0.05, 2.0)
TIMES = (300.0, 3600.0)
LOWEST_MASS = 0.010
CELL_RESISTANCES = ((0.1, 2.0), (500.0, 5000.0))  # ohm

CLOSEST_COUPLES = 0.025  # V


def solids_of(anion: str) -> Mapping[str, str]:
    """The solid that an anion makes with each cation that it brings down, by the solubility table (``Ag^+``: ``AgCl``)."""
    known = anions().get(anion)
    return known.solids if known else {}


def insoluble(anion: str) -> frozenset[str]:
    """Cations that an anion brings down, or nearly, by the solubility table; none for an anion that it lacks."""
    return frozenset(solids_of(anion))


@lru_cache(maxsize=1024)
def anion_of(salt: str) -> str:
    """Tell the anion of a salt's formula among those that bring down a cation (``SO4`` for CuSO4), else nothing."""
    named = "|".join(name for name, each in anions().items() if each.solids)
    found = re.search(rf"({named})\)?[0-9]*$", salt.partition("·")[0])
    return found[1] if found else ""


def _water(facts: Facts) -> str | None:
    known = tables.metals()
    for symbol in facts.metals:
        if symbol in known and known[symbol].water_reactive:
            return f"{known[symbol].name} reacts with water and can't be an electrode in a solution"
        if symbol in known and known[symbol].reads_low and facts.own_ions and not facts.film_noted:
            return f"{known[symbol].name} needs a note in the question: {known[symbol].note}"
    return None


def _emf(facts: Facts) -> str | None:
    least = LOWEST_BENCH_POTENTIAL if facts.bench else LOWEST_POTENTIAL
    for name, value in (("the standard cell potential", facts.E0), ("the cell potential", facts.E)):
        if value is not None and abs(value) < least - 1e-9:
            return f"{name} of {value:.3f} V is below {least:.2f} V"
    return None


def _close(facts: Facts) -> str | None:
    known, couples = tables.metals(), tables.potentials()
    for one, other in combinations([known[symbol] for symbol in facts.metals if symbol in known], 2):
        if one is not other and abs(float(couples[one.couple].E0) - float(couples[other.couple].E0)) < CLOSEST_COUPLES:
            return f"{one.name} and {other.name} lie so close that published tables differ on their order"
    return None


def _salt(facts: Facts) -> str | None:
    known = tables.metals()
    for symbol in facts.metals if facts.bench and facts.own_ions and not facts.acid_noted else ():
        if symbol in known and known[symbol].needs_acid:
            return f"a solution of {known[symbol].salt} must be acidified to keep its ion, and the text has to say so"
    return None


def _bridge(facts: Facts) -> str | None:
    known = tables.metals()
    for ion in (known[symbol].ion for symbol in facts.metals if symbol in known and facts.bridge):
        if ion in insoluble(anion_of(facts.bridge or "")):
            return f"a bridge with {facts.bridge} makes a precipitate with {ion}; use KNO3"
    return None


def _concentrations(facts: Facts) -> str | None:
    low, high = CONCENTRATIONS
    for value in facts.concentrations:
        if not low * (1 - 1e-9) <= value <= high * (1 + 1e-9):
            return f"a concentration of {value:g} mol/L is outside {low:g} to {high:g} mol/L"
    return None


def _sign(facts: Facts) -> str | None:
    if facts.E0 is None or facts.E is None or facts.E0 * facts.E > 0:
        return None
    return f"the concentrations turn the cell round: {facts.E0:+.3f} V at standard conditions, {facts.E:+.3f} V here"


def _electrons(facts: Facts) -> str | None:
    return "one electron only: forgetting n could not be seen in the answer" if facts.n == 1 else None


def _lab(facts: Facts) -> str | None:
    ranges = (("current", facts.current, CURRENTS, 1.0, "A"), ("time", facts.time, TIMES, 60.0, "min"))
    for name, value, (low, high), unit, symbol in ranges:
        if value is not None and not low * (1 - 1e-9) <= value <= high * (1 + 1e-9):
            return f"a {name} of {value / unit:g} {symbol} is outside {low / unit:g} to {high / unit:g} {symbol}"
    if facts.mass is not None and facts.mass < LOWEST_MASS * (1 - 1e-9):
        return f"a mass of {facts.mass:.4f} g is below {LOWEST_MASS:.3f} g and can't be weighed at school"
    return None


def _poison(facts: Facts) -> str | None:
    known = tables.metals()
    for symbol in facts.metals if facts.bench else ():
        if symbol in known and known[symbol].needs_enabling and symbol not in facts.enabled:
            return f"{known[symbol].name} is not for the bench unless the teacher enables it"
    return None


def _safe(facts: Facts) -> str | None:
    if not facts.practical or facts.told is None or any(name == "caution" or name.startswith("safety.") for name in facts.told):
        return None
    return "a practical without the safety block in its text; put {{ caution }} there"


def _internal(facts: Facts) -> str | None:
    resistance = facts.cell_resistance
    if resistance is not None and not any(low <= resistance <= high for low, high in CELL_RESISTANCES):
        return f"an internal resistance of {resistance:g} ohm is neither that of a bought cell (0.1 to 2 ohm) nor of a paper or fruit cell (500 to 5000 ohm)"
    return None


TITRES = (10.0, 30.0)
NEAR_EQUIVALENCE = 0.02


def _titre(facts: Facts) -> str | None:
    low, high = TITRES
    if facts.titre is not None and not low <= facts.titre <= high:
        return f"a titre of {facts.titre:.2f} cm3 is outside {low:g} to {high:g} cm3"
    return None


def _near_equivalence(facts: Facts) -> str | None:
    for share in facts.fractions:
        if abs(share - 1) < NEAR_EQUIVALENCE or share <= NEAR_EQUIVALENCE:
            return f"{share:.1%} of the titre is too near the start or equivalence, where the simple equation fails"
    return None


RULES: Mapping[str, Rule] = MappingProxyType(
    {
        rule.code: rule
        for rule in (
            Rule("R-WATER", "No metal that reacts with water; magnesium and aluminium only with a note on their film.", _water),
            Rule("R-EMF", "At least 0.10 V between the electrodes, 0.20 V on the bench: less reads as a mistake.", _emf),
            Rule("R-CLOSE", "Never two metals within 0.025 V, such as tin and lead, where their order matters.", _close),
            Rule("R-SALT", "No solution on the bench that must be acidified to keep its ion.", _salt),
            Rule("R-BRIDGE", "The salt of the bridge makes no precipitate with the ions of the cell.", _bridge),
            Rule("R-CONC", "Concentrations from 0.0001 to 2 mol/L, where they may stand in for activities.", _concentrations),
            Rule("R-SIGN", "Concentrations do not turn the cell round unless that is the point.", _sign),
            Rule("R-N", "More than one electron passes, so that forgetting n shows.", _electrons),
            Rule("R-LAB", "Bench electrolysis: 0.05 to 2 A for 5 to 60 minutes, and at least 0.010 g to weigh.", _lab),
            Rule("R-SAFE", "A practical prints the safety block.", _safe),
            Rule("R-INT", "Internal resistances as cells really have them.", _internal),
            Rule("R-TITRE", "A titre of 10 to 30 cm³: less reads badly, more empties the burette.", _titre),
            Rule("R-POINT", "No point of a titration curve within 2 % of equivalence or of the start.", _near_equivalence),
            Rule("R-TOX", "Toxic metals stay off the bench unless the teacher enables them.", _poison),
            Rule("R-STATE", "Molten or in water, inert or active electrodes: always given.", bath.state),
            Rule(
                "R-CL", "Chloride at 1 mol/L and more, or at 0.01 mol/L and less; nothing between.", bath.chloride, ("c_halide",)
            ),
            Rule(
                "R-SUPPLY",
                "No more than 60 % of the bath is used up, unless the anode renews it.",
                bath.supply,
                ("n_B", "n_bath"),
            ),
            Rule("R-PLATE", "Coats of 1 to 50 µm, at 0.5 to 10 A/dm2.", bath.plate, ("thickness", "j_plate")),
            Rule(
                "R-PLANT",
                "In a plant: kiloamperes, hours, and 85 to 98 % current efficiency.",
                bath.plant,
                ("I", "t", "efficiency"),
            ),
            Rule("R-GAS", "Gases at 10 to 500 kPa and 15 to 35 °C.", bath.gas, ("p_gas", "T")),
        )
    }
)
"""The rules by code."""


def rejections(codes: tuple[str, ...], facts: Facts) -> tuple[tuple[str, str], ...]:
    """List (code, sentence) of the named rules that turn the draw down."""
    told = ((code, RULES[code].check(facts)) for code in codes)
    return tuple((code, sentence) for code, sentence in told if sentence)
