"""Batteries and fuels of fuel cells: half-reactions, printed potentials, formation data, each with its source."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.half_rows import named_half
from saltbridge.tables.reactions import Reaction, reactions
from saltbridge.tables.reading import Row, nearest, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_BATTERY = (
    "id",
    "name",
    "kind",
    "negative",
    "positive",
    "nominal/V",
    "note",
    "source",
)
_FUEL = (
    "fuel",
    "reaction",
    "acid",
    "base",
    "oxygen_acid",
    "oxygen_base",
    "product",
    "source",
)
KINDS = ("primary", "secondary")


@dataclass(frozen=True, slots=True)
class Battery:
    """One kind of cell. Both half-reactions are reductions; ``E_negative`` and ``E_positive`` (V) are both printed or both "".

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
    negative, positive = named_half(row, "negative"), named_half(row, "positive")
    both = negative.E0 and positive.E0
    return Battery(
        id=row.text("id"),
        name=row.text("name"),
        kind=row.one_of("kind", KINDS),
        negative_half=negative.half_reaction,
        positive_half=positive.half_reaction,
        E_negative=negative.E0 if both else "",
        E_positive=positive.E0 if both else "",
        nominal=row.decimal("nominal/V"),
        note=row.text("note"),
        source=row.text("source"),
    )


def _fuel(row: Row) -> Fuel:
    fuel, reaction = row.text("fuel"), _reaction(row)
    return Fuel(
        fuel=fuel,
        name=reaction.name,
        acid_half=named_half(row, "acid").half_reaction,
        base_half=named_half(row, "base").half_reaction,
        oxygen_acid=named_half(row, "oxygen_acid").half_reaction,
        oxygen_base=named_half(row, "oxygen_base").half_reaction,
        dG0=reaction.of_one_mole(fuel, reaction.dG0),
        dH0=reaction.of_one_mole(fuel, reaction.dH0),
        product=row.text("product"),
        source=row.text("source"),
    )


def _reaction(row: Row) -> Reaction:
    name, known = row.text("reaction"), reactions()
    if name not in known or not known[name].takes(row.cells["fuel"]):
        row.blame("reaction", "the id of a row in reactions.csv that takes this fuel", nearest(name, known))
    return known.get(name, next(iter(known.values())))


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
