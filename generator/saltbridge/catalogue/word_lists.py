"""Lists of words that a scenario draws from: metals, couples, batteries and the other tables, each with its code of fault."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from saltbridge import tables
from saltbridge.tables.batteries import batteries, fuels
from saltbridge.tables.bench import reference_electrodes
from saltbridge.tables.corrosion import rust_tubes, seawater
from saltbridge.tables.reactions import reactions


def _without_film() -> tuple[str, ...]:
    return tuple(symbol for symbol, metal in tables.metals().items() if metal.film != "yes")


@dataclass(frozen=True, slots=True)
class WordList:
    """The words, the code of fault for another one, and what was expected."""

    words: Callable[[], Iterable[str]]
    code: str
    expected: str


WORD_LISTS: Mapping[str, WordList] = {
    "metals": WordList(tables.metals, "unknown-metal", "the symbol of a metal"),
    "metals without a film": WordList(_without_film, "R-FILM", "a metal without an oxide film, whose place in the table decides"),
    "couples": WordList(tables.potentials, "unknown-couple", "the id of a couple"),
    "batteries": WordList(batteries, "unknown-battery", "a battery of the table"),
    "fuels": WordList(fuels, "unknown-fuel", "a fuel of the table"),
    "fuels burnt": WordList(reactions, "unknown-fuel", "a fuel of the table"),
    "materials in sea water": WordList(seawater, "unknown-material", "a material of the sea-water series"),
    "rust tubes": WordList(rust_tubes, "unknown-tube", "a tube of the table"),
    "references": WordList(
        lambda: (*reference_electrodes(), *tables.metals()), "unknown-reference", "a reference electrode or the symbol of a metal"
    ),
}
"""The lists by name, as ``one of:`` and ``some of:`` of a scenario name them."""
