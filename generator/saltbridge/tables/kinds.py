"""Kinds of elements, ions and species: what the rules of oxidation numbers, phases and electrodes ask of them."""

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

KINDS = ("numbers", "unlike", "open", "alike")
_ATOMS = re.compile(r"([A-Z][a-z]?)\*([1-9]):([+-][0-9])")
_CHARGE = re.compile(r"-?[0-9]")


@dataclass(frozen=True, slots=True)
class ElementKind:
    """An element: whether it is a ``metal``, and its oxidation numbers, None where none is told.

    ``pull`` ranks non-metals, 1 for the strongest pull on electrons; ``only`` is the one number that a metal shows in compounds,
    ``usual`` that of a non-metal beside a weaker one; ``lowest`` and ``highest`` bound what it shows.
    """

    symbol: str
    metal: bool
    pull: int | None
    only: int | None
    usual: int | None
    lowest: int | None
    highest: int | None


@dataclass(frozen=True, slots=True)
class Group:
    """Ions and ligands that stand as a group in a formula, with their charge; ``ends``: also at its end without brackets."""

    group: str
    charge: int
    ends: bool


@dataclass(frozen=True, slots=True)
class OddSpecies:
    """A species for which the rules alone do not tell the oxidation numbers.

    ``numbers``: they are those of ``atoms`` (element, count, number). ``unlike``: the atoms of the element in ``atoms`` differ though
    their mean is whole. ``open``: chemists assign them in more than one way. ``alike``: carbon atoms that are alike.
    """

    species: str
    kind: str
    atoms: tuple[tuple[str, int, int], ...]
    element: str


def read_element_kinds(path: Path) -> Mapping[str, ElementKind]:
    """Read the kinds of the table at ``path`` by symbol; raises ``Faulty`` with every fault."""
    columns = ("symbol", "metal", "pull", "only", "usual", "lowest", "highest", "source")
    return read_table(path, columns, "symbol", _element_kind)


def _element_kind(row: Row) -> ElementKind:
    row.text("source")
    pull, *numbers = (_small(row, column) for column in ("pull", "only", "usual", "lowest", "highest"))
    return ElementKind(row.text("symbol"), row.yes("metal"), pull, *numbers)


def _small(row: Row, column: str) -> int | None:
    text = row.decimal_or_none(column)
    return None if text is None else int(float(text))


def read_groups(path: Path) -> Mapping[str, Group]:
    """Read the groups of the table at ``path``; raises ``Faulty`` with every fault."""
    return read_table(path, ("group", "charge", "ends", "source"), "group", _group)


def _group(row: Row) -> Group:
    if not _CHARGE.fullmatch(row.cells["charge"]):
        row.blame("charge", "a charge such as -2")
    row.text("source")
    return Group(row.text("group"), _small(row, "charge") or 0, row.yes("ends"))


def read_odd_species(path: Path) -> Mapping[str, OddSpecies]:
    """Read the species of the table at ``path``; raises ``Faulty`` with every fault."""
    return read_table(path, ("species", "kind", "atoms", "source"), "species", _odd_species)


def _odd_species(row: Row) -> OddSpecies:
    kind, text = row.one_of("kind", KINDS), row.cells["atoms"]
    shares = [_ATOMS.fullmatch(each) for each in text.split()] if kind == "numbers" else []
    if kind == "numbers" and (not shares or None in shares):
        row.blame("atoms", "element, count and number of each kind of atom, such as C*1:+2 N*1:-3")
    row.text("source")
    atoms = tuple((found[1], int(found[2]), int(found[3])) for found in shares if found)
    return OddSpecies(row.text("species"), kind, atoms, text if kind in {"unlike", "alike"} else "")


def read_phases(path: Path) -> Mapping[str, str]:
    """Read the usual phase of each species of the table at ``path``; raises ``Faulty`` with every fault."""

    def phase(row: Row) -> str:
        row.text("source")
        return row.one_of("phase", ("s", "l", "g", "aq"))

    return read_table(path, ("species", "phase", "source"), "species", phase)


@cache
def element_kinds() -> Mapping[str, ElementKind]:
    """Give the shipped kinds of elements by symbol."""
    return read_element_kinds(shipped("data") / "element_kinds.csv")


@cache
def non_metals() -> frozenset[str]:
    """Elements that do not conduct as an electrode of their own couple (carbon is an inert electrode)."""
    return frozenset(symbol for symbol, kind in element_kinds().items() if not kind.metal)


@cache
def groups() -> Mapping[str, Group]:
    """Give the shipped groups by formula."""
    return read_groups(shipped("data") / "groups.csv")


@cache
def odd_species() -> Mapping[str, OddSpecies]:
    """Give the shipped species whose oxidation numbers need telling."""
    return read_odd_species(shipped("data") / "oxidation_species.csv")


@cache
def usual_phases() -> Mapping[str, str]:
    """Give the phase that a species has where none is written."""
    return read_phases(shipped("data") / "phases.csv")


@cache
def inert_conductors() -> frozenset[str]:
    """Conductors that may stand as an electrode without taking part."""
    return frozenset(
        read_table(shipped("data") / "inert_conductors.csv", ("symbol", "source"), "symbol", lambda row: row.text("source"))
    )
