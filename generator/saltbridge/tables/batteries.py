"""Batteries and fuels of fuel cells: half-reactions, printed potentials, formation data, each with its source."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.reading import Row, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_BATTERY = (
    "id",
    "name",
    "kind",
    "negative_half",
    "positive_half",
    "E_negative/V",
    "E_positive/V",
    "nominal/V",
    "note",
    "source",
)
_FUEL = (
    "fuel",
    "name",
    "acid_half",
    "base_half",
    "oxygen_acid",
    "oxygen_base",
    "dG0/(kJ/mol)",
    "dH0/(kJ/mol)",
    "product",
    "source",
)
KINDS = ("primary", "secondary")


@dataclass(frozen=True, slots=True)
class Battery:
    """One kind of cell. Both half-reactions are reductions; ``E_negative`` and ``E_positive`` (V) are "" where none is printed.

    ``note`` tells the convention of the figures, for a student.
    """

    id: str
    name: str
    kind: str
    negative_half: str
    positive_half: str
    E_negative: str
    E_positive: str
    nominal: str
    note: str
    source: str


@dataclass(frozen=True, slots=True)
class Fuel:
    """A fuel: its half-reaction as a reduction in acid and in base, that of oxygen, and kJ/mol for one mole of fuel."""

    fuel: str
    name: str
    acid_half: str
    base_half: str
    oxygen_acid: str
    oxygen_base: str
    dG0: str
    dH0: str
    product: str
    source: str


def _battery(row: Row) -> Battery:
    negative, positive = row.decimal_or_none("E_negative/V"), row.decimal_or_none("E_positive/V")
    if (negative is None) != (positive is None):
        row.blame("E_negative/V", "both potentials, or neither")
    return Battery(
        id=row.text("id"),
        name=row.text("name"),
        kind=row.one_of("kind", KINDS),
        negative_half=row.text("negative_half"),
        positive_half=row.text("positive_half"),
        E_negative=negative or "",
        E_positive=positive or "",
        nominal=row.decimal("nominal/V"),
        note=row.text("note"),
        source=row.text("source"),
    )


def _fuel(row: Row) -> Fuel:
    return Fuel(
        fuel=row.text("fuel"),
        name=row.text("name"),
        acid_half=row.text("acid_half"),
        base_half=row.text("base_half"),
        oxygen_acid=row.text("oxygen_acid"),
        oxygen_base=row.text("oxygen_base"),
        dG0=row.decimal("dG0/(kJ/mol)"),
        dH0=row.decimal("dH0/(kJ/mol)"),
        product=row.text("product"),
        source=row.text("source"),
    )


def read_batteries(path: Path) -> Mapping[str, Battery]:
    """Read the batteries of the table at ``path`` by id; raises ``Faulty`` with every fault."""
    return read_table(path, _BATTERY, "id", _battery)


def read_fuels(path: Path) -> Mapping[str, Fuel]:
    """Read the fuels of the table at ``path`` by formula; raises ``Faulty`` with every fault."""
    return read_table(path, _FUEL, "fuel", _fuel)


@cache
def batteries() -> Mapping[str, Battery]:
    """Give the shipped batteries by id."""
    return read_batteries(shipped("data") / "batteries.csv")


@cache
def fuels() -> Mapping[str, Fuel]:
    """Give the shipped fuels by formula."""
    return read_fuels(shipped("data") / "fuels.csv")
