"""The sea-water series and the tubes of a rusting experiment, each row with its source."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.reading import Row, nearest, read_table
from saltbridge.tables.substances import metals

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_SEA = ("id", "name", "metal", "E_sea/V", "source")
_TUBE = ("id", "set_up", "air", "water", "salt", "source")


@dataclass(frozen=True, slots=True)
class Material:
    """A material in sea water: its potential in V against the calomel electrode; ``metal`` is the symbol it stands for, or ""."""

    id: str
    name: str
    metal: str
    E_sea: str
    source: str


@dataclass(frozen=True, slots=True)
class Tube:
    """Iron in a tube: the set-up in words, and whether air, water and salt reach it."""

    id: str
    set_up: str
    air: bool
    water: bool
    salt: bool
    source: str


def read_seawater(path: Path) -> Mapping[str, Material]:
    """Read the sea-water series at ``path`` by id; raises ``Faulty`` with every fault."""
    return read_table(path, _SEA, "id", _material)


def _material(row: Row) -> Material:
    metal = row.text("metal", may_be_empty=True)
    if metal and metal not in metals():
        row.blame("metal", "the symbol of a metal of metals.csv, or nothing", nearest(metal, metals()))
    return Material(row.text("id"), row.text("name"), metal, row.decimal("E_sea/V"), row.text("source"))


def read_tubes(path: Path) -> Mapping[str, Tube]:
    """Read the tubes at ``path`` by id; raises ``Faulty`` with every fault."""
    return read_table(path, _TUBE, "id", _tube)


def _tube(row: Row) -> Tube:
    return Tube(row.text("id"), row.text("set_up"), row.yes("air"), row.yes("water"), row.yes("salt"), row.text("source"))


@cache
def seawater() -> Mapping[str, Material]:
    """Give the shipped sea-water series by id, lowest potential first as in the file."""
    return read_seawater(shipped("data") / "seawater_series.csv")


@cache
def rust_tubes() -> Mapping[str, Tube]:
    """Give the shipped tubes by id."""
    return read_tubes(shipped("data") / "rust_tubes.csv")
