"""Reactions of fuels with oxygen, and the Gibbs energies of formation that lead to their potentials."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.reading import Row, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_ENERGY = "Gf/(kJ/mol)"
_HEAT = "dH0/(kJ/mol)"


@dataclass(frozen=True, slots=True)
class FormationEnergy:
    """A substance with its phase and its standard Gibbs energy of formation as ``printed``, in kJ/mol; zero for an ``element``."""

    species: str
    printed: str
    element: bool
    source: str


@dataclass(frozen=True, slots=True)
class Reaction:
    """A reaction that can drive a cell: its equation, the electrons that it moves, its standard enthalpy in kJ/mol as printed."""

    id: str
    name: str
    equation: str
    electrons: int
    dH0: str
    source: str


def read_formation_energies(path: Path) -> Mapping[str, FormationEnergy]:
    """Read the substances of the table at ``path``; raises ``Faulty`` with every fault."""
    return read_table(path, ("species", _ENERGY, "element", "source"), "species", _formation_energy)


def _formation_energy(row: Row) -> FormationEnergy:
    energy = FormationEnergy(row.text("species"), row.decimal(_ENERGY), row.yes("element"), row.text("source"))
    if energy.element and float(energy.printed) != 0:
        row.blame(_ENERGY, "0 for an element in its usual form")
    return energy


def read_reactions(path: Path) -> Mapping[str, Reaction]:
    """Read the reactions of the table at ``path`` by id; raises ``Faulty`` with every fault."""
    return read_table(path, ("id", "name", "equation", "electrons", _HEAT, "source"), "id", _reaction)


def _reaction(row: Row) -> Reaction:
    return Reaction(
        row.text("id"), row.text("name"), row.text("equation"), row.whole("electrons"), row.decimal(_HEAT), row.text("source")
    )


@cache
def formation_energies() -> Mapping[str, FormationEnergy]:
    """Give the shipped Gibbs energies of formation by substance."""
    return read_formation_energies(shipped("data") / "formation.csv")


@cache
def reactions() -> Mapping[str, Reaction]:
    """Give the shipped reactions by id."""
    return read_reactions(shipped("data") / "reactions.csv")
