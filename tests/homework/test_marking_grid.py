"""The marking grid read back from print: its answers are the key's, and what it says of errors is what the judge says."""

from __future__ import annotations

import csv
import io
import math
import subprocess
import unicodedata
from dataclasses import replace

import pytest
from homework.sets_for_tests import PLAN, make
from pdf_reading import opened, text

from saltbridge import document as doc
from saltbridge.answers.judge import judge
from saltbridge.deliver.homework.marking_grids import LONGEST_ANSWER, Grids, merged_keys
from saltbridge.deliver.homework.record import read_record
from saltbridge.render.text import spans_text
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank

QUESTIONS = ("two-metals", "unequal-charges", "equilibrium-constant", "mass-deposited", "copper-as-reference")
MINUS = "\u2212"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    room = tmp_path_factory.mktemp("grid")
    plan = PLAN[: PLAN.index("questions:")] + "questions:\n" + "".join(f"  - template: {each}\n" for each in QUESTIONS)
    with pytest.MonkeyPatch.context() as patch:
        make(room, room / "out", patch, plan=plan)
    return room / "out"


@pytest.fixture(scope="module")
def record(folder):
    return read_record(folder / "record.zip")


@pytest.fixture(scope="module")
def pages(folder):
    """The text of each grid in the order of its tags, blanks alike."""
    pdf = (folder / "cells-week-3-11B-marking-grid.pdf").read_bytes()
    with opened(pdf) as file:
        count = len(file.pages)
    return [_raw(pdf, page) for page in range(1, count + 1)]


def _raw(pdf, page):
    done = subprocess.run(
        ["pdftotext", "-raw", "-f", str(page), "-l", str(page), "-", "-"], input=pdf, capture_output=True, check=True
    )
    return _squeezed(done.stdout.decode())


def _squeezed(shown):
    """The text without blanks, and levels brought down to the line."""
    return "".join(unicodedata.normalize("NFKC", shown).replace("\u2212", MINUS).split())


def _grids(record):
    grids = Grids(record, of_bank(record.settings))
    return [grids.grid(place, record.entries, "") for place in range(len(record.asked))]


def test_a_page_a_question_in_landscape(pages, folder, record):
    assert len(pages) == len(record.asked)
    with opened((folder / "cells-week-3-11B-marking-grid.pdf").read_bytes()) as file:
        for page in file.pages:
            _, _, wide, high = (float(side) for side in page.mediabox)
            assert wide > high


def test_the_answers_and_ranges_in_print_are_those_of_the_key(pages, folder, record):
    key = list(csv.DictReader(io.StringIO((folder / "key.csv").read_text("utf-8-sig"))))
    for number, page in enumerate(pages, 1):
        for at, entry in enumerate(record.entries):
            following = record.entries[at + 1].code if at + 1 < len(record.entries) else "$"
            row = page[page.index(entry.code) : page.find(following) if following in page else None]
            for told in [each for each in key if each["code"] == entry.code and each["question"] == str(number)]:
                row = _after(row, told)


def _after(row, told):
    """What stands behind a part's answer and range in a row."""
    if told["kind"] == "number":
        said = _shown(told["answer"]) + told["unit"]
        said += f"{_shown(told['low'])}to{_shown(told['high'])}" if told["low"] else ""
    elif told["kind"] == "choice":
        letter, _, words = told["answer"].partition(": ")
        said = letter + "".join(words.split()) if len(words) <= LONGEST_ANSWER else letter
    else:
        return row
    at = row.find(said)
    assert at >= 0, (said, row)
    return row[at + len(said) :]


def _shown(number):
    return number.replace("-", MINUS)


def test_the_key_of_letters_stands_on_the_page_and_no_part_has_more_than_five(pages, record):
    for page, grid in zip(pages, _grids(record), strict=True):
        used = {each.letter for row in grid.rows for cell in row.cells for each in cell.wrong}
        assert used <= {letter for letter, _ in grid.key}
        tail = page[page.rindex(record.entries[-1].code) :]
        assert all(letter in tail for letter in used)
        for row in grid.rows:
            for cell in row.cells:
                for follows in (False, True):
                    assert len({each.letter for each in cell.wrong if each.follows is follows}) <= 5


