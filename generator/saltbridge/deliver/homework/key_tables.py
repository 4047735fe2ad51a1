"""The key, the list of marks to fill in, and the names apart, as tables of cells; their headings are one in every language."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal, InvalidOperation
from typing import Any

from saltbridge import document as doc
from saltbridge.deliver.homework.candidates import keys_of, numbers_in
from saltbridge.deliver.homework.cell_tables import Cell, CellTable
from saltbridge.deliver.homework.class_list import Student
from saltbridge.deliver.homework.record import Entry, Record
from saltbridge.render.memo_options import right_signs
from saltbridge.render.text import spans_text

Members = Sequence[tuple[Student, Entry]]


def key_table(record: Record, members: Members) -> CellTable:
    """Every answer of every student: what it is, its unit, between what it is accepted, its marks."""
    head = ("code", "number", "question", "part", "kind", "answer", "unit", "low", "high", "marks")
    rows = tuple(row for _, entry in members for row in _entry_rows(record, entry))
    return CellTable("key", head, rows)


def _entry_rows(record: Record, entry: Entry) -> Iterator[tuple[Cell, ...]]:
    for number, (question, variant) in enumerate(record.papers[entry.code], 1):
        for part, key in zip(question.parts, keys_of(question, variant), strict=False):
            yield entry.code, entry.number, number, part.label, str(key.get("kind", "")), *_answer(part, key, variant), part.marks


def _answer(part: doc.Part, key: Mapping[str, Any], variant: doc.Variant) -> tuple[Cell, Cell, Cell, Cell]:
    """Answer, unit, low and high of a part: numbers where it asks for one number, else the answer's text."""
    if key.get("kind") == "number" and "value" in key:
        unit = part.field.unit.plain if isinstance(part.field, doc.NumberField) and part.field.unit else ""
        low, high = (None, None) if key.get("whole") else (_decimal(key.get("lo")), _decimal(key.get("hi")))
        return next(value for value, _ in numbers_in(key)), unit, low, high
    if isinstance(part.field, doc.WrittenField):
        points = [f"{spans_text(point.text, variant.slots)} [{point.marks}]" for point in part.field.points]
        return " ".join("; ".join(points).split()), "", None, None
    text = " ".join(spans_text(part.answer, variant.slots).split())
    if letters := right_signs(part.field, key):
        text = f"{letters}: {text}"
    return text, "", None, None


def _decimal(text: object) -> Decimal | None:
    try:
        return None if text is None else Decimal(str(text))
    except InvalidOperation:
        return None


def marks_table(record: Record, members: Members) -> CellTable:
    """A row a student and a column a part, to fill in; the last column adds up."""
    first = record.papers[members[0][1].code]
    parts = [f"{number}{part.label} / {part.marks}" for number, (question, _) in enumerate(first, 1) for part in question.parts]
    head = ("code", "number", "class", *parts, f"total / {record.head.marks}")
    rows = tuple((entry.code, entry.number, entry.class_name, *[None] * len(parts), None) for _, entry in members)
    return CellTable("marks", head, rows, tuple(range(3, 3 + len(parts))))


def names_table(members: Members) -> CellTable:
    """Which code is whose: the one table with names, to be kept apart."""
    head = ("code", "number", "name", "class")
    rows = tuple((entry.code, entry.number, student.name, student.class_name) for student, entry in members)
    return CellTable("names", head, rows)
