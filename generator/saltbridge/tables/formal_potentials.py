"""Formal potentials: what a couple has in 1 mol/L of an acid that binds its ions, against the standard hydrogen electrode."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.reading import Row, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_COLUMNS = ("id", "couple", "acid", "E/V", "source")


@dataclass(frozen=True, slots=True)
class FormalPotential:
    """The potential of a couple (by its id) in 1 mol/L of an acid, in V as printed."""

    couple: str
    acid: str
    E: str
    source: str


def read_formal_potentials(path: Path) -> Mapping[tuple[str, str], FormalPotential]:
    """Read the formal potentials at ``path`` by couple and acid; raises ``Faulty`` with every fault."""
    return {(each.couple, each.acid): each for each in read_table(path, _COLUMNS, "id", _formal).values()}


def _formal(row: Row) -> FormalPotential:
    return FormalPotential(row.text("couple"), row.text("acid"), row.potential("E/V"), row.text("source"))


@cache
def formal_potentials() -> Mapping[tuple[str, str], FormalPotential]:
    """Give the shipped formal potentials by couple and acid."""
    return read_formal_potentials(shipped("data") / "formal_potentials.csv")


def acids() -> tuple[str, ...]:
    """The acids of the table, each once."""
    return tuple(dict.fromkeys(acid for _, acid in formal_potentials()))
