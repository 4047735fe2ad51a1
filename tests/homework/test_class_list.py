"""Class lists as schools have them: whatever the encoding, separator, script or trick, read rightly or refused with the row."""

from __future__ import annotations

import io
from contextlib import suppress
from datetime import date

import openpyxl
import pytest
from homework.sets_for_tests import PLAN, write
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from saltbridge.bank.plan import read_plan
from saltbridge.deliver.homework.class_list import in_order, read_class_list
from saltbridge.deliver.homework.list_cells import MOST_ROWS
from saltbridge.faults import Faulty
from saltbridge.tables.characters import improper

ONE_NAME = PLAN.replace("[Forename, Surname], number: Candidate, class: Group", "Name")


def read(tmp_path, raw, plan=PLAN, name="class.csv"):
    path = write(tmp_path, plan)
    (tmp_path / name).write_bytes(raw if isinstance(raw, bytes) else raw.encode("utf-8"))
    return read_class_list(tmp_path / name, read_plan(path))


def names(tmp_path, raw, plan=ONE_NAME):
    return [each.name for each in read(tmp_path, raw, plan).students]


def fault(tmp_path, raw, plan=ONE_NAME):
    with pytest.raises(Faulty) as told:
        read(tmp_path, raw, plan)
    return "\n".join(str(each) for each in told.value.faults)


def workbook(rows, **formats):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    for place, shown in formats.items():
        book.active[place].number_format = shown
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


@pytest.mark.parametrize(
    "raw",
    [
        "Candidate,Forename,Surname,Group\n007,Ada,Brook,11B\n",
        "\ufeffCandidate;Forename;Surname;Group\r\n007;Ada;Brook;11B\r\n",
        "Candidate\tForename\tSurname\tGroup\n007\tAda\tBrook\t11B\n",
        '\n\n"Group","Surname","Forename","Candidate","Fees"\n"11B","Brook","Ada","007","1,50"\n,,,,\n',
        "Candidate;Forename;Surname;Group\n007;Ada;Brook;11B\n".encode("utf-16"),
        "candidate , FORENAME,surname,Group \n 007 , Ada,Brook ,11B\n",
        workbook([["Candidate", "Forename", "Surname", "Group"], [7, "Ada", "Brook", "11B"]], A2="000"),
        workbook([["Candidate", "Forename", "Surname", "Group"], ["007", "Ada", "Brook", "11B"]]),
    ],
)
def test_every_way_of_saving_a_list_reads_alike(tmp_path, raw):
    (student,) = read(tmp_path, raw).students
    assert (student.name, student.number, student.class_name) == ("Ada Brook", "007", "11B")


HARD_NAMES = [
    "Łukasz Żółć", "Nguyễn Thị Ánh", "王小明", "محمد علي", "יעל כהן", "Θάλεια", "O'Ferrall", 'Ann "Nan" Lee', "=cmd|' /C calc'!A0",
    "+49 Max", "@SUM(A1)", "<script>alert(1)</script>", "#set page(width: 1pt)", "*bold* _it_ $x$ `c`", "{{ 7*7 }}", "-0.76", "Brook, Ada",
]  # fmt: skip


@pytest.mark.parametrize("name", HARD_NAMES)
def test_a_name_is_text_and_stays_as_it_is(tmp_path, name):
    quoted = name.replace('"', '""')
    assert names(tmp_path, f'Name;Group\n"{quoted}";11B\n') == [name]


def test_marks_of_direction_beside_a_name_are_dropped_and_those_that_turn_it_are_refused(tmp_path):
    assert names(tmp_path, "Name\n\u200fיעל\u200e\n") == ["יעל"]
    assert "class.csv:3: Name: expected printable characters; found U+202E" in fault(tmp_path, "Name\nAda\nA\u202edA\n")


