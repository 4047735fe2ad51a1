"""The units that may be written: symbol, meaning in other units, names. The only place where a unit is said; all else reads it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.reading import Row, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_COLUMNS = ("symbol", "meaning", "one", "many", "source")
_BASE = re.compile(r"\[[a-z]+\]")
_DERIVED = re.compile(r"\d+(?:\.\d+)?(?:e-?\d+)?(?: [A-Za-z]+(?: \*\* \d)?(?: [*/] [A-Za-z]+(?: \*\* \d)?)*)?")


@dataclass(frozen=True, slots=True)
class UnitRow:
    """A unit: ``meaning`` is a base dimension such as ``[mass]``, or a number and units such as ``1000 g * m / s ** 2``."""

    symbol: str
    meaning: str
    one: str
    many: str
    source: str


def read_units(path: Path) -> Mapping[str, UnitRow]:
    """Read the units of the table at ``path`` by symbol; raises ``Faulty`` with every fault."""
    return read_table(path, _COLUMNS, "symbol", _unit)


def _unit(row: Row) -> UnitRow:
    if not (_BASE.fullmatch(row.cells["meaning"]) or _DERIVED.fullmatch(row.cells["meaning"])):
        row.blame("meaning", "a number and units, such as 1 J / C, or a base dimension such as [mass]")
    return UnitRow(*(row.text(column) for column in _COLUMNS))


@cache
def unit_rows() -> Mapping[str, UnitRow]:
    """Give the shipped units by symbol."""
    return read_units(shipped("data") / "units.csv")
