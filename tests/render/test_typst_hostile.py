"""Names, titles and texts of other people: printed as text or named as a fault, never markup, never a traceback."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from paper_specimen import galvanic_question, galvanic_variant, specimen_paper
from pdf_reading import opened, text

from saltbridge.document import Paragraph, Text
from saltbridge.faults import Faulty
from saltbridge.records import Settings
from saltbridge.render.typst import PaperWriter
from saltbridge.words import catalogue

MARKUP = [
    '#sys.inputs "quoted" \\ back', '#image("/etc/passwd")', "*bold* _under_ `raw` $x^2$", "= heading", "// gone", "/* gone */ @ref <label>",
    "#pagebreak() ] [ ) ( } {", "~ -- --- ... 'single'", "\\u{41} \\n", "</svg><script>alert(1)</script>", "{{ 7*7 }} {% if x %}",
]  # fmt: skip


@pytest.fixture(scope="module")
def writer():
    return PaperWriter(Settings(), catalogue())


@pytest.mark.parametrize("words", MARKUP)
def test_markup_in_a_name_title_or_question_is_printed_as_it_stands(writer, words):
    question = replace(galvanic_question(), title=words, blocks=(Paragraph((Text(words),)),))
    paper = specimen_paper(student=words, title=words, footer=words, questions=((question, galvanic_variant()),))
    pdf = writer.paper(paper).pdf
    assert " ".join(text(pdf).split()).count(" ".join(words.split())) >= 4
    with opened(pdf) as file, file.open_metadata() as about:
        assert words in about["dc:title"]


@pytest.mark.parametrize("name", ["Zoë Łukasz-Ñandú", "Анна Петрова", "Ελένη", "Đặng Thị Hạnh", "دانية", "דנה", "राम"])
def test_names_in_letters_that_the_fonts_have_are_printed(writer, name):
    printed = writer.paper(specimen_paper(student=name, list_number="12"))
    assert printed.notes == ()


@pytest.mark.parametrize(("name", "mark"), [("王小明", "王"), ("Ada 🧪", "🧪"), ("サクラ", "サ")])
def test_a_name_that_no_font_draws_gives_way_to_the_list_number_and_a_note_names_its_row(writer, name, mark):
    printed = writer.paper(specimen_paper(student=name, list_number="12"))
    assert "Name: 12 " in " ".join(text(printed.pdf).split())
    (note,) = printed.notes
    assert (note.code, note.key) == ("undrawable-name", "row 12")
    assert f"{mark} (U+{ord(mark):04X})" in note.found


def test_a_name_that_no_font_draws_without_a_list_number_is_a_fault(writer):
    with pytest.raises(Faulty, match=r"CELLS3-B-7: name: .*王 \(U\+738B\).*\[undrawable\]") as caught:
        writer.paper(specimen_paper(student="王"))
    assert len(caught.value.faults) == 1


def test_undrawable_text_names_its_question_and_all_such_questions_at_once(writer):
    bad = replace(galvanic_question(), title="Cells", blocks=(Paragraph((Text("mark it 漢 and 字"),)),))
    paper = specimen_paper(title="🧪", questions=((galvanic_question(), galvanic_variant()), (bad, galvanic_variant())))
    with pytest.raises(Faulty) as caught:
        writer.paper(paper)
    told = {fault.key: fault.found for fault in caught.value.faults}
    assert told == {
        "CELLS3-B-7: head": "🧪 (U+1F9EA)",
        "CELLS3-B-7: question 2 (Cells)": "字 (U+5B57), 漢 (U+6F22)",
    }


def test_characters_that_reorder_or_hide_others_are_shown(writer):
    printed = writer.paper(specimen_paper(student="Ann\u202eba \x07x", list_number="3"))
    assert "\u202e" not in text(printed.pdf)
    assert "Ann\ufffdba \ufffdx" in text(printed.pdf)


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=40))
def test_any_name_is_printed_or_replaced_and_never_a_traceback(name):
    printed = _shared().paper(specimen_paper(student=name, list_number="9", questions=()))
    assert printed.pdf.startswith(b"%PDF")
    assert {note.code for note in printed.notes} <= {"undrawable-name"}


_KEPT: list[PaperWriter] = []


def _shared():
    if not _KEPT:
        _KEPT.append(PaperWriter(Settings(), catalogue()))
    return _KEPT[0]
