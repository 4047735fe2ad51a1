"""What each name of a scenario is, in a few words: from its own entry, the parts behind an owner, and the quantities."""

from __future__ import annotations

from saltbridge.catalogue.catalogue_records import Catalogue
from saltbridge.catalogue.entries import Entry
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.tables import metals
from saltbridge.tables.substances import elements

_DIGITS = "0123456789"
MASSES = "A"
"""The owner of relative atomic masses, by the symbols of their elements."""
LETTERS = ("letter", "arrow", "bridge_arrow", "bath_arrow")
OF_FIGURES = (*LETTERS, "part", "carrier", "place", "medium")
"""Parts that a figure adds behind places and letters of its own; the first print a letter."""


def part_of_names(entry: Entry) -> str:
    """What a part behind an owner is; raises ``EntryError`` where that is not said."""
    entry.allow(("is",), ("is",))
    return entry.text("is")


def explain(name: str, entry: ScenarioEntry, catalogue: Catalogue) -> str:
    """What a name of this kind of scenario is (``left.metal``: the half-cell on the left: name of the metal); "" where nothing tells."""
    name = name.split(":", 1)[0]
    own = entry.names.get(name) or _numbered(name, entry)
    if own:
        return own
    owner, point, part = name.rpartition(".")
    if not point:
        return _plain(name, catalogue) or catalogue.parts_of_names.get(name, "")
    if owner == MASSES and part in elements():
        return f"relative atomic mass of {elements()[part].name}"
    of = explain(owner, entry, catalogue) or _metal(owner)
    its = catalogue.parts_of_names.get(part) or _plain(part, catalogue) or entry.names.get(part, "")
    if part in OF_FIGURES:
        return f"{of}: {its}" if of else its
    return f"{of}: {its}" if of and its else ""


def _metal(symbol: str) -> str:
    """A metal that stands by its symbol, as those do that a student may name."""
    known = metals().get(symbol)
    return known.name if known is not None else ""


def _numbered(name: str, entry: ScenarioEntry) -> str:
    """What is said of a stem, for a name with its number (``r2``) or a part with one (``m1.with3``: m.with)."""
    owner, point, part = name.rpartition(".")
    stem = f"{owner.rstrip(_DIGITS)}{point}{part.rstrip(_DIGITS)}"
    return entry.names.get(stem, "") if stem != name else ""


def _plain(name: str, catalogue: Catalogue) -> str:
    """What a quantity, a choice or a fact without an owner is."""
    quantity = catalogue.quantities.get(name)
    if quantity is None and name[-1:].isdigit():
        quantity = catalogue.quantities.get(name.rstrip(_DIGITS))
    if quantity is not None:
        return quantity.name
    return next((fact.name for fact in catalogue.facts.values() if fact.node == name and fact.name), "")
