"""A set of papers on disk: files by code, check characters, faults of all papers at once."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from paper_specimen import specimen_paper, specimen_sheet
from pdf_reading import text

from saltbridge.deliver.papers import check_character, paper_code, paper_letters, reads_as_code, write_papers
from saltbridge.faults import Faulty
from saltbridge.records import Settings
from saltbridge.words import catalogue

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
NAMES = st.text(ALPHABET, min_size=1, max_size=12)


def _set(letters="AB", **changes):
    return [
        specimen_paper(memorandum=memorandum, code=paper_code("cells3", letter), **changes)
        for letter in letters
        for memorandum in (False, True)
    ]


def _write(folder, papers):
    return write_papers(folder, papers, specimen_sheet(), catalogue(), Settings())


# ------------------------------------------------------------------ codes


def test_the_check_character_agrees_with_an_outside_example():
    """Source: documentation of python-stdnum, module stdnum.iso7064.mod_37_36 (a release identifier of the GRid kind)."""
    assert check_character("A12425GABC1234002") == "M"


def test_the_check_character_of_a_ten_digit_modulus_is_not_used():
    """A letter counts by its place in the alphabet, so codes that differ in one letter differ in their check."""
    assert len({check_character(f"CELLS3{letter}") for letter in ALPHABET}) == 36


@given(NAMES, NAMES, st.data())
def test_any_single_wrong_character_is_found(name, paper, data):
    code = paper_code(name, paper)
    at = data.draw(st.sampled_from([at for at, mark in enumerate(code) if mark != "-"]))
    other = data.draw(st.sampled_from([mark for mark in ALPHABET if mark != code[at]]))
    assert reads_as_code(code)
    assert reads_as_code(code.lower().replace("-", " "))
    assert not reads_as_code(code[:at] + other + code[at + 1 :])


@pytest.mark.parametrize(("name", "paper"), [("", "A"), ("../up", "A"), ("ÄTHER", "A"), ("CELLS", "A/B"), ("CELLS", "")])
def test_a_name_that_can_not_be_a_file_name_everywhere_is_refused(name, paper):
    with pytest.raises(Faulty, match=r"\[paper-code\]"):
        paper_code(name, paper)


@pytest.mark.parametrize(("number", "letters"), [(1, "A"), (26, "Z"), (27, "AA"), (52, "AZ"), (703, "AAA")])
def test_papers_are_lettered_as_columns_are(number, letters):
    assert paper_letters(number) == letters


# ------------------------------------------------------------------ files


def test_papers_memoranda_and_sheet_are_written_by_code(tmp_path):
    written = _write(tmp_path / "out", _set())
    first, second = paper_code("cells3", "A"), paper_code("cells3", "B")
    assert {file.as_posix() for file in written.files} == {
        f"papers/{first}.pdf", f"papers/{second}.pdf", f"memoranda/{first}.pdf", f"memoranda/{second}.pdf",
        "all-papers.pdf", "all-memoranda.pdf", "data-sheet.pdf",
    }  # fmt: skip
    assert all((tmp_path / "out" / file).read_bytes().startswith(b"%PDF") for file in written.files)
    assert second in text((tmp_path / "out" / "papers" / f"{second}.pdf").read_bytes())


def test_no_paper_tells_what_its_memorandum_tells(tmp_path):
    _write(tmp_path / "out", _set())
    for file in [*(tmp_path / "out" / "papers").iterdir(), tmp_path / "out" / "all-papers.pdf"]:
        assert "1.56" not in text(file.read_bytes())
    assert "1.56" in text((tmp_path / "out" / "all-memoranda.pdf").read_bytes())


def test_a_name_that_no_font_draws_is_told_once_for_the_set(tmp_path):
    written = _write(tmp_path / "out", _set("A", student="王", list_number="4"))
    assert [(note.code, note.key) for note in written.notes] == [("undrawable-name", "row 4")]


def test_faults_of_all_papers_are_told_at_once_and_nothing_is_written(tmp_path):
    papers = [replace(paper, student="王") for paper in _set()]
    with pytest.raises(Faulty) as caught:
        _write(tmp_path / "out", papers)
    found = [(fault.code, fault.key) for fault in caught.value.faults]  # a memorandum's, being its paper's, are told once
    assert found == [("undrawable", f"{paper_code('cells3', letter)}: name") for letter in "AB"]
    assert not (tmp_path / "out").exists()


def test_two_papers_of_one_code_are_refused(tmp_path):
    with pytest.raises(Faulty, match=r"\[paper-code-twice\]"):
        _write(tmp_path / "out", [*_set("A"), *_set("A")])


@pytest.mark.parametrize("code", ["CELLS3-B-0", "../../CELLS3-B-4", "", "CELLS3 B 4"])
def test_a_code_that_was_not_made_as_one_is_refused(tmp_path, code):
    with pytest.raises(Faulty, match=r"\[paper-code\]"):
        _write(tmp_path / "out", [specimen_paper(code=code)])


def test_the_same_set_gives_the_same_files(tmp_path):
    for name in ("one", "two"):
        _write(tmp_path / name, _set("A"))
    one, two = ({file.name: file.read_bytes() for file in (tmp_path / name).rglob("*.pdf")} for name in ("one", "two"))
    assert one == two


def test_a_file_holds_at_most_25_copies_and_its_name_tells_how_many_files_there_are(tmp_path):
    letters = [paper_letters(number) for number in range(1, 27)]
    papers = [specimen_paper(code=paper_code("cells3", each), questions=specimen_paper().questions[1:2]) for each in letters]
    written = _write(tmp_path / "out", papers)
    together = sorted(file.name for file in written.files if file.name.startswith("all-"))
    assert together == ["all-papers-1of2.pdf", "all-papers-2of2.pdf"]
    first, second = (text((tmp_path / "out" / name).read_bytes()) for name in together)
    assert [paper.code in first for paper in papers] == [True] * 13 + [False] * 13
    assert [paper.code in second for paper in papers] == [False] * 13 + [True] * 13
