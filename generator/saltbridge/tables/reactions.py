"""Reactions of fuels with oxygen, and the formation data that lead to their energies."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.reading import Row, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_ENERGY = "Gf/(kJ/mol)"
_HEAT = "Hf/(kJ/mol)"
_TERM = re.compile(r"(\d*)(\S+)")


@dataclass(frozen=True, slots=True)
class FormationEnergy:
    """A substance with its phase; standard Gibbs energy (``printed``) and ``enthalpy`` of formation in kJ/mol, zero for an ``element``."""

    species: str
    printed: str
    enthalpy: str
    element: bool
    source: str


@dataclass(frozen=True, slots=True)
class Reaction:
    """A reaction that can drive a cell: its equation and the electrons that it moves.

    ``dG0`` and ``dH0`` are its standard Gibbs energy and enthalpy in kJ/mol, from the formation data, with their decimals.
    """

    id: str
    name: str
    equation: str
    electrons: int
    dG0: str
    dH0: str
    source: str

    def takes(self, formula: str) -> bool:
        """Whether a substance of this formula is used up."""
        return self._times(formula) > 0

    def of_one_mole(self, formula: str, energy: str) -> str:
        """An energy of the reaction for one mole of a substance that it takes; as printed where it takes none."""
        share = Decimal(energy) / (self._times(formula) or 1)
        return str(share.quantize(Decimal(energy)))

    def _times(self, formula: str) -> int:
        used = ((-times, species.partition("(")[0]) for times, species in terms_of(self.equation))
        return next((times for times, each in used if each == formula), 0)


def terms_of(equation: str) -> list[tuple[int, str]]:
    """The species of a printed equation with their coefficients, those that are used up counted below zero."""
    left, _, right = equation.partition(" -> ")
    found = []
    for sign, side in ((-1, left), (1, right)):
        for term in side.split(" + "):
            times, species = _TERM.fullmatch(term).groups()  # type: ignore[union-attr]  # any word fits
            found.append((sign * int(times or 1), species))
    return found


def read_formation_energies(path: Path) -> Mapping[str, FormationEnergy]:
    """Read the substances of the table at ``path``, with their formation data; raises ``Faulty`` with every fault."""
    return read_table(path, ("species", _ENERGY, _HEAT, "element", "source"), "species", _formation_energy)


def _formation_energy(row: Row) -> FormationEnergy:
    element = row.yes("element")
    for column in (_ENERGY, _HEAT) if element else ():
        if float(row.decimal(column)) != 0:
            row.blame(column, "0 for an element in its usual form")
    return FormationEnergy(row.text("species"), row.decimal(_ENERGY), row.decimal(_HEAT), element, row.text("source"))


def read_reactions(path: Path, formation: Mapping[str, FormationEnergy]) -> Mapping[str, Reaction]:
    """Read the reactions of the table at ``path`` by id, each species in ``formation``; raises ``Faulty`` with every fault."""

    def reaction(row: Row) -> Reaction:
        equation = row.text("equation")
        known = [(times, formation[species]) for times, species in terms_of(equation) if species in formation]
        if len(known) < len(terms_of(equation)):
            row.blame("equation", "species that stand in formation.csv")
        gibbs, heat = (
            str(sum(times * Decimal(value) for times, value in values))
            for values in (
                [(times, each.printed) for times, each in known],
                [(times, each.enthalpy) for times, each in known],
            )
        )
        return Reaction(row.text("id"), row.text("name"), equation, row.whole("electrons"), gibbs, heat, row.text("source"))

    return read_table(path, ("id", "name", "equation", "electrons", "source"), "id", reaction)


@cache
def formation_energies() -> Mapping[str, FormationEnergy]:
    """Give the shipped formation data by substance."""
    return read_formation_energies(shipped("data") / "formation.csv")


@cache
def reactions() -> Mapping[str, Reaction]:
    """Give the shipped reactions by id."""
    return read_reactions(shipped("data") / "reactions.csv", formation_energies())
