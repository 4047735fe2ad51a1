"""Large print as schools give it: bold letters without serifs, one column, flush left, drawings drawn anew with letters as large."""

from __future__ import annotations

import re
import subprocess
from xml.etree import ElementTree as ET

import pytest
from paper_specimen import galvanic_variant, specimen_paper, specimen_sheet
from pdf_reading import fonts, tags, text

from saltbridge.records import Settings
from saltbridge.render.figures import figure_svg
from saltbridge.render.labels import SIZE
from saltbridge.render.typst import PaperWriter, _look
from saltbridge.words import catalogue

SIZES = [("a4", 18), ("a4", 24), ("a3", 24), ("a3", 36)]
"""Sheet and size of print: common practice of modified papers, no source opened."""


@pytest.fixture(scope="module", params=SIZES, ids=lambda each: f"{each[1]} pt on {each[0]}")
def settings(request):
    return Settings(paper=request.param[0], print_size=request.param[1])


@pytest.fixture(scope="module")
def writer(settings):
    return PaperWriter(settings, catalogue())


@pytest.fixture(scope="module")
def paper(writer):
    return writer.paper(specimen_paper()).pdf


def _lines(pdf):
    """(left edge, size of letters, words) of each run of text, in points."""
    done = subprocess.run(
        ["pdftohtml", "-xml", "-zoom", "1", "-i", "-stdout", "-", "-"], input=pdf, capture_output=True, check=True
    )
    tree = ET.fromstring(re.sub(r"<!DOCTYPE[^>]*>", "", done.stdout.decode()))  # noqa: S314 - of our own PDF
    sizes = {each.get("id"): int(each.get("size")) for each in tree.iter("fontspec")}
    return [(int(each.get("left")), sizes[each.get("font")], "".join(each.itertext())) for each in tree.iter("text")]


def test_letters_are_bold_and_have_no_serifs(paper):
    named = fonts(paper)
    assert all(named.values())
    assert {name.split("+")[-1].split("-Identity")[0] for name in named} <= {"DejaVuSans-Bold", "NewCMMath-Bold"}


def test_text_and_options_have_the_size_of_the_bank(paper, settings):
    found = {size for _, size, words in _lines(paper) if "zinc" in words}
    assert found
    assert all(abs(size - settings.print_size) <= 1 for size in found)


def test_options_stand_one_beneath_another_in_one_column(paper):
    lefts = {left for left, _, words in _lines(paper) if words.strip() in {"the zinc electrode", "the silver electrode"}}
    assert len(lefts) == 1


def test_letters_in_drawings_are_as_large_as_the_text(settings):
    """Drawn narrower about its letters where the usual drawing would not fit, never made smaller as a whole."""
    svg = figure_svg(galvanic_variant().figures[0], _look(settings))
    width, height = (float(re.search(rf'{side}="([\d.]+)pt"', svg)[1]) for side in ("width", "height"))
    box = [float(each) for each in re.search(r'viewBox="([^"]+)"', svg)[1].split()]
    assert SIZE * width / box[2] == pytest.approx(settings.print_size, rel=0.01)
    assert height / box[3] == pytest.approx(width / box[2], rel=0.01)


def test_a_large_paper_says_what_the_usual_one_says(paper):
    usual = PaperWriter(Settings(), catalogue()).paper(specimen_paper()).pdf
    for words in ("Show each step.", "Which electrode is the anode?", "Number the boxes", "(to 0.01 V)", "CELLS3-B-7"):
        assert words in " ".join(text(usual).split())
        assert words in " ".join(text(paper).split())


def test_the_data_sheet_is_as_large(writer, settings):
    pdf = writer.sheet(specimen_sheet()).pdf
    words = " ".join(text(pdf).split())
    assert all(each in words for each in ("−3.04", "+1.50", "Faraday", "107.9"))
    assert all(
        abs(size - settings.print_size) <= 1
        for _, size, shown in _lines(pdf)
        if shown.strip() in {"Half-reaction", "−3.04", "Zn"}
    )
    assert {tag.kind for tag in tags(pdf)} >= {"/Table", "/Figure"}


def test_a_memorandum_stays_as_it_is(writer):
    """It is the marker's, who has the usual one."""
    usual = PaperWriter(Settings(), catalogue()).paper(specimen_paper(memorandum=True)).pdf
    large = writer.paper(specimen_paper(memorandum=True)).pdf
    assert fonts(large).keys() == fonts(usual).keys()
    assert text(large).split() == text(usual).split()
