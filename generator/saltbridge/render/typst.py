"""Papers, memoranda and data sheets as tagged PDF (produced to PDF/UA-1 and PDF/A-2a by the compiler).

One ``PaperWriter`` keeps one compiler, so that fonts and layouts are read once. Data goes in as JSON; see
``paper_data``. The file holds no time of its own and no system fonts: the same paper gives the same bytes.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import weakref
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

import typst

from saltbridge import document as doc
from saltbridge.faults import Fault, Faulty
from saltbridge.home import shipped
from saltbridge.records import Settings
from saltbridge.render.class_data import class_sheet_data, grid_data
from saltbridge.render.desks import desk
from saltbridge.render.figures import Print, figure_svg
from saltbridge.render.memo_parts import MemoEncoder
from saltbridge.render.paper_breaks import broken
from saltbridge.render.paper_data import Drawer, Encoder, clean
from saltbridge.render.paper_parts import QuestionEncoder, count
from saltbridge.render.paper_room import NORMAL, Measure
from saltbridge.render.sheet_data import sheet_data
from saltbridge.render.solution_parts import solution
from saltbridge.words import Words

_PAGE = re.compile(rb"/Type\s*/Page\b")
_KEPT_RUNS = 12
_MEMO, _PAPER = "memo.typ", "paper.typ"
_FOR_TEACHERS = frozenset({_MEMO, "class_sheet.typ", "marking_grid.typ"})
"""Layouts in ordinary print whatever that of papers is."""

STANDARDS: list[typst.PDFStandard] = ["ua-1", "a-2a"]


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF and what a teacher should know about it (such as a name that no font could draw)."""

    pdf: bytes
    notes: tuple[Fault, ...] = ()

    @property
    def pages(self) -> int:
        """How many pages it has: the compiler writes an object for each, in the open."""
        return len(_PAGE.findall(self.pdf))


