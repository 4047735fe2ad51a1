"""A bank's own couples: half-reactions that the shipped table lacks, in ``couples.csv`` beside ``bank.yaml``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from saltbridge.faults import Fault, FaultList
from saltbridge.sigfigs import decimals_of
from saltbridge.tables.potentials import Couple, potentials
from saltbridge.tables.reading import Row, read_rows
from saltbridge.tables.sheets import FARTHEST, Sheet, SheetRow, ordered

FILE = "couples.csv"
COLUMNS = ("id", "half_reaction", "n", "E0/V", "citation")


@dataclass(frozen=True, slots=True)
class OwnCouples:
    """The couples by id, the line of each in the file, and doubts: a potential far from that of the shipped table."""

    couples: Mapping[str, Couple]
    lines: Mapping[str, int]
    warnings: tuple[Fault, ...]


def read_own_couples(path: Path) -> OwnCouples:
    """Read a bank's couples, E° in V at 25 °C. Raises ``Faulty`` with every fault of the file."""
    faults = FaultList()
    couples: dict[str, Couple] = {}
    lines: dict[str, int] = {}
    doubts = FaultList()
    for row in read_rows(path, COLUMNS, "id", faults):
        couple = _couple(row)
        couples[couple.id], lines[couple.id] = couple, row.line
        _doubt(couple, row, doubts)
    faults.stop_if_any()
    return OwnCouples(couples, lines, tuple(doubts.faults))


def _couple(row: Row) -> Couple:
    return Couple(
        id=row.text("id"), half_reaction=row.text("half_reaction"), n=row.whole("n"), E0=row.potential("E0/V"),
        dEdT=None, grade="C", citation=row.text("citation"), spread="0", sources={}, memory={}, dEdT_citation="",
    )  # fmt: skip


def _doubt(couple: Couple, row: Row, doubts: FaultList) -> None:
    """Note a couple that the shipped table has too, at a potential far from ours."""
    ours = potentials().get(couple.id)
    try:
        far = ours is not None and abs(float(couple.E0) - float(ours.E0)) > FARTHEST
    except ValueError:  # not a number: a fault already
        return
    if ours is not None and far:
        doubts.add(
            "far-potential", expected=f"a potential within {FARTHEST} V of ours, {ours.E0} V", found=couple.E0, hint="Look once more.",
            file=row.file, line=row.line, key="E0/V",
        )  # fmt: skip


def with_own_couples(sheet: Sheet, own: Mapping[str, Couple]) -> Sheet:
    """The sheet with a row for each of the bank's couples that it does not print yet, in printed order."""
    printed = {row.couple for row in sheet.rows}
    added = [
        SheetRow(each.id, each.half_reaction, each.E0, decimals_of(each.E0)) for each in own.values() if each.id not in printed
    ]
    return ordered(replace(sheet, rows=(*sheet.rows, *added)), sheet.order) if added else sheet


def temperature_coefficient(couple_id: str) -> str | None:
    """The temperature coefficient of a couple in mV/K, or ``None`` where the table has none, as for a bank's own couples."""
    known = potentials().get(couple_id)
    return known.dEdT if known else None
