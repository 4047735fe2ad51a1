"""A bank whose questions are for practice alone, or too long, makes no paper of nothing, and says so."""

from __future__ import annotations

import pytest

from saltbridge.build import publish

CELL = """\
title: A cell
outcome: T3.4
level: core
use: USE
scenario:
  galvanic cell: {metals: [Zn, Cu, Ag]}
text: A cell of {{ left.metal }} and {{ right.metal }}.
parts:
  - ask: Calculate its standard potential.
    find: E0_cell
    marks: MARKS
"""


@pytest.mark.parametrize(
    ("use", "marks", "papers"), [("practice", 1, 0), ("[practice, homework]", 31, 0), ("[practice, homework]", 1, 8)]
)
def test_papers_are_made_of_questions(tmp_path, use, marks, papers):
    bank = tmp_path / "bank"
    bank.mkdir()
    (bank / "bank.yaml").write_text("format: 1\nid: pier\ntitle: Pier Bank\n", "utf-8")
    (bank / "cell.yaml").write_text(CELL.replace("USE", use).replace("MARKS", str(marks)), "utf-8")
    done = publish(bank, tmp_path / "out", variants=3)
    assert done.papers == papers
    assert [each.code for each in done.warnings if each.code == "no-paper"] == ([] if papers else ["no-paper"])
    assert (done.teacher / "data-sheet.pdf").is_file()
    assert (done.teacher / "all-papers.pdf").is_file() is bool(papers)
