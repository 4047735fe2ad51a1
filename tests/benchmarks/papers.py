"""A paper of four pages as tagged PDF against Typst on the same paper as plain markup.

The rival holds the same words, formulas, drawings and tables, for the same PDF standards, written out as markup.
"""

from __future__ import annotations

import re
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from io import BytesIO
from itertools import cycle
from pathlib import Path
from typing import Any

import pikepdf
import typst
from measure import Ratio, seconds
from plain_paper import paper_markup

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from paper_specimen import specimen_paper, specimen_sheet

from saltbridge.document import Figure, Paper, Piece, SheetPage, Text
from saltbridge.records import Settings
from saltbridge.render.typst import STANDARDS, PaperWriter
from saltbridge.words import catalogue


def pages(pdf: bytes) -> int:
    """How many pages a PDF has."""
    with pikepdf.open(BytesIO(pdf)) as opened:
        return len(opened.pages)


def renumbered(node: Any, number: int) -> Any:
    """The same piece of a document with other words and digits, so that no cache of Typst helps either side."""
    if isinstance(node, Text):
        return replace(node, text=f"{node.text} {number}") if node.text.strip() else node
    if isinstance(node, Piece):
        return node._replace(text=re.sub(r"\d(?=\D*$)", str(number % 10), node.text) if "." in node.text else node.text)
    if isinstance(node, tuple):
        return tuple(renumbered(each, number) for each in node)
    if is_dataclass(node) and not isinstance(node, (Figure, type)):
        return replace(node, **{each.name: renumbered(getattr(node, each.name), number) for each in fields(node)})
    return node


def ratios() -> Iterator[Ratio]:
    """One memorandum with its data sheet, then a hundred papers in one file."""
    sheet = specimen_sheet()
    writer = PaperWriter(Settings(), catalogue("en"))
    times = next(n for n in range(1, 20) if pages(writer.paper(specimen_paper(times=n, memorandum=True), sheet).pdf) >= 4)
    some = [renumbered(specimen_paper(times=times, memorandum=True), number) for number in range(200)]
    own, other = cycle(some), cycle(some)
    ours = seconds(lambda: writer.paper(next(own), sheet), rounds=3)
    work = f"a memorandum of {pages(writer.paper(some[0], sheet).pdf)} pages"
    theirs, length = _plain(other, sheet)
    yield Ratio(work, ours, f"Typst on plain markup, {length} pages", theirs, "≤ 1.5 ×; ≥ 40 a second")
    class_set = [renumbered(specimen_paper(times=times), number) for number in range(100)]
    together = seconds(lambda: writer.papers(class_set), rounds=1)
    yield Ratio("a class of 100 papers in one file", together, "100 memoranda one by one", 100 * ours, "one compile")


def _plain(papers: Iterator[Paper], sheet: SheetPage) -> tuple[float, int]:
    """Seconds for the plain markup, its making included, and its number of pages."""
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "plain.typ"
        source.touch()
        compiler = typst.Compiler(source, root=Path(folder), font_paths=typst.Fonts(include_system_fonts=False))

        def compile_once() -> bytes:
            source.write_text(paper_markup(next(papers), sheet), encoding="utf-8")
            made = compiler.compile(format="pdf", pdf_standards=STANDARDS, timestamp=0)
            assert isinstance(made, bytes)
            return made

        return seconds(compile_once, rounds=3), pages(compile_once())
