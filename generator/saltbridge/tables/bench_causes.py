"""Why a reading of the bench lies off the table: the causes, each with the direction in which it shifts a reading."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.benches import GRADES
from saltbridge.tables.reading import Row, nearest, read_table
from saltbridge.tables.substances import metals

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

SHIFTS = ("up", "down", "towards zero", "either")
MODELS = ("", "salt only", "own ions")


@dataclass(frozen=True, slots=True)
class Cause:
    """A cause: the ``model`` of paper that it holds for ("" both), its metals (none: all), and its shift.

    ``up`` makes a reading against the reference less negative or more positive, ``down`` the reverse, ``towards zero`` smaller, ``either`` any.
    ``alike``: whether it shifts all strips in the same way, so that their order stays.
    """

    id: str
    model: str
    metals: tuple[str, ...]
    shift: str
    alike: bool
    said: str
    size: str
    grade: str
    source: str

    def acts_on(self, metal: str) -> bool:
        """Whether the cause can be at work on a metal's strip."""
        return not self.metals or metal in self.metals

    def shifts(self, read: float) -> int:
        """The direction in which a reading of that sign is shifted, 1 or -1; 0 where it may be either."""
        if self.shift == "either":
            return 0
        return {"up": 1, "down": -1}.get(self.shift, -1 if read > 0 else 1)


def read_causes(path: Path) -> Mapping[str, Cause]:
    """Read the causes of the table at ``path`` by id; raises ``Faulty`` with every fault."""
    return read_table(path, ("id", "model", "metals", "shift", "alike", "said", "size", "grade", "source"), "id", _cause)


def _cause(row: Row) -> Cause:
    symbols = tuple(row.text("metals", may_be_empty=True).split())
    for symbol in symbols:
        if symbol not in metals():
            row.blame("metals", "symbols of metals of metals.csv, blanks between", nearest(symbol, metals()))
    return Cause(
        row.text("id"),
        row.one_of("model", MODELS),
        symbols,
        row.one_of("shift", SHIFTS),
        row.yes("alike"),
        row.text("said"),
        row.text("size"),
        row.one_of("grade", GRADES),
        row.text("source"),
    )


@cache
def bench_causes() -> Mapping[str, Cause]:
    """Give the shipped causes by id."""
    return read_causes(shipped("data") / "bench_causes.csv")
