"""The page and the memorandum carry the numbers of a working as the document tree has them, in that order."""

from __future__ import annotations

import html
import re
import unicodedata

import pytest
from pdf_reading import text
from snapshot.taking import banks
from workings.printed_lines import NotANumberError, Reader, single

from saltbridge.build import frame_of, practice_variants
from saltbridge.document import MathLine, Paper
from saltbridge.render import pages
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank

TEMPLATES = ["mass-deposited", "gibbs-energy", "time-for-a-mass", "unequal-charges", "equilibrium-constant"]


def results(question, variant):
    """The numbers with their units that lines end in, in reading order, without blanks."""
    reader = Reader(variant.slots)
    lines = [line for part in question.parts for step in part.working for line in step.lines if isinstance(line, MathLine)]
    numbers = [part[0].plain for line in lines for part in reader.chain(line.right)[0] if single_or_none(part)]
    return [bare(each) for each in numbers]


def single_or_none(part):
    try:
        return single(part)
    except NotANumberError:
        return None


def bare(shown):
    """Without blanks, levels brought down to the line, one minus sign."""
    return re.sub(r"[\s\u200b]+", "", unicodedata.normalize("NFKC", shown)).replace("−", "-")


def in_order(numbers, shown):
    """The numbers that a text lacks after those before them."""
    at, missing = 0, []
    for number in numbers:
        found = shown.find(number, at)
        if found < 0:
            missing.append(number)
        else:
            at = found + len(number)
    return missing


@pytest.mark.parametrize("template", TEMPLATES)
def test_page_and_memorandum_carry_every_result_in_the_order_of_the_working(template):
    bank = banks()["shipped"]
    questions, variants = practice_variants(bank, bank.template(template), 1)
    question, variant = questions[variants[0].shape], variants[0]
    numbers = results(question, variant)
    page = pages.question_page(questions, variants, frame_of(bank), of_bank(bank.settings))
    shown = bare(html.unescape(re.sub(r"<[^>]+>", "", re.sub(r"(?s)<(style|script)\b.*?</\1>", "", page))))
    paper = Paper("", "", "LINES-A-0", (), ((question, variant),), question.marks, question.minutes, True, "")
    printed = bare(text(PaperWriter(bank.settings, of_bank(bank.settings)).paper(paper).pdf))

    assert len(numbers) > 2
    assert in_order(numbers, shown) == []
    assert in_order(numbers, printed) == []
