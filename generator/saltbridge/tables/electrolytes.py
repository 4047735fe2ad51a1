"""Salts that may be electrolysed, and the rules of discharge that potentials alone do not tell, each with its source."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from saltbridge.faults import FaultList
from saltbridge.home import shipped
from saltbridge.tables.half_rows import named_half
from saltbridge.tables.potentials import Couple, named_couple, potentials
from saltbridge.tables.reading import Row, read_rows, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_COLUMNS = (
    "formula",
    "name",
    "cation",
    "anion",
    "cation_couple",
    "anion_couple",
    "melt_couple",
    "molten",
    "aqueous",
    "anions",
    "source",
)
_RULE_COLUMNS = ("id", "electrode", "species", "holds", "value", "unit", "source")
RULE_IDS = ("chlorine", "oxygen", "hydrogen overpotential", "oxygen overpotential")


@dataclass(frozen=True, slots=True)
class Electrolyte:
    """A salt or acid: its ions, the couples of both in water, and ``melt_half``, the anion's half-reaction in a melt.

    ``anion_couple`` is "" where water always gives its electrons first; ``anions`` are those of one formula unit.
    """

    formula: str
    name: str
    cation: str
    anion: str
    cation_couple: str
    anion_couple: str
    melt_half: str
    molten: bool
    aqueous: bool
    anions: int
    source: str


@dataclass(frozen=True, slots=True)
class DischargeRule:
    """A rule of discharge: at which ``electrode``, for which ``species``, from or up to which ``value`` as printed.

    One that holds at any concentration has neither value nor unit.
    """

    id: str
    electrode: str
    species: tuple[str, ...]
    holds: str
    value: str
    unit: str
    source: str


def _electrolyte(row: Row, couples: Mapping[str, Couple]) -> Electrolyte:
    molten, aqueous = row.yes("molten"), row.yes("aqueous")
    if not molten and not aqueous:
        row.blame("molten", "yes here or in the column aqueous")
    melt_half = named_half(row, "melt_couple", may_be_empty=not molten).half_reaction
    if melt_half and not molten:
        row.blame("melt_couple", "an empty cell, as the salt is not used as a melt")
    return Electrolyte(
        formula=row.text("formula"),
        name=row.text("name"),
        cation=row.text("cation"),
        anion=row.text("anion"),
        cation_couple=named_couple(row, "cation_couple", couples),
        anion_couple=named_couple(row, "anion_couple", couples, may_be_empty=True),
        melt_half=melt_half,
        molten=molten,
        aqueous=aqueous,
        anions=row.whole("anions"),
        source=row.text("source"),
    )


def read_electrolytes(path: Path, couples: Mapping[str, Couple]) -> Mapping[str, Electrolyte]:
    """Read the salts of the table at ``path`` by formula; raises ``Faulty`` with every fault."""
    return read_table(path, _COLUMNS, "formula", lambda row: _electrolyte(row, couples))


def read_discharge_rules(path: Path) -> Mapping[str, DischargeRule]:
    """Read the rules of discharge at ``path`` by id; raises ``Faulty`` with every fault, a missing rule among them."""
    faults = FaultList()
    found = {}
    for row in read_rows(path, _RULE_COLUMNS, "id", faults):
        holds = row.one_of("holds", ("from", "up to", "holds"))
        limited = holds != "holds"
        if not limited and (row.cells["value"] or row.cells["unit"]):
            row.blame("value", "empty cells for value and unit, as the rule has no limit")
        found[row.one_of("id", RULE_IDS)] = DischargeRule(
            id=row.text("id"),
            electrode=row.one_of("electrode", ("anode", "cathode")),
            species=tuple(row.text("species").split()),
            holds=holds,
            value=row.decimal("value") if limited else "",
            unit=row.text("unit") if limited else "",
            source=row.text("source"),
        )
    for missing in sorted(set(RULE_IDS) - set(found)):
        faults.add("missing-rule", expected=f'a row "{missing}"', found="none", file=path.name)
    faults.stop_if_any()
    return MappingProxyType(found)


@cache
def electrolytes() -> Mapping[str, Electrolyte]:
    """Give the shipped salts by formula."""
    return read_electrolytes(shipped("data") / "electrolytes.csv", potentials())


@cache
def discharge_rules() -> Mapping[str, DischargeRule]:
    """Give the shipped rules of discharge by id."""
    return read_discharge_rules(shipped("data") / "discharge_rules.csv")
