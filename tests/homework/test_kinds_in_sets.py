"""Every kind of part comes along in a set: its paper, its row in the key, its column in the marking grid, its place in the record."""

from __future__ import annotations

import csv
import io
import shutil
from pathlib import Path

import pytest
from homework.sets_for_tests import PLAN, ROWS, make
from pdf_reading import text

from saltbridge.bank.parts import PART_KINDS, kind_of
from saltbridge.deliver.homework.record import read_record, written

FAMILIES = Path(__file__).parents[1] / "families"
BANKS = {
    "key_points": ("only-an-estimate", "above-the-limit", "a-cell-for-a-use"),
    "cases": ("two-kinds-of-cell", "why-apart"),
    "together": ("grows-and-why", "which-protect", "build-a-cell"),
    "electrolysis": ("plating-table", "products-table"),
    "galvanic": ("roles-table",),
    "corrosion": ("true-of-rust", "scratched-coat"),
    "derivations": ("mass-with-a-wrong-step", "estimate-first", "one-datum-too-many"),
    "notation": ("diagram-of-two-metals", "quotient-of-a-cell", "products-of-a-bath"),
}
"""Banks that hold the kinds of parts which the shipped bank sets for homework seldom, with some of their templates."""


def homework_bank(family, room):
    """A copy of a family's bank with these templates alone, all for homework."""
    source, bank = FAMILIES / family / "bank", room / "bank"
    shutil.copytree(source, bank)
    wanted = BANKS[family]
    for path in bank.glob("*.yaml"):
        lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("use:")]
        if path.stem in wanted:
            path.write_text("\n".join([*lines, "use: [practice, homework]", ""]), "utf-8")
        elif any(line.startswith("parts:") for line in lines):
            path.unlink()
    return bank, wanted


@pytest.mark.parametrize("family", sorted(BANKS))
def test_the_kinds_of_a_family_come_along(family, tmp_path, monkeypatch):
    bank, wanted = homework_bank(family, tmp_path)
    plan = (
        PLAN[: PLAN.index("questions:")] + "solutions: yes\nquestions:\n" + "".join(f"  - template: {each}\n" for each in wanted)
    )
    make(tmp_path, tmp_path / "out", monkeypatch, plan=plan, rows=ROWS[:2], bank=bank)
    raw = (tmp_path / "out" / "record.zip").read_bytes()
    record = read_record(tmp_path / "out" / "record.zip")
    assert written(record) == raw
    key = list(csv.DictReader(io.StringIO((tmp_path / "out" / "key.csv").read_text("utf-8-sig"))))
    assert all(row["answer"] for row in key)
    assert len(key) == sum(len(question.parts) for pairs in record.papers.values() for question, _ in pairs)
    grid = text((tmp_path / "out" / "cells-week-3-11B-marking-grid.pdf").read_bytes())
    memorandum = text((tmp_path / "out" / "cells-week-3-11B-memorandum.pdf").read_bytes())
    for entry in record.entries:
        assert entry.code in grid
        assert entry.code in memorandum


def test_the_banks_together_hold_every_kind(tmp_path):
    from saltbridge.bank.bank import load_bank  # noqa: PLC0415 - beside its use

    found = set()
    for family in BANKS:
        bank, _ = homework_bank(family, tmp_path / family)
        found |= {kind_of(part) for template in load_bank(bank).templates for part in template.parts}
    assert set(PART_KINDS) == found
