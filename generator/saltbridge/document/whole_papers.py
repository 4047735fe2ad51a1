"""What is printed as a whole: a paper, its memorandum, the data sheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from saltbridge.document.inline import Block, Symbol
from saltbridge.document.pieces import Inscription
from saltbridge.document.tree import Question, Variant


@dataclass(frozen=True, slots=True)
class Paper:
    """A printed paper or its memorandum: filled questions and a head; ``footer`` tells which bank, template and table made it.

    ``student`` stands on the name line, ``list_number`` where no font can draw it. What is empty stays an open line.
    ``version`` is the memorandum's; it is not for students before the day ``not_before``; with ``numbered``, its marks carry numbers.
    ``headings`` stand before the question of their number; ``front`` are instructions, which make a front page with a table of marks.
    """

    title: str
    set_title: str
    code: str
    lead: tuple[Block, ...]
    questions: tuple[tuple[Question, Variant], ...]
    marks: int
    minutes: int
    memorandum: bool
    footer: str
    student: str = ""
    list_number: str = ""
    class_name: str = ""
    teacher: str = ""
    date: str = ""
    version: int = 1
    not_before: str = ""
    numbered: bool = False
    headings: tuple[tuple[int, str], ...] = ()
    front: tuple[str, ...] = ()


# ------------------------------------------------------------------ handouts


@dataclass(frozen=True, slots=True)
class Section:
    """A section of a handout: its heading, and what stands beneath; with ``whole`` its tables stay on one page."""

    heading: str
    blocks: tuple[Block, ...]
    whole: bool = True


@dataclass(frozen=True, slots=True)
class Handout:
    """A sheet for hands or for reading that asks no marks: ``fill_in`` are the labels of lines to write on at its head."""

    title: str
    lead: tuple[Block, ...]
    sections: tuple[Section, ...]
    fill_in: tuple[str, ...] = ()
    footer: str = ""


# ------------------------------------------------------------------ data sheet


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One row of the table of potentials; ``couple`` and ``volts`` place it on the number line."""

    half: Inscription
    potential: Inscription
    couple: Inscription
    volts: float


@dataclass(frozen=True, slots=True)
class SheetConstant:
    """A constant with the digits that students use."""

    name: str
    symbol: Symbol
    value: Inscription


@dataclass(frozen=True, slots=True)
class SheetPage:
    """The data sheet as a page of its own; ``rows`` stand in printed order, ``masses`` are (symbol, printed mass)."""

    title: str
    order: Literal["downward", "upward"]
    rows: tuple[SheetLine, ...]
    constants: tuple[SheetConstant, ...]
    masses: tuple[tuple[str, str], ...]
    citation: str = ""
