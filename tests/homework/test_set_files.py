"""What a set writes: names that tell, no student's name where it does not belong, tables that a spreadsheet takes as they are."""

from __future__ import annotations

import csv
import io
import zipfile
from decimal import Decimal

import openpyxl
import pytest
from homework.sets_for_tests import NAMES, PLAN, contents, make
from pdf_reading import opened, text

from saltbridge.deliver.homework.cell_tables import CellTable, csv_bytes, xlsx_bytes
from saltbridge.deliver.homework.file_names import LONGEST, class_stems, stem
from saltbridge.deliver.homework.record import read_record
from saltbridge.render.text import spans_text

FILES = (
    "cells-week-3-11B-marking-grid.pdf", "cells-week-3-11B-memorandum.pdf", "cells-week-3-11B-papers.pdf", "cells-week-3-11B-papers-solutions.pdf",
    "cells-week-3-answer-sheet.pdf",
    "cells-week-3-data-sheet.pdf", "cells-week-3-print-sheet.pdf", "key.csv", "key.xlsx", "marks.csv", "marks.xlsx", "names.csv", "record.zip",
)  # fmt: skip


def rows(folder, name, delimiter=","):
    return list(csv.DictReader(io.StringIO((folder / name).read_text("utf-8-sig")), delimiter=delimiter))


def test_the_files_are_named_after_set_and_class(made_set):
    there = {name for name in contents(made_set) if "/" not in name and not name.startswith(".")}
    assert there == set(FILES)
    assert all(len(name) <= LONGEST for name in there)


@pytest.mark.parametrize("title", ["Zellen & Potentiale: Übung 3 (große Klasse, lange Überschrift)", "化学", "../../etc", "CON"])
def test_any_title_makes_a_short_name_in_ascii(title):
    names = class_stems(title, ["11B", "11-B", "Ä/Q", ""])
    longest = [f"{each}-papers-12of99.pdf" for each in names.values()]
    assert all(name.isascii() and len(name) <= LONGEST and not set(name) & set('/\\:*?"<>|') for name in longest)
    assert len(set(names.values())) == 4
    assert stem(title)


def test_a_long_title_keeps_the_word_that_tells_one_week_from_the_next():
    assert stem("Zellen und Potentiale, Woche 3") == "zellen-und-potentiale-woch-3"
    assert stem("Zellen und Potentiale, Woche 4") != stem("Zellen und Potentiale, Woche 3")


def test_no_student_stands_in_a_file_name_or_in_what_a_pdf_says_of_itself(made_set):
    parts = {part for name in NAMES for part in name.split() if len(part) > 3}
    for name, raw in contents(made_set).items():
        assert not [part for part in parts if part in name]
        if not name.endswith(".pdf"):
            continue
        with opened(raw) as file:
            said = repr(file.docinfo) + file.open_metadata().__str__()
        assert not [part for part in parts if part in said], name
        if "papers" not in name:
            assert not [part for part in parts if part in text(raw)], name


def test_only_the_list_of_names_and_the_papers_hold_names(made_set):
    holding = {name for name, raw in contents(made_set).items() if b"Brook" in raw}
    assert holding == {"names.csv"}
    assert [row["name"] for row in rows(made_set, "names.csv")] == list(NAMES)
    assert "Ada Brook" in text((made_set / "cells-week-3-11B-papers.pdf").read_bytes())


def test_the_key_has_a_row_for_every_part_of_every_student(made_set, record):
    found = rows(made_set, "key.csv")
    assert list(found[0]) == ["code", "number", "question", "part", "kind", "answer", "unit", "low", "high", "marks"]
    for entry in record.entries:
        own = [row for row in found if row["code"] == entry.code]
        parts = [
            (str(at), part.label, str(part.marks))
            for at, (question, _) in enumerate(record.papers[entry.code], 1)
            for part in question.parts
        ]
        assert [(row["question"], row["part"], row["marks"]) for row in own] == parts
    numbers = [row for row in found if row["kind"] == "number"]
    assert numbers
    assert all(Decimal(row["low"]) <= Decimal(row["answer"]) <= Decimal(row["high"]) for row in numbers)


def test_workbook_and_csv_say_the_same_and_numbers_are_numbers(made_set):
    sheet = openpyxl.load_workbook(made_set / "key.xlsx").active
    told = [[cell.value for cell in row] for row in sheet.iter_rows(min_row=2)]
    for row, plain in zip(told, rows(made_set, "key.csv"), strict=True):
        for value, shown in zip(row, plain.values(), strict=True):
            if isinstance(value, int | float):
                assert float(shown) == value
            else:
                assert (value or "") == shown
    assert {type(row[5]) for row in told if row[4] == "number"} <= {int, float}


def test_the_list_of_marks_waits_for_them_and_adds_up(made_set):
    sheet = openpyxl.load_workbook(made_set / "marks.xlsx").active
    head = [cell.value for cell in sheet[1]]
    assert head[:4] == ["code", "number", "class", "1a / 1"]
    assert head[-1] == "total / 9"
    assert sheet.cell(2, len(head)).value == f"=SUM(D2:{openpyxl.utils.get_column_letter(len(head) - 1)}2)"
    assert [row["number"] for row in rows(made_set, "marks.csv")] == ["007", "012", "013", "021"]


TRICKS = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", " =1", "＝1", "=cmd|' /C calc'!A0", "−0.76", "Ada")


