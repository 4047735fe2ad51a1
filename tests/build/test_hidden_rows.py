"""`hide row: true`: the papers' data sheet leaves out what is asked for, unless another question of the paper reads it."""

from __future__ import annotations

from pathlib import Path

from saltbridge.bank.bank import load_bank
from saltbridge.build import hidden_of_papers, publish
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.printing import Printer
from saltbridge.compose.sheet_lines import sheet_page

BANK = "format: 1\nid: pier\ntitle: Pier Bank\n"
STRIP = """\
title: A strip without a label
outcome: T3.5
level: core
use: homework
scenario:
  galvanic cell: {metals: [Ni, Cu]}
given: [E0_cell]
hide row: true
text: The cell of a strip and {{ cathode.metal }} has {{ E0_cell }}. The strip is the anode.
parts:
  - ask: Calculate the standard potential of its couple.
    find: E0_anode
"""
OTHER = """\
title: Another cell
outcome: T3.4
level: core
use: homework
scenario:
  galvanic cell: {metals: [METAL, Ag]}
text: A cell of {{ left.metal }} and {{ right.metal }}.
parts:
  - ask: Calculate its standard potential.
    find: E0_cell
"""


def _bank(folder: Path, metal: str):
    for name, text in (("bank", BANK), ("strip", STRIP), ("other", OTHER.replace("METAL", metal))):
        (folder / f"{name}.yaml").write_text(text, "utf-8")
    return load_bank(folder)


def test_the_row_asked_for_is_left_out_of_the_papers_sheet(tmp_path):
    bank = _bank(tmp_path, "Zn")
    hidden, notes = hidden_of_papers(bank)
    assert (hidden, notes) == (frozenset({"Ni2+/Ni"}), ())
    page = sheet_page(bank.sheet, Printer(bank.settings, catalogue()), hidden)
    printed = [row.couple.plain for row in page.rows]
    assert "Ni2+/Ni" not in printed
    assert {"Cu2+/Cu", "Zn2+/Zn", "Ag+/Ag"} <= set(printed)


def test_a_row_that_another_question_reads_stays_and_is_told(tmp_path):
    hidden, notes = hidden_of_papers(_bank(tmp_path, "Ni"))
    assert hidden == frozenset()
    assert [str(each) for each in notes] == [
        (
            "strip.yaml:8: hide row: expected no other question that reads Ni2+/Ni; found other. "
            "Take one of the two questions out of `homework`. [row-needed]"
        )
    ]


def test_publish_tells_it_too_and_the_site_has_the_whole_sheet(tmp_path):
    (tmp_path / "bank").mkdir()
    _bank(tmp_path / "bank", "Ni")
    done = publish(tmp_path / "bank", tmp_path / "out", variants=1)
    assert [each.code for each in done.warnings] == ["row-needed"]
    assert "Ni" in (done.site / "sheet.html").read_text("utf-8")
