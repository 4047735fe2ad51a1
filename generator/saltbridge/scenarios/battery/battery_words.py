"""Words of batteries, fuel cells and corrosion told at the command line, such as ``battery = lead-acid`` or ``joined = Fe+Cu``."""

from __future__ import annotations

import re
from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import fault
from saltbridge.graph.laws import Rule, Situation
from saltbridge.scenarios.battery.battery_situation import add_battery, battery_of
from saltbridge.scenarios.battery.fuel_cells import add_efficiencies, add_fuel, fuel_of
from saltbridge.scenarios.corrosion.corrosion_situation import (
    SERIES,
    add_joined,
    told_apart_in_sea,
)
from saltbridge.tables import Sheet

Words = Mapping[str, str]
_PAIR = re.compile(r"\s*([A-Za-z0-9-]+)\s*\+\s*([A-Za-z0-9-]+)\s*")


def add_battery_word(situation: Situation, words: Words, _sheet: Sheet, catalogue: Catalogue) -> None:
    """``battery = lead-acid``: kind, plates, equations, printed potentials and nominal voltage."""
    kind = battery_of(words["battery"])
    add_battery(situation, kind, catalogue)
    if not any(name.split(":")[0] == "E_cell" for name in situation.given):
        source, rule = ("E0_cell", "printed-potential") if kind.E_negative else ("U_nom", "nominal-voltage")
        situation.laws.append(Rule("E_cell", rule, (source,)))


def add_fuel_word(situation: Situation, words: Words, sheet: Sheet, catalogue: Catalogue) -> None:
    """``fuel = H2``, with ``medium = base`` for another cell than that in acid; the working voltage is told as U_term."""
    if {"metal", "gas", "coating"} & set(words):
        raise fault("two-products", expected="a fuel alone", found="another product beside it")
    medium, fuel = words.get("medium", "acid"), fuel_of(words["fuel"])
    add_fuel(situation, fuel, medium, sheet, catalogue)
    if medium == "acid":
        add_efficiencies(situation, fuel, catalogue)


def add_joined_word(situation: Situation, words: Words, sheet: Sheet, _catalogue: Catalogue) -> None:
    """``joined = Fe+Cu``, with ``series = standard``, ``seawater`` or ``both`` for the table that decides.

    Without ``series`` the standard table decides, and the sea-water series is compared with it where it tells the two apart.
    Raises ``Faulty``: ``joined``, ``series``, and what ``add_joined`` does.
    """
    match = _PAIR.fullmatch(words.get("joined", ""))
    if match is None:
        raise fault(
            "joined", expected="two metals with a plus sign", found=words.get("joined", "none"), hint='As "joined = Fe+Cu".'
        )
    series = words.get("series", "standard")
    if series not in (*SERIES, "both"):
        raise fault("series", expected="series = standard, seawater or both", found=series[:40])
    pair = (match[1], match[2])
    add_joined(situation, pair, "both" if "series" not in words and told_apart_in_sea(pair) else series, sheet)