class PaperWriter:
    """Writes papers of one bank; hold on to it, a second paper is ten times faster than the first."""

    def __init__(self, settings: Settings, words: Words, fonts: Sequence[Path] = (), draw: Drawer | None = None) -> None:
        self._settings = settings
        self._words = words
        self._draw = draw or partial(figure_svg, look=_look(settings))
        self._fonts = typst.Fonts(include_system_fonts=False, font_paths=[shipped("site") / "papers" / "fonts", *fonts])
        self._compilers: dict[str, typst.Compiler] = {}
        self._desk = desk()
        weakref.finalize(self, _clear, self._desk, os.getpid())
        shutil.copytree(shipped("site") / "papers", self._desk, dirs_exist_ok=True)

    # -------------------------------------------------------------- what is asked for

    def paper(self, paper: doc.Paper, sheet: doc.SheetPage | None = None) -> Printed:
        """One paper or memorandum, with its data sheet as last page if given. Raises ``Faulty`` (``undrawable``)."""
        return self.papers((paper,), sheet)

    def papers(self, papers: Sequence[doc.Paper], sheet: doc.SheetPage | None = None, *, stapled: bool = False) -> Printed:
        """Several papers, or several memoranda, in one tagged file, pages counted anew for each.

        ``stapled`` gives each the same even number of pages, so that a copier can staple every so many sheets.
        """
        if len({paper.memorandum for paper in papers}) != 1:
            raise ValueError("a file holds papers or memoranda, and at least one")
        shown, notes = self._with_drawable_names(papers)
        layout = _MEMO if papers[0].memorandum else _PAPER
        made = Printed(self._compile(layout, self._data(shown, sheet, stapled=stapled)), notes)
        if len(papers) > 1:
            self._forget()
        return made

    def pictures(self, paper: doc.Paper) -> tuple[bytes, ...]:
        """The pages of one paper or memorandum as SVG, to be looked at on a screen. Raises ``Faulty`` as ``paper`` does."""
        self.paper(paper)  # characters that can't be drawn are told here
        made = self._compilers[_MEMO if paper.memorandum else _PAPER].compile(format="svg")
        return tuple(made) if isinstance(made, list) else (made,) if isinstance(made, bytes) else ()

    def solutions(self, papers: Sequence[doc.Paper]) -> Printed:
        """What students get when the work is marked: every step of their own papers, with its sentence and the drawing."""
        copies = [
            {
                **self._copy(paper),
                "kind": self._words("Solutions"),
                "not-before": clean(paper.not_before),
                "questions": [solution(number, *pair, self._draw) for number, pair in enumerate(paper.questions, 1)],
            }
            for paper in papers
        ]
        title = f"{papers[0].title} · {self._words('Solutions')}"
        made = self._compile("solutions.typ", {**self._page(clean(title)), "stapled": False, "copies": copies, "sheet": None})
        self._forget()
        return Printed(made)

    def sheet(self, sheet: doc.SheetPage) -> Printed:
        """The data sheet as a file of its own."""
        data = {**self._page(clean(sheet.title)), "sheet": sheet_data(sheet, self._words, self._settings)}
        return Printed(self._compile("data_sheet.typ", data))

    def class_sheet(self, sheet: doc.ClassSheet) -> Printed:
        """A list for the teacher of a class."""
        made = self._compile("class_sheet.typ", {**self._page(clean(sheet.title)), "list": class_sheet_data(sheet)})
        self._forget()
        return Printed(made)

    def marking_grids(self, title: str, grids: Sequence[doc.MarkingGrid]) -> Printed:
        """Marking grids, each beginning a page."""
        data = {**self._page(clean(title)), "grids": [grid_data(each, self._words) for each in grids]}
        made = self._compile("marking_grid.typ", data)
        self._forget()
        return Printed(made)

    def handout(self, handout: doc.Handout) -> Printed:
        """A sheet for hands or for reading. Raises ``Faulty`` (``undrawable``)."""
        encoder = Encoder(None, self._draw)
        data = {
            **self._page(clean(handout.title)),
            "fill-in": [clean(label) for label in handout.fill_in],
            "footer": clean(handout.footer),
            "lead": encoder.blocks(handout.lead),
            "sections": [
                {"heading": clean(each.heading), "body": encoder.blocks(each.blocks), "whole": each.whole}
                for each in handout.sections
            ],
        }
        return Printed(self._compile("handout.typ", data))

    # -------------------------------------------------------------- data

    def _page(self, title: str) -> dict[str, Any]:
        words = self._words
        return {
            "lang": self._settings.language.partition("-")[0].partition("_")[0],
            "page": self._settings.paper,
            "title": title,
            "words": {
                "memorandum": words("Memorandum"),
                "solutions": words("Solutions"),
                "not-before": words("Not for students before {date}"),
                "errors": words("Common errors:"),
                "page": words("Page {page} of {pages}"),
                "question": words("Question"),
                "marks": words("Marks"),
                "earned": words("Earned"),
                "total": words("Total"),
                "instructions": words("Instructions"),
                "potentials": words("Standard electrode potentials"),
                "constants": words("Constants"),
                "masses": words("Relative atomic masses"),
            },
        }

    def _data(self, papers: Sequence[doc.Paper], sheet: doc.SheetPage | None, *, stapled: bool) -> dict[str, Any]:
        first = papers[0]
        tail = f" · {self._words('Memorandum')}" if first.memorandum else ""
        code = f" · {first.code}" if len(papers) == 1 and first.code else ""
        return {
            **self._page(clean(first.title + tail + code)),
            # A marker needs no large sheet.
            "page": "a4" if first.memorandum and self._settings.paper == "a3" else self._settings.paper,
            "stapled": stapled,
            "copies": [self._memo(paper) if paper.memorandum else self._paper(paper) for paper in papers],
            "sheet": None if sheet is None else sheet_data(sheet, self._words, self._settings),
        }

    def _copy(self, paper: doc.Paper) -> dict[str, Any]:
        return {
            "title": clean(paper.title),
            "set": clean(paper.set_title),
            "school": clean(self._settings.school),
            "code": clean(paper.code),
            "marks": count(self._words, paper.marks, "1 mark", "{count} marks"),
            "footer": clean(paper.footer),
            "lead": Encoder(None, self._draw).blocks(paper.lead),
        }

    def _paper(self, paper: doc.Paper) -> dict[str, Any]:
        questions = QuestionEncoder(self._settings, self._words, self._draw)
        copy = {
            **self._copy(paper),
            "kind": "",
            "total": paper.marks,
            "minutes": count(self._words, paper.minutes, "1 minute", "{count} minutes"),
            "entries": self._entries(paper),
            "questions": [questions.question(number, *pair) for number, pair in enumerate(paper.questions, 1)],
            "front": [clean(each) for each in paper.front],
        }
        headings = dict(paper.headings)
        for question in copy["questions"]:
            question["section"] = clean(headings.get(question["number"], ""))
        broken(copy, Measure.of(self._settings))
        return copy

    def _entries(self, paper: doc.Paper) -> list[tuple[str, str, int]]:
        """What stands beneath the title: label, value or nothing for a line to write on, share of the row."""
        words = self._words
        who = words("Candidate number:") if self._settings.students == "number" else words("Name:")
        entries = ((who, paper.student, 7), (words("Class:"), paper.class_name, 3), (words("Teacher:"), paper.teacher, 4))
        return [(label, clean(value), share) for label, value, share in (*entries, (words("Date:"), paper.date, 4))]

    def _memo(self, paper: doc.Paper) -> dict[str, Any]:
        questions = MemoEncoder(self._settings, self._words, self._draw, numbered=paper.numbered)
        version = self._words("version {number}", number=str(paper.version))
        return {
            **self._copy(paper),
            "kind": f"{self._words('Memorandum')}, {version}",
            "version": version,
            "not-before": clean(paper.not_before),
            "questions": [questions.question(number, *pair) for number, pair in enumerate(paper.questions, 1)],
        }

    # -------------------------------------------------------------- compiling

    def _compile(self, layout: str, data: dict[str, Any]) -> bytes:
        try:
            return self._pdf(layout, data)
        except typst.TypstError as error:
            raise self._explained(error, data) from None

    def _pdf(self, layout: str, data: Any) -> bytes:
        """Data go through a file beside copies of the layouts: a third faster than inputs, which unsettle the cache."""
        folder = self._desk
        if layout not in self._compilers:
            size = NORMAL if layout in _FOR_TEACHERS else self._settings.print_size
            inputs = {"size": str(size)}
            self._compilers[layout] = typst.Compiler(folder / layout, root=folder, font_paths=self._fonts, sys_inputs=inputs)
        (folder / "data.json").write_text(json.dumps(data, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
        made = self._compilers[layout].compile(format="pdf", pdf_standards=STANDARDS, timestamp=0)
        if not isinstance(made, bytes):
            raise TypeError(f"the compiler gave {type(made).__name__} instead of one PDF")
        return made

    def _forget(self) -> None:
        """Let go of what the compiler keeps of a long file: it drops what ten runs have not used."""
        for _ in range(_KEPT_RUNS):
            self._draws([])

    def _explained(self, error: typst.TypstError, data: dict[str, Any]) -> Faulty:
        faults = [
            Fault(
                "undrawable",
                expected="characters that the paper's fonts can draw",
                found=", ".join(f"{mark} (U+{ord(mark):04X})" for mark in marks),
                hint="Write it another way, or give a folder of fonts that have these characters.",
                key=place,
            )
            for place, texts in _places(data)
            if (marks := self._undrawable(texts))
        ]
        if faults:
            return Faulty(faults)
        hint = " ".join(error.hints)
        return Faulty([Fault("paper-not-set", expected="a paper that can be set", found=error.message, hint=hint)])

    # -------------------------------------------------------------- characters

    def _with_drawable_names(self, papers: Sequence[doc.Paper]) -> tuple[tuple[doc.Paper, ...], tuple[Fault, ...]]:
        """Papers whose names can be drawn; the list number stands in for a name that can't, and a note says so."""
        shown: list[doc.Paper] = []
        notes: list[Fault] = []
        for paper in papers:
            marks = "" if paper.student.isascii() else self._undrawable([clean(paper.student)])
            if marks and paper.list_number:
                notes.append(_name_note(paper, marks))
                shown.append(replace(paper, student=paper.list_number))
            else:
                shown.append(paper)
        return tuple(shown), tuple(notes)

    def _undrawable(self, texts: Sequence[str]) -> str:
        """The characters of these texts that no font draws, found by setting them (first all, then one by one)."""
        marks = sorted({mark for text in texts for mark in text if not mark.isascii()})
        return "" if self._draws(marks) else "".join(mark for mark in marks if not self._draws([mark]))

    def _draws(self, texts: Sequence[str]) -> bool:
        try:
            self._pdf("probe.typ", list(texts))
        except typst.TypstError:
            return False
        return True


def _look(settings: Settings) -> Print:
    """How drawings look beside the text of these papers."""
    if settings.print_size <= NORMAL:
        return Print()
    grown = settings.print_size / NORMAL
    return Print("DejaVu Sans", "bold", settings.print_size, Measure.of(settings).width, 42 * grown)


def _clear(folder: Path, owner: int) -> None:
    """Drop a writer's folder when the writer goes, but not from a process that was forked off its owner."""
    if os.getpid() == owner:
        shutil.rmtree(folder, ignore_errors=True)


def _name_note(paper: doc.Paper, marks: str) -> Fault:
    found = ", ".join(f"{mark} (U+{ord(mark):04X})" for mark in marks)
    return Fault(
        "undrawable-name",
        expected="a name in letters that the paper's fonts can draw",
        found=found,
        hint="The paper carries the list number instead; give a folder of fonts to print the name.",
        key=f"row {paper.list_number}",
    )


def _places(data: dict[str, Any]) -> Iterator[tuple[str, list[str]]]:
    """The texts of a paper by the place that a teacher knows: name, head, question, data sheet."""
    yield "words", list(_texts(data["words"]))
    for copy in data.get("copies", ()):
        yield f"{copy['code']}: name", [value for _, value, _ in copy.get("entries", ())]
        yield f"{copy['code']}: head", list(_texts([copy[key] for key in ("title", "set", "school", "code", "footer", "lead")]))
        for question in copy["questions"]:
            yield f"{copy['code']}: question {question['number']} ({question['title']})", list(_texts(question))
    for part in ("list", "grids"):
        if part in data:
            yield "class sheet", list(_texts(data[part]))
    for section in data.get("sections", ()):
        yield section["heading"], list(_texts(section))
    if "sections" in data:
        yield "head", list(_texts([data[key] for key in ("title", "footer", "lead", "fill-in")]))
    if data.get("sheet"):
        yield "data sheet", list(_texts(data["sheet"]))


def _texts(node: Any) -> Iterator[str]:
    if isinstance(node, str):
        yield node
    elif isinstance(node, dict):
        for value in node.values():
            yield from _texts(value)
    elif isinstance(node, list):
        for value in node:
            yield from _texts(value)
