"""Tables of the bench: reference electrodes, bands of salt-only readings, salts for a bridge and what they bring down, safety lines."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.potentials import named_couple, potentials
from saltbridge.tables.reading import Row, nearest, read_table
from saltbridge.tables.substances import metals

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

MILLIVOLT = Decimal("0.001")
GRADES = ("opened", "mixed", "memory", "definition")
"""How well a figure is founded: read at its source, partly so, from memory, or true by definition."""


@dataclass(frozen=True, slots=True)
class ReferenceElectrode:
    """A reference electrode with its ``filling``; ``E`` as printed, V against the standard hydrogen electrode at 25 °C.

    At activity 1 it has the standard potential of its couple, to the millivolt.
    """

    id: str
    name: str
    filling: str
    E: str
    grade: str
    source: str


@dataclass(frozen=True, slots=True)
class Band:
    """Readings of a strip on paper with salt only, V against copper: ``low`` to ``high``, ``typical`` and its ``scatter``.

    ``reliable`` is false where the metal can't be told from its neighbours, so that it must not be ranked.
    """

    symbol: str
    low: str
    high: str
    typical: str
    scatter: str
    reliable: bool
    grade: str
    source: str


@dataclass(frozen=True, slots=True)
class Anion:
    """An anion and the solid that it makes with each cation that it brings down, or nearly."""

    anion: str
    name: str
    solids: Mapping[str, str]
    source: str


@dataclass(frozen=True, slots=True)
class BridgeSalt:
    """A salt that may fill a bridge, by formula, with its anion; a ``precipitant`` is the one usual for bringing ions down."""

    formula: str
    name: str
    anion: str
    precipitant: bool
    source: str


@dataclass(frozen=True, slots=True)
class SafetyLine:
    """A line of the safety block; ``about`` is the metal that it is for, "" for all."""

    id: str
    about: str
    line: str
    grade: str
    source: str


def read_reference_electrodes(path: Path) -> Mapping[str, ReferenceElectrode]:
    """Read the reference electrodes of the table at ``path`` by id; raises ``Faulty`` with every fault."""
    return read_table(path, ("id", "name", "filling", "couple", "E/V", "grade", "source"), "id", _reference_electrode)


def _reference_electrode(row: Row) -> ReferenceElectrode:
    couple = named_couple(row, "couple", potentials(), may_be_empty=True)
    if couple and row.cells["E/V"]:
        row.blame("E/V", "an empty cell, as the potential is that of the couple")
    standard = potentials().get(couple)
    return ReferenceElectrode(
        row.text("id"),
        row.text("name"),
        row.text("filling"),
        row.decimal("E/V") if standard is None else str(Decimal(standard.E0).quantize(MILLIVOLT)),
        row.one_of("grade", GRADES),
        row.text("source"),
    )


_BAND_COLUMNS = ("symbol", "low/V", "high/V", "typical/V", "scatter/V", "reliable", "grade", "source")


def read_bands(path: Path) -> Mapping[str, Band]:
    """Read the bands of the table at ``path`` by metal; raises ``Faulty`` with every fault, an upside-down band among them."""
    return read_table(path, _BAND_COLUMNS, "symbol", _band)


def _band(row: Row) -> Band:
    if row.cells["symbol"] not in metals():
        row.blame("symbol", "the symbol of a metal of metals.csv", nearest(row.cells["symbol"], metals()))
    low, high, typical, scatter = (row.decimal(column) for column in _BAND_COLUMNS[1:5])
    if not float(low) <= float(typical) <= float(high):
        row.blame("typical/V", f"a value from {low} to {high}")
    if float(scatter) < 0:
        row.blame("scatter/V", "a value not below zero")
    return Band(
        row.text("symbol"),
        low,
        high,
        typical,
        scatter,
        row.yes("reliable"),
        row.one_of("grade", GRADES),
        row.text("source"),
    )


def read_anions(path: Path) -> Mapping[str, Anion]:
    """Read what each anion brings down from the table at ``path``; raises ``Faulty`` with every fault."""
    return read_table(path, ("anion", "name", "solids", "source"), "anion", _anion)


def _anion(row: Row) -> Anion:
    words = row.text("solids", may_be_empty=True).split()
    if len(words) % 2:
        row.blame("solids", "each cation with its solid after it, as Ag^+ AgCl")
    return Anion(row.text("anion"), row.text("name"), dict(zip(words[::2], words[1::2], strict=False)), row.text("source"))


def read_bridge_salts(path: Path, anions: Mapping[str, Anion]) -> Mapping[str, BridgeSalt]:
    """Read the salts for a bridge from the table at ``path`` by formula, each with an anion of ``anions``; raises ``Faulty``."""

    def salt(row: Row) -> BridgeSalt:
        if row.cells["anion"] not in anions:
            row.blame("anion", "an anion of solubility.csv", nearest(row.cells["anion"], anions), code="unknown-anion")
        return BridgeSalt(row.text("formula"), row.text("name"), row.text("anion"), row.yes("precipitant"), row.text("source"))

    return read_table(path, ("formula", "name", "anion", "precipitant", "source"), "formula", salt)


def read_safety(path: Path) -> Mapping[str, SafetyLine]:
    """Read the lines of the safety block at ``path`` by id; raises ``Faulty`` with every fault."""
    return read_table(path, ("id", "about", "line", "grade", "source"), "id", _safety_line)


def _safety_line(row: Row) -> SafetyLine:
    return SafetyLine(
        row.text("id"),
        row.text("about", may_be_empty=True),
        row.text("line"),
        row.one_of("grade", GRADES),
        row.text("source"),
    )


@cache
def reference_electrodes() -> Mapping[str, ReferenceElectrode]:
    """Give the shipped reference electrodes by id."""
    return read_reference_electrodes(shipped("data") / "reference_electrodes.csv")


@cache
def bands() -> Mapping[str, Band]:
    """Give the shipped bands of salt-only readings by metal."""
    return read_bands(shipped("data") / "bench_bands.csv")


@cache
def anions() -> Mapping[str, Anion]:
    """Give the shipped anions of the solubility table."""
    return read_anions(shipped("data") / "solubility.csv")


@cache
def bridge_salts() -> Mapping[str, BridgeSalt]:
    """Give the shipped salts for a bridge by formula."""
    return read_bridge_salts(shipped("data") / "bridge_salts.csv", anions())


@cache
def safety() -> Mapping[str, SafetyLine]:
    """Give the shipped lines of the safety block by id."""
    return read_safety(shipped("data") / "safety_bench.csv")


@cache
def cautions() -> Mapping[str, SafetyLine]:
    """Give what is said where hands are at work, by the kind of scenario; a kind that has no line is for thought alone."""
    return read_safety(shipped("data") / "cautions.csv")