def test_a_text_never_acts_in_a_spreadsheet_and_a_number_stays_one():
    table = CellTable("t", ("name", "value"), tuple((trick, Decimal("-0.76")) for trick in TRICKS))
    plain = list(csv.reader(io.StringIO(csv_bytes(table, ".").decode("utf-8-sig"))))
    for trick, (name, value) in zip(TRICKS, plain[1:], strict=True):
        assert name.lstrip("\t ")[0] not in "=+-@＝" or name.startswith("'")
        assert name.removeprefix("'") == trick
        assert value == "-0.76"
    comma = csv_bytes(table, ",").decode("utf-8-sig").splitlines()
    assert comma[1] == "'=1+1;-0,76"
    sheet = openpyxl.load_workbook(io.BytesIO(xlsx_bytes(table))).active
    for row in sheet.iter_rows(min_row=2):
        assert row[0].data_type == "s"
        assert (row[1].data_type, row[1].value, row[1].number_format) == ("n", -0.76, "0.00")


def test_a_workbook_has_the_same_bytes_whenever_it_is_made(made_set):
    with zipfile.ZipFile(made_set / "key.xlsx") as file:
        assert {each.date_time for each in file.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert b"1980-01-01T00:00:00Z" in file.read("docProps/core.xml")
        assert b"20" not in file.read("docProps/core.xml").split(b"dcterms:created")[1][:40]


def test_solutions_show_every_step_with_its_sentence_and_no_name(made_set, record):
    said = " ".join(text((made_set / "cells-week-3-11B-papers-solutions.pdf").read_bytes()).split())
    assert "Not for students before 6 Dec 2026" in said
    for entry in record.entries:
        assert entry.code in said
        for question, variant in record.papers[entry.code]:
            for part in question.parts:
                for step in part.working:
                    words = spans_text(step.say, variant.slots).split()
                    assert " ".join(words[:4]) in said


def test_the_print_sheet_finds_every_code_on_its_pages(made_set, record):
    shown = text((made_set / "cells-week-3-print-sheet.pdf").read_bytes())
    papers = (made_set / "cells-week-3-11B-papers.pdf").read_bytes()
    for entry in record.entries:
        (line,) = [line for line in shown.splitlines() if entry.code in line]
        first, last = line.split()[-1].split("–")
        for page in range(int(first), int(last) + 1):
            assert entry.code in text(papers, page)
    with opened(papers) as file:
        assert len(file.pages) == int(last)


ARRANGED = PLAN.replace("class: Group}", "class: Group, print size: P, language: L, extra time: E}")


def test_arrangements_print_the_same_questions_apart_and_say_no_reason(tmp_path, monkeypatch):
    rows_ = ("007,Ada,Brook,11B,18,,25", "012,Bo,Cliff,11B,,de,", "013,Cy,Dale,11B,,,25", "021,Di,Esker,11B,,,")
    make(tmp_path, tmp_path / "out", monkeypatch, plan=ARRANGED, rows=rows_, heading="Candidate,Forename,Surname,Group,P,L,E")
    files = contents(tmp_path / "out")
    record = read_record(tmp_path / "out" / "record.zip")
    large, german = text(files["cells-week-3-print-18.pdf"]), text(files["cells-week-3-de.pdf"])
    codes = {each.number: each.code for each in record.entries}
    assert codes["007"] in large
    assert codes["012"] in german
    assert "Berechne" not in large
    assert "Lehrkraft" in german
    usual = text(files["cells-week-3-11B-papers.pdf"])
    assert codes["007"] not in usual
    minutes = record.head.minutes
    assert f"{-(-minutes * 125 // 100)} minutes" in large
    assert f"{minutes} minutes" in usual
    grid = text(files["cells-week-3-11B-marking-grid.pdf"])
    assert all(code in grid for code in codes.values())
    with zipfile.ZipFile(tmp_path / "out" / "record.zip") as file:
        assert '"print_size":18' not in file.read("record.json").decode().replace(" ", "")


GERMAN = PLAN + "language: de\ndecimal mark: comma\nnames: no\n"


def test_a_german_set_with_decimal_commas(tmp_path, monkeypatch):
    make(tmp_path, tmp_path / "out", monkeypatch, plan=GERMAN)
    files = contents(tmp_path / "out")
    assert "names.csv" not in files
    assert rows(tmp_path / "out", "key.csv", ";")[1]["answer"].count(",") == 1
    grid = text(files["cells-week-3-11B-marking-grid.pdf"])
    assert "Ein Punkt" in grid
    assert " bis " in grid
    assert "Korrekturraster" in str(opened(files["cells-week-3-11B-marking-grid.pdf"]).docinfo)
    papers = text(files["cells-week-3-11B-papers.pdf"])
    assert "Brook" not in papers
    assert "007" in papers
    assert "Druckblatt" in text(files["cells-week-3-print-sheet.pdf"])


def test_names_that_no_font_draws_or_that_look_like_markup_do_nothing(tmp_path, monkeypatch):
    tricks = ("王小明", "#panic()", "*x* _y_ $z$", "<b>Bo</b>", "יעל כהן", "{{ 1 }}")
    rows_ = [f'{at:03d},"{name}",,11B' for at, name in enumerate(tricks, 1)]
    notes = make(tmp_path, tmp_path / "out", monkeypatch, rows=rows_)
    assert [each.code for each in notes] == ["undrawable-name"]
    papers = text((tmp_path / "out" / "cells-week-3-11B-papers.pdf").read_bytes())
    for name in ("#panic()", "*x* _y_ $z$", "<b>Bo</b>", "{{ 1 }}"):
        assert name in papers
    assert [row["name"].removeprefix("'") for row in rows(tmp_path / "out", "names.csv")] == list(tricks)
