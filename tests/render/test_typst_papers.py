"""Papers, memoranda and data sheets as PDF: what the file says of itself, what stands on it, what lies side by side."""

from __future__ import annotations

import re
import subprocess
from dataclasses import replace
from itertools import pairwise

import pytest
from paper_specimen import specimen_paper, specimen_sheet
from pdf_reading import fonts, opened, tags, text

from saltbridge.document import Paragraph, Text
from saltbridge.records import Settings
from saltbridge.render.typst import PaperWriter
from saltbridge.words import catalogue


@pytest.fixture(scope="module")
def writer():
    return PaperWriter(Settings(), catalogue())


@pytest.fixture(scope="module")
def paper(writer):
    return writer.paper(specimen_paper()).pdf


@pytest.fixture(scope="module")
def memorandum(writer):
    return writer.paper(specimen_paper(memorandum=True)).pdf


@pytest.fixture(scope="module")
def sheet(writer):
    return writer.sheet(specimen_sheet()).pdf


@pytest.fixture(scope="module", params=["paper", "memorandum", "sheet"])
def made(request):
    return request.getfixturevalue(request.param)


# ------------------------------------------------------------------ every file


def test_the_file_names_itself_as_pdf_ua_1_and_pdf_a_2a(made):
    with opened(made) as file, file.open_metadata() as about:
        assert about["pdfuaid:part"] == "1"
        assert (about["pdfaid:part"], about["pdfaid:conformance"]) == ("2", "A")


def test_the_file_is_tagged_and_says_its_language_and_shows_its_title(made):
    with opened(made) as file:
        assert file.Root.MarkInfo.Marked
        assert str(file.Root.Lang) == "en"
        assert file.Root.ViewerPreferences.DisplayDocTitle
        assert all(page.obj.Tabs == "/S" for page in file.pages)


def test_every_formula_and_figure_has_words_to_say_it(made):
    spoken = [tag for tag in tags(made) if tag.kind in {"/Formula", "/Figure"}]
    assert spoken
    assert [tag for tag in spoken if not tag.alt.strip()] == []


def test_every_heading_of_a_table_says_what_it_heads(made):
    assert {tag.scope for tag in tags(made) if tag.kind == "/TH"} <= {"/Column"}


def test_headings_never_skip_a_level(made):
    levels = [int(tag.kind[2:]) for tag in tags(made) if re.fullmatch(r"/H\d", tag.kind)]
    assert levels[0] == 1
    assert all(later <= earlier + 1 for earlier, later in pairwise(levels))


def test_every_font_is_inside_and_leads_back_to_unicode(made):
    inside = fonts(made)
    assert inside
    assert all(inside.values()), inside


def test_the_same_paper_gives_the_same_bytes_from_another_writer(writer, paper):
    again = PaperWriter(Settings(), catalogue())
    assert writer.paper(specimen_paper()).pdf == paper
    assert again.paper(specimen_paper()).pdf == paper


# ------------------------------------------------------------------ what stands on a paper


def test_a_paper_carries_head_questions_parts_marks_and_code(paper):
    words = text(paper)
    for expected in (
        "Homework 3", "Cells and their potentials", "Name", "Date", "16 marks · 21 minutes", "Cell potential of two metals",
        "7 marks", "(c)", "[4]", "A the zinc electrode", "C neither: no current flows", "Number the boxes from 1 (lowest) to 4 (highest).",
        "CELLS3-B-7", "Page 1 of 3", "Page 3 of 3", "two-metals, ranking, nernst",
    ):  # fmt: skip
        assert " ".join(expected.split()) in " ".join(words.split()), expected


def test_a_slot_holds_the_value_of_the_variant(paper):
    assert "joined to a silver strip" in " ".join(text(paper).split())


def test_how_exactly_a_number_is_wanted_stands_on_its_answer_line(paper, memorandum):
    [line] = [line for line in text(paper).splitlines() if "(to 0.01 V)" in line]
    assert line.split("(to 0.01 V)")[1].endswith("=")
    assert "(to 0.01 V)" not in text(memorandum)


def test_a_paper_tells_no_answer(paper):
    words = text(paper)
    for hidden in ("1.56", "+1.47", "accept", "Take silver", "✓"):
        assert hidden not in words, hidden
    assert b"1.56" not in paper


def test_a_memorandum_carries_working_marks_answer_and_accepted_range(memorandum):
    words = " ".join(text(memorandum).split())
    for expected in (
        "Memorandum",
        "Read the anode’s potential.",
        "✓1",
        "✓2",
        "✓3",
        "accept +1.555 to +1.565",
        "accept +1.465 to +1.475",
    ):
        assert expected in words, expected


def test_the_ticks_of_a_memorandum_add_up_to_the_marks_of_its_paper(memorandum):
    """A ringed letter, an order and an equation have no line that earns their marks: the answer itself is ticked."""
    ticks = [int(number) for number in re.findall(r"✓(\d+)", text(memorandum))]
    parts = [int(number) for number in re.findall(r"\[(\d+)\]", text(memorandum))]
    assert sum(ticks) == sum(parts) > 0


