"""The class list: who is to get a paper, in which order, and how theirs is printed.

A name is text and nothing else. It is told apart from others by itself, or by the candidate number where the list has one.
"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from saltbridge.bank.plan import ColumnKeys, Plan, PlanKeys
from saltbridge.deliver.homework.list_cells import LONGEST_CELL, Row, read_rows
from saltbridge.faults import Fault, FaultList, nearest
from saltbridge.tables.characters import improper
from saltbridge.words import languages

_DIRECTION = dict.fromkeys(map(ord, "\u061c\u200e\u200f\ufeff"))
"""Marks that lists carry beside right-to-left names: they print nothing, and a name reads the same without."""

_SIZES = ("11", "18", "24", "36")
_SHEETS = {"a4": "a4", "a3": "a3", "us-letter": "us-letter", "letter": "us-letter"}
Order = Literal["list", "name", "number", "code"]
MOST_EXTRA = 100  # per cent of extra time


@dataclass(frozen=True, slots=True)
class Arrangement:
    """How one student's paper is printed where it differs: nothing of it is printed with a reason, or kept in a record."""

    print_size: str = ""
    paper: str = ""
    languages: tuple[str, ...] = ()
    extra_time: int = 0

    @property
    def apart(self) -> bool:
        """Whether the paper is printed by itself."""
        return bool(self.print_size or self.paper or self.languages)


@dataclass(frozen=True, slots=True)
class Student:
    """A row of the class list: ``row`` in its file, ``place`` in the class from 1, ``again`` how often the name stood before."""

    row: int
    place: int
    name: str
    number: str
    class_name: str
    sorted_as: str
    again: int = 0
    arrangement: Arrangement = Arrangement()

    @property
    def identity(self) -> str:
        """What tells the student from others in every list: the candidate number, else the name."""
        return f"number {self.number}" if self.number else f"name {folded(self.name)} {self.again}"

    @property
    def shown_number(self) -> str:
        """The candidate number, or where there is none the place on the list."""
        return self.number or str(self.place)


@dataclass(frozen=True, slots=True)
class ClassList:
    """The students of a list in its order, and doubts that stop nothing."""

    file: str
    students: tuple[Student, ...]
    notes: tuple[Fault, ...]


