"""Redox indicators and the potentials at which they change, each with its source."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.reading import Row, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_COLUMNS = ("name", "potential/V", "source")


@dataclass(frozen=True, slots=True)
class Indicator:
    """An indicator and the potential at which it changes, in V as printed."""

    name: str
    potential: str
    source: str


def read_indicators(path: Path) -> Mapping[str, Indicator]:
    """Read the indicators at ``path`` by name; raises ``Faulty`` with every fault."""
    return read_table(path, _COLUMNS, "name", _indicator)


def _indicator(row: Row) -> Indicator:
    return Indicator(row.text("name"), row.decimal("potential/V"), row.text("source"))


@cache
def indicators() -> Mapping[str, Indicator]:
    """Give the shipped indicators by name."""
    return read_indicators(shipped("data") / "indicators.csv")
