"""What is printed for the teacher of a class: lists with a row a student or a part, and marking grids."""

from __future__ import annotations

from dataclasses import dataclass

from saltbridge.document.inline import Grid, Spans
from saltbridge.document.tree import Variant


@dataclass(frozen=True, slots=True)
class ClassSheet:
    """A printed list: ``lead`` are paragraphs above its tables, ``entries`` lines to fill in; ``open_rows`` have room to write in.

    ``landscape`` turns the page; ``footer`` tells what made it.
    """

    title: str
    set_title: str
    footer: str
    lead: tuple[Spans, ...]
    tables: tuple[Grid, ...]
    entries: tuple[str, ...] = ()
    landscape: bool = False
    open_rows: bool = False


@dataclass(frozen=True, slots=True)
class WrongValue:
    """What an error gives: its letter, the value, and whether the error was made in an earlier part and followed through."""

    letter: str
    value: Spans
    follows: bool = False


@dataclass(frozen=True, slots=True)
class GridCell:
    """One student's part: the answer, what is accepted, what the common errors give."""

    answer: Spans
    accepted: Spans
    wrong: tuple[WrongValue, ...]


@dataclass(frozen=True, slots=True)
class GridRow:
    """One student; the spans of the cells may hold slots of ``variant``."""

    code: str
    number: str
    variant: Variant
    cells: tuple[GridCell, ...]


@dataclass(frozen=True, slots=True)
class MarkingGrid:
    """One question for all students: ``parts`` are label and marks; ``key`` says what each letter stands for.

    ``points`` are those of answers in words, each with the label of its part, as the first student's copy has them.
    """

    number: int
    title: str
    set_title: str
    policy: str
    version: int
    footer: str
    parts: tuple[tuple[str, int], ...]
    rows: tuple[GridRow, ...]
    key: tuple[tuple[str, Spans], ...]
    points: tuple[tuple[str, Spans], ...] = ()
