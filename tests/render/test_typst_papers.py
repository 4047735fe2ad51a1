"""Papers, memoranda and data sheets as PDF: what the file says of itself, what stands on it, and where."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from paper_specimen import galvanic_variant, specimen_paper, specimen_sheet
from pdf_reading import fonts, opened, tags, text

from saltbridge.records import Settings
from saltbridge.render.figures import figure_svg
from saltbridge.render.labels import SIZE
from saltbridge.render.paper_data import drawing_size
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
        "Homework 3", "Cells and their potentials", "Name:", "Class:", "Teacher:", "Date:", "16 marks · 21 minutes", "/ 16", "/7", "/3", "/6",
        "Cell potential of two metals", "7 marks", "(c)", "[4]", "A the zinc electrode", "C neither: no current flows", "Ring one letter.",
        "Number the boxes from 1 (lowest) to 4 (highest).", "CELLS3-B-7", "Page 1 of 2", "Page 2 of 2", "two-metals, ranking, nernst",
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


def test_a_memorandum_tells_the_common_errors_of_its_variant_and_what_to_give(memorandum):
    """The error that this variant does not show, being the right answer or another error, is left out."""
    words = " ".join(text(memorandum).split())
    assert re.search(r"Common errors: \+0\.04 V: .* – give 2 of 4\.", words)
    assert "Which potential is taken away" not in words


def test_the_ticks_of_a_memorandum_add_up_to_the_marks_of_its_paper(memorandum):
    """A ringed letter, an order and an equation have no line that earns their marks: the answer itself is ticked."""
    ticks = [int(number) for number in re.findall(r"✓(\d+)", text(memorandum))]
    parts = [int(number) for number in re.findall(r"\[(\d+)\]", text(memorandum))]
    assert sum(ticks) == sum(parts) > 0


def test_a_memorandum_speaks_its_slots_in_formulas(memorandum):
    assert "E standard anode equals minus 0.76 volts" in {tag.alt for tag in tags(memorandum)}


def test_a_memorandum_has_a_version_on_every_page_and_a_day_in_place_of_name_lines(writer):
    paper = specimen_paper(memorandum=True, times=4, version=3, not_before="5 December")
    pdf = writer.paper(paper).pdf
    with opened(pdf) as file:
        pages = [" ".join(text(pdf, at).split()) for at in range(1, len(file.pages) + 1)]
    assert len(pages) > 1
    assert all("Memorandum, version 3" in page for page in pages)
    assert "Not for students before 5 December" in pages[0]
    assert "Name:" not in pages[0]


def test_formula_substitution_and_value_stand_on_one_line_with_their_ticks(memorandum):
    lines = [re.sub(r"\s+", "", line) for line in text(memorandum).splitlines()]
    (line,) = [line for line in lines if "(−0.76V)" in line]
    assert "✓1=+0.80V−(−0.76V)✓1" in line


def test_a_memorandum_leaves_texts_and_drawings_out(memorandum):
    assert "A zinc strip in a solution" not in text(memorandum)
    assert "/Figure" not in {tag.kind for tag in tags(memorandum)}


def test_a_memorandum_names_right_options_by_their_letters_and_orders_in_full(memorandum):
    words = " ".join(text(memorandum).split())
    assert "Which electrode is the anode? A A: the zinc electrode" in words
    assert "Put the metals in order of their readings. zinc, nickel, tin, silver" in words


def test_a_file_holds_papers_or_memoranda(writer):
    for papers in ([], [specimen_paper(), specimen_paper(memorandum=True)]):
        with pytest.raises(ValueError, match="papers or memoranda"):
            writer.papers(papers)


def test_drawings_are_at_most_42_mm_high_with_letters_as_large_as_the_text(writer):
    """On the galvanic cell; a drawing that would be higher gets smaller, its letters too."""
    svg = figure_svg(galvanic_variant().figures[0])
    assert drawing_size(svg)[1] <= 42
    scale = float(re.search(r'height="([\d.]+)pt"', svg)[1]) / float(re.search(r'viewBox="0 0 [\d.]+ ([\d.]+)"', svg)[1])
    assert SIZE * scale == pytest.approx(11, abs=0.1)


@pytest.mark.parametrize(
    ("answers", "there", "gone"),
    [
        ("lines", ("Ring one letter.", "(to 0.01 V)", "Equation:"), ("Write down",)),
        ("squares", ("Ring one letter.", "(to 0.01 V)", "Equation:"), ("Write down",)),
        (
            "none",
            ("Write down one letter.", "(to 0.01 V)", "Write them down in order, from lowest to highest.", "(g)"),
            ("Ring", "Equation:"),
        ),
    ],
)
def test_the_room_for_answers_decides_what_a_paper_asks_to_do(answers, there, gone):
    words = " ".join(text(PaperWriter(Settings(answers=answers), catalogue()).paper(specimen_paper()).pdf).split())
    assert [each for each in there if each not in words] == []
    assert [each for each in gone if each in words] == []


def test_a_head_carries_school_class_teacher_and_candidate_number():
    settings = Settings(school="School above the Locks", students="number")
    paper = specimen_paper(student="0042", class_name="11B", teacher="R. Ohm", date="1 December")
    words = " ".join(text(PaperWriter(settings, catalogue()).paper(paper).pdf, 1).split())
    assert "School above the Locks · Homework 3" in words
    assert "Candidate number: 0042 Class: 11B Teacher: R. Ohm Date: 1 December" in words


def test_the_words_of_a_paper_stand_in_reading_order(paper):
    words = " ".join(text(paper).split())
    order = (
        "Cells and their potentials",
        "Name:",
        "Show each step",
        "A zinc strip",
        "(a)",
        "the zinc electrode",
        "(b)",
        "(c)",
        "A class presses",
    )
    places = [words.index(each) for each in order]
    assert places == sorted(places)


@pytest.mark.parametrize(("paper", "size"), [("us-letter", [612, 792]), ("a3", [842, 1191])])
def test_other_papers_have_their_own_size(paper, size):
    """ANSI A (8.5 × 11 in) and ISO 216 A3 (297 × 420 mm), in points."""
    pdf = PaperWriter(Settings(paper=paper), catalogue()).paper(specimen_paper()).pdf
    with opened(pdf) as file:
        assert [round(float(side)) for side in file.pages[0].mediabox] == [0, 0, *size]


def test_a_memorandum_of_papers_on_a3_stands_on_a4():
    pdf = PaperWriter(Settings(paper="a3"), catalogue()).paper(specimen_paper(memorandum=True)).pdf
    with opened(pdf) as file:
        assert [round(float(side)) for side in file.pages[0].mediabox] == [0, 0, 595, 842]


def test_a_bank_with_comma_prints_the_accepted_range_with_comma_in_its_language():
    writer = PaperWriter(Settings(language="de", decimal_mark=","), catalogue("de"))
    pdf = writer.paper(specimen_paper(memorandum=True)).pdf
    with opened(pdf) as file:
        assert str(file.Root.Lang) == "de"
    assert "+1,555" in text(pdf)
    assert "1.555" not in text(pdf)


def test_a_stapled_job_gives_every_copy_the_same_even_number_of_pages(writer):
    lengths = (1, 2, 1)
    papers = [specimen_paper(times=times, code=f"CELLS3-{letter}-0") for times, letter in zip(lengths, "ABC", strict=True)]
    alone = [_length(writer.paper(paper).pdf) for paper in papers]
    each = max(alone) + max(alone) % 2
    pdf = writer.papers(papers, stapled=True).pdf
    assert len(set(alone)) == 2
    assert _length(pdf) == 3 * each
    for at, (paper, pages) in enumerate(zip(papers, alone, strict=True)):
        words = [" ".join(text(pdf, at * each + page + 1).split()) for page in range(each)]
        assert all(paper.code in page for page in words)
        assert [f"Page {page + 1} of {pages}" in page_words for page, page_words in enumerate(words)] == [
            page < pages for page in range(each)
        ]


def _length(pdf):
    with opened(pdf) as file:
        return len(file.pages)


def test_a_short_question_is_never_parted_from_its_data(paper):
    """The table of question 2 and its only part stand on one page; question 3 stands whole."""
    pages = [text(paper, number) for number in (1, 2)]
    together = (("Readings of four strips", "Put the metals in order"), ("0.010 mol/L", "Say what happens"))
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
    assert "Half-reaction" in text(pdf, 3)
    assert "Page 3 of 3" in text(pdf, 3)