@pytest.mark.parametrize(
    ("raw", "told"),
    [
        ("Name\nAda\nZo\xeb\n".encode("latin-1"), "class.csv:3: expected text in UTF-8; found the byte EB"),
        ('Name\nAda\n"Bo\nCy\n', "expected cells that can be told apart"),
        ("Name,Group\nAda,11B\n,11B\n", "class.csv:3: expected a name; found nothing"),
        ("Student\nAda\n", "expected a column `Name` in class.csv; found `Student`"),
        ("Name;Name\nAda;Bo\n", "class.csv:1: expected one column `Name`; found 2"),
        ("Name\n", "expected a row for each student; found a heading only"),
        ("", "expected a heading and a row for each student; found an empty list"),
        ("Name\n" + "x" * 300 + "\n", "class.csv:2: Name: expected at most 200 characters; found 300"),
        ('Name\n"Ada\nBrook"\n', "class.csv:2: Name: expected a cell of one line"),
        ("Name\nA\x00da\n", "U+0000"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "found an old spreadsheet. Save it as XLSX"),
        (b"PK\x03\x04 not a workbook", "expected a sound XLSX file"),
        ("Name\n" + "Ada\n" * (MOST_ROWS + 1), f"expected at most {MOST_ROWS} rows; found {MOST_ROWS + 1}"),
    ],
)
def test_what_can_not_be_read_for_certain_is_refused_with_its_row(tmp_path, raw, told):
    assert told in fault(tmp_path, raw)


def test_dates_and_errors_in_a_workbook_are_refused_with_their_row(tmp_path):
    rows = [["Name"], ["Ada"], [date(2026, 3, 5)]]
    assert "class.csv:3: expected texts and numbers; found a date or a time" in fault(tmp_path, workbook(rows))
    assert "found the error #REF!" in fault(tmp_path, workbook([["Name"], ["#REF!"]]))


def test_all_faults_of_a_list_are_told_at_once(tmp_path):
    raw = "Candidate,Forename,Surname,Group\n1,Ada,Brook,11B\n,Bo,Cliff,11B\n1,Cy,Dale,11B\n3,,,11B\n"
    told = fault(tmp_path, raw, PLAN)
    assert [line.split(": ")[0] for line in told.splitlines()] == ["class.csv:3", "class.csv:4", "class.csv:5"]
    assert "expected each candidate number once; found `1` in row 2 too" in told


def test_two_students_of_one_name_both_get_a_paper_and_it_is_said(tmp_path):
    found = read(tmp_path, "Name\nAda\nBo\nada \n", ONE_NAME)
    assert len({each.identity for each in found.students}) == 3
    (note,) = found.notes
    assert str(note).startswith("class.csv:4: expected names that differ; found the same name in row 2")


def test_five_thousand_rows_are_read(tmp_path):
    raw = "Candidate,Forename,Surname,Group\n" + "".join(f"{at:05d},F{at},S{at},G{at % 9}\n" for at in range(5_000))
    students = read(tmp_path, raw).students
    assert len(students) == 5_000
    assert students[-1].number == "04999"


def test_the_orders_of_a_list(tmp_path):
    raw = "Candidate,Forename,Surname,Group\n10,Zoe,Ärmel,a\n9,Ada,Zorn,a\n11,Bo,Brook,a\n"
    students = read(tmp_path, raw).students
    codes = {each.identity: code for each, code in zip(students, ("B", "C", "A"), strict=True)}

    def order(how):
        return [each.number for each in in_order(students, how, codes)]

    assert order("list") == ["10", "9", "11"]
    assert order("name") == ["10", "11", "9"]
    assert order("number") == ["9", "10", "11"]
    assert order("code") == ["11", "10", "9"]


ARRANGED = PLAN.replace("class: Group", "print size: P, paper: S, language: L, extra time: E")


def test_arrangements_are_read_and_wrong_ones_refused_with_their_row(tmp_path):
    heading = "Candidate,Forename,Surname,P,S,L,E\n"
    one, two, three = read(tmp_path, heading + "1,A,B,18pt,,de,25 %\n2,C,D,36,,en de,\n3,E,F,,,,\n", ARRANGED).students
    assert (one.arrangement.print_size, one.arrangement.languages, one.arrangement.extra_time) == ("18", ("de",), 25)
    assert (two.arrangement.print_size, two.arrangement.paper, two.arrangement.languages) == ("36", "a3", ("en", "de"))
    assert not three.arrangement.apart
    told = fault(tmp_path, heading + "1,A,B,17,,,\n2,C,D,,a5,,\n3,E,F,,,xx,\n4,G,H,,,,much\n5,I,J,36,a4,,\n", ARRANGED)
    assert [line.split(": ")[0] for line in told.splitlines()] == [f"class.csv:{row}" for row in range(2, 7)]


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=300) | st.text(max_size=200).map(lambda text: ("Name\n" + text).encode("utf-8", "replace")))
def test_whatever_bytes_come_they_are_read_or_told(tmp_path, raw):
    with suppress(Faulty):
        students = read(tmp_path, raw, ONE_NAME).students
        assert all(each.name and improper(each.name) is None and "\n" not in each.name for each in students)