def folded(name: str) -> str:
    """A name as it is compared: letters in one form, blanks alike."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def read_class_list(path: Path, plan: Plan) -> ClassList:
    """The class list of a plan. Raises ``Faulty`` with the faults of all rows."""
    columns = plan.keys.columns or ColumnKeys.model_construct(name=("Name",))
    wanted = _headings(columns)
    rows = read_rows(path, tuple(wanted))
    faults = FaultList()
    if not rows:
        faults.add("class-list", expected="a heading and a row for each student", found="an empty list", file=path.name, line=1)
        faults.stop_if_any()
    where = _places(rows[0], wanted, path.name, plan, faults)
    faults.stop_if_any()
    readers = _Rows(path.name, columns, where, plan.keys, faults)
    students = [student for row in rows[1:] if (student := readers.student(row))]
    if not rows[1:]:
        faults.add("class-list", expected="a row for each student", found="a heading only", file=path.name, line=rows[0][0])
    _refuse_twin_numbers(students, path.name, faults)
    faults.stop_if_any()
    told = _told_apart(students)
    return ClassList(path.name, tuple(told), tuple(_same_names(told, path.name)))


def _headings(columns: ColumnKeys) -> dict[str, str]:
    """Heading → the key of the plan that names it."""
    named = dict.fromkeys(columns.name or (), "columns.name")
    single = {
        "number": columns.number, "class": columns.class_, "print size": columns.print_size, "paper": columns.paper,
        "language": columns.language, "extra time": columns.extra_time,
    }  # fmt: skip
    return named | {heading: f"columns.{key}" for key, heading in single.items() if heading}


def _places(heading: Row, wanted: Mapping[str, str], file: str, plan: Plan, faults: FaultList) -> dict[str, int]:
    """Where each wanted column stands."""
    number, cells = heading
    told = [_shown(cell) for cell in cells]
    places = {}
    for name, key in wanted.items():
        at = [place for place, cell in enumerate(told) if folded(cell) == folded(name)]
        if len(at) == 1:
            places[name] = at[0]
        elif at:
            faults.add("class-list", expected=f"one column `{name}`", found=f"{len(at)}", file=file, line=number)
        else:
            known = ", ".join(f"`{cell}`" for cell in told if cell) or "none"
            hint = nearest(name, told, "`") or f"Write under `{key}` what the heading says."
            faults.faults.append(plan.fault(key, "class-list", expected=f"a column `{name}` in {file}", found=known, hint=hint))
    return places


def _shown(text: str) -> str:
    return text.translate(_DIRECTION).strip()


@dataclass(frozen=True, slots=True)
class _Rows:
    """Reads the rows of one list."""

    file: str
    columns: ColumnKeys
    where: Mapping[str, int]
    keys: PlanKeys
    faults: FaultList

    def student(self, row: Row) -> Student | None:
        """The student of a row; what is wrong with it is noted."""
        number, cells = row
        before = len(self.faults.faults)
        self._whole(number, cells)
        parts = [self._text(number, cells, heading) for heading in self.columns.name or ()]
        name, candidate = " ".join(part for part in parts if part), self._text(number, cells, self.columns.number)
        if self.columns.name and not name:
            self._wrong(number, "a name", "nothing", "Fill it, or delete the row.")
        if self.columns.number and not candidate:
            self._wrong(number, "a candidate number", "nothing", "Fill it, or delete the row.")
        class_name = self._text(number, cells, self.columns.class_)
        arrangement = self._arrangement(number, cells)
        if len(self.faults.faults) > before:
            return None
        return Student(number, 0, name, candidate, class_name, folded(" ".join((*parts[-1:], *parts[:-1]))), 0, arrangement)

    def _whole(self, row: int, cells: Sequence[str]) -> None:
        """Cells beyond the heading are those of a name with a comma in it that stands in no quotation marks."""
        width = max(self.where.values(), default=0) + 1
        if len(cells) < width and any(cells):
            missing = [name for name, place in self.where.items() if place >= len(cells)]
            needed = {*(self.columns.name or ()), self.columns.number or ""}
            if needed & set(missing):
                self._wrong(
                    row, f"{width} cells", f"{len(cells)}", "A cell with the list's own separator in it stands in double quotes."
                )

    def _text(self, row: int, cells: Sequence[str], heading: str | None) -> str:
        place = self.where.get(heading or "", len(cells))
        text = _shown(cells[place]) if place < len(cells) else ""
        if found := improper(text):
            self._wrong(row, "printable characters", found[1], "Delete it.", heading or "")
        elif "\n" in text or "\t" in text:
            self._wrong(row, "a cell of one line", "more than one", "Delete the line end.", heading or "")
        elif len(text) > LONGEST_CELL:
            self._wrong(row, f"at most {LONGEST_CELL} characters", f"{len(text)}", "Write it shorter.", heading or "")
        return text

    def _wrong(self, row: int, expected: str, found: str, hint: str, key: str = "") -> None:
        self.faults.add("class-list", expected=expected, found=found, hint=hint, file=self.file, line=row, key=key)

    def _arrangement(self, row: int, cells: Sequence[str]) -> Arrangement:
        columns = self.columns
        size = self._one_of(row, cells, columns.print_size, {each: each for each in _SIZES})
        paper = self._one_of(row, cells, columns.paper, _SHEETS)
        if size in {"24", "36"} and (paper or self.keys.paper) not in {"24": ("a4", "a3"), "36": ("a3",)}[size]:
            paper = paper or "a3"
            if paper == "us-letter" or (size == "36" and paper != "a3"):
                self._wrong(row, "paper a3", paper, f"Letters of {size} points need a larger sheet.", columns.paper or "")
        told = self._text(row, cells, columns.language).lower()
        spoken = tuple(dict.fromkeys(word for word in re.split(r"[\s,/+]+", told) if word))
        for each in spoken:
            if each not in languages():
                self._wrong(
                    row,
                    "one of " + ", ".join(languages()),
                    f"`{each}`",
                    "Leave it empty for the bank's language.",
                    columns.language or "",
                )
        return Arrangement(size, paper, spoken, self._extra(row, cells))

    def _one_of(self, row: int, cells: Sequence[str], heading: str | None, known: Mapping[str, str]) -> str:
        told = self._text(row, cells, heading).lower().removesuffix("pt").strip()
        if told and told not in known:
            self._wrong(row, "one of " + ", ".join(known), f"`{told}`", "Leave it empty for the usual one.", heading or "")
        return known.get(told, "")

    def _extra(self, row: int, cells: Sequence[str]) -> int:
        told = self._text(row, cells, self.columns.extra_time).removesuffix("%").strip()
        if not told:
            return 0
        if not re.fullmatch(r"[0-9]{1,3}", told) or int(told) > MOST_EXTRA:
            self._wrong(row, f"per cent from 0 to {MOST_EXTRA}", f"`{told}`", "As `25`.", self.columns.extra_time or "")
            return 0
        return int(told)


def _refuse_twin_numbers(students: Sequence[Student], file: str, faults: FaultList) -> None:
    seen: dict[str, int] = {}
    for each in students:
        if each.number and each.number in seen:
            found = f"`{each.number}` in row {seen[each.number]} too"
            faults.add("class-list", expected="each candidate number once", found=found, file=file, line=each.row)
        seen.setdefault(each.number, each.row)


def _told_apart(students: Sequence[Student]) -> list[Student]:
    """The students with their places, and a count for names that stand more than once."""
    seen: Counter[str] = Counter()
    told = []
    for place, each in enumerate(students, 1):
        name = folded(each.name)
        told.append(replace(each, place=place, again=seen[name]))
        seen[name] += 1
    return told


def _same_names(students: Sequence[Student], file: str) -> Iterator[Fault]:
    first: dict[str, int] = {}
    for each in students:
        name = folded(each.name)
        if name and not each.number and each.again:
            hint = "Both get a paper. Give candidate numbers (`columns: {number: …}`) if one of them may move in the list."
            found = f"the same name in row {first[name]}"
            yield Fault("same-name", "names that differ", found, hint, file, each.row)
        first.setdefault(name, each.row)


def in_order(students: Sequence[Student], order: Order, codes: Mapping[str, str]) -> list[Student]:
    """The students in the order of papers and rows; ``codes`` are theirs by identity."""
    if order == "name":
        return sorted(students, key=lambda each: (_collated(each.sorted_as), each.place))
    if order == "number":
        return sorted(students, key=lambda each: (len(each.shown_number), each.shown_number))
    if order == "code":
        return sorted(students, key=lambda each: codes[each.identity])
    return sorted(students, key=lambda each: each.place)


def _collated(text: str) -> str:
    """Letters without their marks, so that Ä stands by A."""
    return "".join(mark for mark in unicodedata.normalize("NFKD", text) if not unicodedata.combining(mark))