def test_every_value_of_an_error_in_print_is_what_the_judge_takes_for_it(pages, record):
    own = after = 0
    for place, (page, grid) in enumerate(zip(pages, _grids(record), strict=True)):
        for entry, row in zip(record.entries, grid.rows, strict=True):
            question, variant = record.papers[entry.code][place]
            keys = merged_keys(question, variant)
            wrong = {}
            for part, key, cell in zip(question.parts, keys, row.cells, strict=True):
                for each in cell.wrong:
                    told = spans_text(each.value)
                    assert _squeezed(f"{each.letter}{'→' if each.follows else ''}{told}") in page, told
                    typed = [ord(told) - ord("A")] if key["kind"] == "choice" else told.replace("\u202f", " ")
                    if not each.follows:
                        verdict = judge(key, typed)
                        assert verdict.verdict == "slip", (part.label, told, verdict)
                        wrong.setdefault(each.letter, (part.label, verdict.own))
                        own += 1
                    else:
                        label, value = wrong[each.letter]
                        verdict = judge(key, typed, {label: value})
                        assert verdict.verdict in {"follows", "slip"}, (part.label, told, value, verdict)
                        after += verdict.verdict == "follows"
    assert own > 100
    assert after > 30


def test_a_student_with_one_planted_error_finds_their_later_value_in_the_grid(record):
    """The error: both standard potentials added. The later cell potential is worked out here by the Nernst equation itself."""
    place = QUESTIONS.index("unequal-charges")
    grid = _grids(record)[place]
    said = {letter: spans_text(words) for letter, words in grid.key}
    (letter,) = [name for name, words in said.items() if words == "E°(cell) = E°(cathode) + E°(anode)"]
    seen = 0
    for entry, row in zip(record.entries, grid.rows, strict=True):
        question, variant = record.papers[entry.code][place]
        keys = dict(zip([part.label for part in question.parts], merged_keys(question, variant), strict=True))
        planted = [float(spans_text(each.value).replace(MINUS, "-")) for each in row.cells[2].wrong if each.letter == letter]
        later = [
            float(spans_text(each.value).replace(MINUS, "-"))
            for each in row.cells[4].wrong
            if each.letter == letter and each.follows
        ]
        if not planted or not later:
            continue
        equation = spans_text(question.parts[1].answer, variant.slots).replace("\u202f", " ")
        electrons = 2 if equation.startswith("2 Ag") else 6
        quotient = float(keys["d"]["value"])
        worked = planted[0] - 8.314 * 298.15 / (electrons * 96485) * math.log(quotient)
        assert later[0] == pytest.approx(worked, abs=0.0101)
        seen += 1
    assert seen >= 3


def test_the_class_memorandum_has_every_final_answer(folder, record):
    shown = " ".join(text((folder / "cells-week-3-11B-memorandum.pdf").read_bytes()).replace("\u202f", "").split())
    for entry in record.entries:
        assert entry.code in shown
        for question, variant in record.papers[entry.code]:
            for part in question.parts:
                if part.judge["kind"] == "number":
                    assert "".join(spans_text(part.answer, variant.slots).split()) in "".join(shown.split())


def test_thirty_students_stand_on_a_page_and_the_letters_are_told_on_every_page(record):
    writer = PaperWriter(record.settings, of_bank(record.settings))
    for grid in _grids(record):
        thirty, many = (replace(grid, rows=tuple(grid.rows[at % len(grid.rows)] for at in range(count))) for count in (30, 70))
        assert writer.marking_grids("Thirty", [thirty]).pages == 1, grid.title
        pdf = writer.marking_grids("Many", [many]).pdf
        with opened(pdf) as file:
            count = len(file.pages)
        assert count > 1
        hints = [_squeezed(words.text) for _, (words, *_) in grid.key if isinstance(words, doc.Text)]
        for page in range(1, count + 1):
            assert all(hint in _raw(pdf, page) for hint in hints)
        assert hints or not grid.key
