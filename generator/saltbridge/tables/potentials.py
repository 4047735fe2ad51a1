"""The table of standard potentials: half-reactions with the value to ship, its grade, and what each source says."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, cast

from saltbridge.faults import FaultList
from saltbridge.home import shipped
from saltbridge.tables.reading import Row, nearest, read_rows

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

Grade = Literal["A", "B", "C"]

_COLUMNS = (
    "id",
    "half_reaction",
    "n",
    "E0/V",
    "dE0dT/(mV/K)",
    "grade",
    "dE0dT_grade",
    "citation",
    "dE0dT_citation",
    "spread/V",
)
_NOTE = "note"
_SHAPE = re.compile(r"\S.* \+ (?:(?P<n>\d+) )?e- -> \S.*")


@dataclass(frozen=True, slots=True)
class Couple:
    """One half-reaction, written as a reduction, at 25 °C and 1 bar against the standard hydrogen electrode.

    ``E0`` in V and ``dEdT`` in mV/K are printed texts. ``spread`` in V is the difference between the highest and lowest
    source. Grade A: three or more lineages within 0.010 V; B: within 0.020 V or one known outlier; C: usable with
    ``note``. ``sources`` and ``memory`` map a column heading, with its unit, to the text printed there; what is in
    ``memory`` was recalled and not looked up.
    """

    id: str
    half_reaction: str
    n: int
    E0: str
    dEdT: str | None
    grade: Grade
    citation: str
    spread: str
    sources: Mapping[str, str]
    memory: Mapping[str, str]
    dEdT_citation: str = ""
    note: str = ""


def _read_sources(path: Path, faults: FaultList) -> frozenset[str]:
    columns = ("column", "title", "place", "licence", "how")
    return frozenset(
        row.cells["column"] for row in read_rows(path, columns, "column", faults) if all(row.text(name) for name in columns)
    )


def _couple(row: Row, evidence: tuple[str, ...]) -> Couple:
    half, n = row.text("half_reaction"), row.whole("n")
    shape = _SHAPE.fullmatch(half)
    if shape is None:
        row.blame("half_reaction", "a reduction such as Zn^2+(aq) + 2 e- -> Zn(s)")
    elif int(shape["n"] or 1) != n:
        row.blame("n", f"{shape['n'] or 1}, the number of electrons in {half}")
    dEdT = row.decimal_or_none("dE0dT/(mV/K)")
    if (dEdT is None) != (not row.cells["dE0dT_citation"]):
        row.blame("dE0dT_citation", "a source" if dEdT else "an empty cell, as there is no dE0dT")
    if row.cells["dE0dT_grade"] and row.one_of("dE0dT_grade", ("A", "B", "C")) == "C" and dEdT is not None:
        row.blame("dE0dT/(mV/K)", "an empty cell, as the grade is C")
    said = {column: text for column in evidence if (text := row.decimal_or_none(column)) is not None}
    return Couple(
        id=row.text("id"),
        half_reaction=half,
        n=n,
        E0=row.potential("E0/V"),
        dEdT=dEdT,
        grade=cast("Grade", row.one_of("grade", ("A", "B", "C"))),
        citation=row.text("citation"),
        spread=row.decimal("spread/V"),
        sources={column: text for column, text in said.items() if "_from_memory" not in column},
        memory={column: text for column, text in said.items() if "_from_memory" in column},
        dEdT_citation=row.cells["dE0dT_citation"],
        note=row.text(_NOTE, may_be_empty=row.cells["grade"] != "C"),
    )


def read_potentials(folder: Path) -> Mapping[str, Couple]:
    """Read the couples of ``potentials.csv`` in ``folder`` by id, lowest potential first.

    Raises ``Faulty`` with every fault of the table; each evidence column must be described in ``sources.csv``.
    """
    faults = FaultList()
    known = _read_sources(folder / "sources.csv", faults)
    couples: dict[str, Couple] = {}
    for row in read_rows(folder / "potentials.csv", _COLUMNS, "id", faults, others=True):
        evidence = tuple(column for column in row.cells if column not in {*_COLUMNS, _NOTE})
        if not couples:
            for column in sorted(set(evidence) - known):
                row.blame(column, "a column described in sources.csv", code="unknown-column", found=f'"{column}"')
        couple = _couple(row, evidence)
        couples[couple.id] = couple
    faults.stop_if_any()
    return MappingProxyType(dict(sorted(couples.items(), key=lambda item: float(item[1].E0))))


def named_couple(row: Row, column: str, couples: Mapping[str, Couple], *, may_be_empty: bool = False) -> str:
    """The couple that a cell names; notes a fault where ``couples`` has none of that id."""
    couple = row.text(column, may_be_empty=may_be_empty)
    if couple and couple not in couples:
        row.blame(column, "the id of a row in potentials.csv", nearest(couple, couples), code="unknown-couple")
    return couple


@cache
def potentials() -> Mapping[str, Couple]:
    """Give the shipped couples by id, lowest potential first; raises ``Faulty`` where the table is wrong."""
    return read_potentials(shipped("data"))
