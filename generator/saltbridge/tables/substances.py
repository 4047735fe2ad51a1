"""Elements, metals for electrodes, and constants."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.potentials import Couple, named_couple, potentials
from saltbridge.tables.reading import Row, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Element:
    """An element with a standard atomic weight; ``weight`` is the abridged value as printed, relative to 12C = 12."""

    symbol: str
    name: str
    atomic_number: int
    weight: str
    source: str


@dataclass(frozen=True, slots=True)
class Constant:
    """A constant as printed, with its unit such as ``J/(mol K)``."""

    symbol: str
    printed: str
    unit: str
    name: str
    source: str


FILMS = ("no", "slight", "yes")


@dataclass(frozen=True, slots=True)
class Metal:
    """A metal that can stand in a cell, its usual ion, and the salt that brings the ion; density in g/cm³.

    ``needs_acid``: a solution of the salt is acidified to keep its ion. ``film``: whether an oxide film covers the metal,
    ``slight`` where it leaves the metal its place in a table; ``reads_low``: an electrode of it reads far too low. ``needs_enabling``: not offered unless the teacher asks for it.
    """

    symbol: str
    name: str
    ion: str
    couple: str
    salt: str
    salt_formula: str
    needs_acid: bool
    water_reactive: bool
    film: str
    reads_low: bool
    toxic: bool
    needs_enabling: bool
    density: str
    note: str
    source: str


def read_elements(path: Path) -> Mapping[str, Element]:
    """Read the elements of the table at ``path`` by symbol, lightest first; raises ``Faulty`` with every fault."""
    columns = ("symbol", "name", "atomic_number", "standard_atomic_weight", "source")
    found = read_table(path, columns, "symbol", _element)
    return MappingProxyType(dict(sorted(found.items(), key=lambda item: item[1].atomic_number)))


def _element(row: Row) -> Element:
    return Element(
        row.text("symbol"),
        row.text("name"),
        row.whole("atomic_number"),
        row.decimal("standard_atomic_weight"),
        row.text("source"),
    )


def read_constants(path: Path) -> Mapping[str, Constant]:
    """Read the constants of the table at ``path`` by symbol; raises ``Faulty`` with every fault."""
    return read_table(path, ("symbol", "name", "value", "unit", "source"), "symbol", _constant)


def _constant(row: Row) -> Constant:
    return Constant(row.text("symbol"), row.number("value"), row.text("unit"), row.text("name"), row.text("source"))


_METAL_COLUMNS = (
    "symbol",
    "name",
    "ion",
    "couple",
    "salt",
    "salt_formula",
    "needs_acid",
    "water_reactive",
    "film",
    "reads_low",
    "toxic",
    "needs_enabling",
    "density/(g/cm3)",
    "note",
    "source",
)


def read_metals(path: Path, couples: Mapping[str, Couple]) -> Mapping[str, Metal]:
    """Read the metals of the table at ``path`` by symbol, each with a row in ``couples``; raises ``Faulty`` with every fault."""

    def metal(row: Row) -> Metal:
        return Metal(
            symbol=row.text("symbol"),
            name=row.text("name"),
            ion=row.text("ion"),
            couple=named_couple(row, "couple", couples),
            salt=row.text("salt"),
            salt_formula=row.text("salt_formula"),
            needs_acid=row.yes("needs_acid"),
            water_reactive=row.yes("water_reactive"),
            film=row.one_of("film", FILMS),
            reads_low=row.yes("reads_low"),
            toxic=row.yes("toxic"),
            needs_enabling=row.yes("needs_enabling"),
            density=row.decimal("density/(g/cm3)"),
            note=row.text("note", may_be_empty=True),
            source=row.text("source"),
        )

    return read_table(path, _METAL_COLUMNS, "symbol", metal)


@cache
def elements() -> Mapping[str, Element]:
    """Give the shipped elements by symbol: abridged standard atomic weights 2021, hydrogen to uranium where defined."""
    return read_elements(shipped("data") / "elements.csv")


@cache
def constants() -> Mapping[str, Constant]:
    """Give the shipped constants by symbol, all exact."""
    return read_constants(shipped("data") / "constants.csv")


@cache
def constant(symbol: str) -> float:
    """Give a shipped constant as a number, in its unit."""
    return float(constants()[symbol].printed)


@cache
def metals() -> Mapping[str, Metal]:
    """Give the shipped metals by symbol."""
    return read_metals(shipped("data") / "metals.csv", potentials())
