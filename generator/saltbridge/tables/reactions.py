"""Reactions of fuels with oxygen, and the Gibbs energies of formation that lead to their potentials."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from saltbridge.faults import FaultList
from saltbridge.home import shipped
from saltbridge.tables.reading import read_rows

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
    faults = FaultList()
    found = {}
    for row in read_rows(path, ("species", _ENERGY, "element", "source"), "species", faults):
        energy = FormationEnergy(row.text("species"), row.decimal(_ENERGY), row.yes("element"), row.text("source"))
        if energy.element and float(energy.printed) != 0:
            row.blame(_ENERGY, "0 for an element in its usual form")
        found[energy.species] = energy
    faults.stop_if_any()
    return MappingProxyType(found)


def read_reactions(path: Path) -> Mapping[str, Reaction]:
    """Read the reactions of the table at ``path`` by id; raises ``Faulty`` with every fault."""
    faults = FaultList()
    columns = ("id", "name", "equation", "electrons", _HEAT, "source")
    found = {
        row.cells["id"]: Reaction(
            row.text("id"), row.text("name"), row.text("equation"), row.whole("electrons"), row.decimal(_HEAT), row.text("source")
        )
        for row in read_rows(path, columns, "id", faults)
    }
    faults.stop_if_any()
    return MappingProxyType(found)


@cache
def formation_energies() -> Mapping[str, FormationEnergy]:
    """Give the shipped Gibbs energies of formation by substance."""
    return read_formation_energies(shipped("data") / "formation.csv")


@cache
def reactions() -> Mapping[str, Reaction]:
    """Give the shipped reactions by id."""
    return read_reactions(shipped("data") / "reactions.csv")
