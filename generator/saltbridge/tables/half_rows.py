"""Half-reactions that other tables name by id: those of potentials.csv, and those of half_reactions.csv that it lacks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.potentials import named_couple, potentials
from saltbridge.tables.reading import Row, nearest, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from saltbridge.tables.potentials import Couple

_COLUMNS = ("id", "half_reaction", "E0/V", "potential_of", "source")


@dataclass(frozen=True, slots=True)
class HalfRow:
    """A half-reaction written as a reduction; ``E0`` in V as printed, "" where no potential is known for it."""

    id: str
    half_reaction: str
    E0: str
    source: str


NOTHING = HalfRow("", "", "", "")
"""What an empty cell names."""


def read_half_rows(path: Path, couples: Mapping[str, Couple]) -> Mapping[str, HalfRow]:
    """Read the half-reactions at ``path`` and add ``couples``, by id; raises ``Faulty`` with every fault."""

    def entry(row: Row) -> HalfRow:
        if row.cells["id"] in couples:
            row.blame("id", "a half-reaction that potentials.csv lacks", code="repeated")
        own, like = row.decimal_or_none("E0/V") or "", named_couple(row, "potential_of", couples, may_be_empty=True)
        if like and own:
            row.blame("E0/V", "an empty cell, as the potential is that of another couple")
        printed = couples[like].E0 if like in couples else own
        return HalfRow(row.text("id"), row.text("half_reaction"), printed, row.text("source"))

    known = {id_: HalfRow(id_, each.half_reaction, each.E0, each.citation) for id_, each in couples.items()}
    return MappingProxyType(known | dict(read_table(path, _COLUMNS, "id", entry)))


def named_half(row: Row, column: str, *, may_be_empty: bool = False) -> HalfRow:
    """The half-reaction that a cell names; notes a fault where there is none of that id."""
    name, known = row.text(column, may_be_empty=may_be_empty), half_rows()
    if name and name not in known:
        row.blame(column, "the id of a row in potentials.csv or half_reactions.csv", nearest(name, known), code="unknown-couple")
    return known.get(name, NOTHING)


@cache
def half_rows() -> Mapping[str, HalfRow]:
    """Give the shipped half-reactions by id."""
    return read_half_rows(shipped("data") / "half_reactions.csv", potentials())