def test_a_memorandum_speaks_its_slots_in_formulas(memorandum):
    assert "E standard anode equals minus 0.76 volts" in {tag.alt for tag in tags(memorandum)}


def test_memorandum_numbers_the_boxes_of_an_order(memorandum):
    words = text(memorandum)
    ranked = {metal: number for number, metal in re.findall(r"^\s+(\d)\s+(silver|tin|zinc|nickel)\s*$", words, re.MULTILINE)}
    assert ranked == {"zinc": "1", "nickel": "2", "tin": "3", "silver": "4"}


@pytest.mark.parametrize("size", ["a4", "us-letter"])
def test_paper_and_memorandum_lie_side_by_side(size):
    """Every part starts on the same page within a millimetre on both, though one has lines and the other workings."""
    writer = PaperWriter(Settings(paper=size), catalogue())
    both = [_part_places(writer.paper(specimen_paper(memorandum=memo, times=2)).pdf) for memo in (False, True)]
    assert len(both[0]) == 12
    assert [place[:2] for place in both[0]] == [place[:2] for place in both[1]]
    assert max(abs(one[2] - other[2]) for one, other in zip(*both, strict=True)) < 72 / 25.4


def test_questions_start_at_one_height_though_the_memorandum_says_more_above_them(writer):
    policy = (
        "One mark for each line marked. A later line is marked on the student's own earlier value. The unit goes with the last."
    )
    lead = (Paragraph((Text(policy),)),)
    both = [
        _part_places(writer.paper(specimen_paper(memorandum=memo, **changes)).pdf)
        for memo, changes in ((False, {}), (True, {"lead": lead}))
    ]
    assert abs(both[0][0][2] - both[1][0][2]) < 72 / 25.4


def _part_places(pdf):
    """(page, label, height) of each part's label, read from the words with their boxes."""
    page = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=pdf, capture_output=True, check=True).stdout.decode()
    places = []
    number = 0
    for line in page.splitlines():
        number += "<page " in line
        found = re.search(r'yMin="([\d.]+)".*>\(([a-h])\)</word>', line)
        if found:
            places.append((number, found[2], float(found[1])))
    return places


def test_letter_paper_has_its_own_size():
    pdf = PaperWriter(Settings(paper="us-letter"), catalogue()).paper(specimen_paper()).pdf
    with opened(pdf) as file:
        assert [round(float(side)) for side in file.pages[0].mediabox] == [0, 0, 612, 792]


def test_a_bank_with_comma_prints_the_accepted_range_with_comma_in_its_language():
    writer = PaperWriter(Settings(language="de", decimal_mark=","), catalogue("de"))
    pdf = writer.paper(specimen_paper(memorandum=True)).pdf
    with opened(pdf) as file:
        assert str(file.Root.Lang) == "de"
    assert "+1,555" in text(pdf)
    assert "1.555" not in text(pdf)


def test_a_class_file_counts_pages_for_each_paper_and_starts_each_on_a_right_hand_page(writer):
    papers = [replace(specimen_paper(), code=f"CELLS3-{letter}-0") for letter in "AB"]
    pdf = writer.papers(papers, duplex=True).pdf
    words = [" ".join(text(pdf, page).split()) for page in range(1, 8)]
    assert "Page 1 of 3" in words[0]
    assert "CELLS3-A-0" in words[0]
    assert "Page 1 of 3" in words[4]
    assert "CELLS3-B-0" in words[4]


def test_a_question_is_never_parted_from_its_data(paper):
    """The table of question 2 and its only part stand on one page; question 3 stands whole."""
    pages = [text(paper, number) for number in (1, 2, 3)]
    together = (
        ("Readings of four strips", "Put the metals in order"),
        ("0.010 mol/L", "Say what happens"),
        ("A zinc strip", "Which electrode"),
    )
    for data, ask in together:
        assert [data in page for page in pages] == [ask in page for page in pages], (data, ask)


# ------------------------------------------------------------------ data sheet


def test_the_sheet_prints_every_row_constant_and_mass(sheet):
    words = " ".join(text(sheet).split())
    for expected in ("Half-reaction", "−3.04", "+1.50", "Faraday constant", "107.9", "Specimen values for tests"):
        assert expected in words, expected


def test_the_number_line_says_all_couples_from_the_lowest_to_the_highest(sheet):
    line = next(tag.alt for tag in tags(sheet) if tag.kind == "/Figure")
    assert line.index("Li couple minus 3.04") < line.index("Zn couple minus 0.76") < line.index("Au couple plus 1.50")


def test_a_sheet_upward_says_where_the_strongest_oxidising_agent_stands(writer):
    down, up = (text(writer.sheet(specimen_sheet(order)).pdf) for order in ("downward", "upward"))
    assert "stands at the bottom" in down
    assert "stands at the top" in up
    assert up.index("+1.50") < up.index("−3.04")


def test_a_paper_takes_its_sheet_as_last_page(writer):
    pdf = writer.paper(specimen_paper(), specimen_sheet()).pdf
    assert "Half-reaction" in text(pdf, 4)
    assert "Page 4 of 4" in text(pdf, 4)
