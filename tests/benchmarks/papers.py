"""A memorandum of four pages as tagged PDF, and its paper, each against Typst on the same as plain markup.

The rival holds the same words, formulas, drawings, answer rooms, number line and tables, for the same PDF standards, written out
as markup. No paper is set twice: every one has words and digits of its own, so that no cache of Typst helps either side.
"""

from __future__ import annotations

import re
import resource
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from io import BytesIO
from itertools import count
from pathlib import Path
from time import process_time
from typing import Any

import pikepdf
import typst
from measure import Ratio
from plain_paper import paper_markup

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from paper_specimen import specimen_paper, specimen_sheet

from saltbridge.document import Figure, Paper, Piece, SheetPage, Text
from saltbridge.records import Settings
from saltbridge.render.typst import STANDARDS, PaperWriter
from saltbridge.words import catalogue

FILE = 25
"""Papers in one file."""


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
    """A memorandum and a paper with the data sheet, then papers in one file, with the memory that setting many takes."""
    sheet = specimen_sheet()
    writer = PaperWriter(Settings(), catalogue("en"))
    times = next(n for n in range(1, 20) if pages(writer.paper(specimen_paper(times=n, memorandum=True), sheet).pdf) >= 4)
    numbers = count()
    for name, memorandum, aim in (("a memorandum", True, "≤ 1.5 ×; ≥ 40 a second"), ("a paper", False, "≤ 1.5 ×")):

        def fresh(memorandum: bool = memorandum) -> Paper:
            return renumbered(specimen_paper(times=times, memorandum=memorandum), next(numbers))

        work = f"{name} of {pages(writer.paper(fresh(), sheet).pdf)} pages"
        ours = _setting(lambda paper: writer.paper(paper, sheet), fresh)
        theirs, length = _plain(fresh, sheet)
        yield Ratio(work, ours, f"Typst on plain markup, {length} pages", theirs, aim)
    before = _memory()
    together = _setting(writer.papers, lambda: [fresh() for _ in range(FILE)], rounds=2)
    yield Ratio(
        f"{FILE} papers in one file (memory {before:.0f} to {_memory():.0f} MiB)", together, f"{FILE} one by one", FILE * ours
    )


def _memory() -> float:
    """The most memory that was in use so far, in MiB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1 if sys.platform == "darwin" else 1024) / 2**20


def _setting(work: Callable[[Any], object], fresh: Callable[[], Any], rounds: int = 12) -> float:
    """Processor seconds for one of several, each made before the clock starts; the quickest counts."""
    spent = []
    for made in [fresh() for _ in range(rounds)]:
        begin = process_time()
        work(made)
        spent.append(process_time() - begin)
    return min(spent)


def _plain(fresh: Callable[[], Paper], sheet: SheetPage) -> tuple[float, int]:
    """Seconds for the plain markup, its making included, and its number of pages."""
    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "plain.typ"
        source.touch()
        compiler = typst.Compiler(source, root=Path(folder), font_paths=typst.Fonts(include_system_fonts=False))

        def compiled(paper: Paper) -> bytes:
            source.write_text(paper_markup(paper, sheet), encoding="utf-8")
            made = compiler.compile(format="pdf", pdf_standards=STANDARDS, timestamp=0)
            assert isinstance(made, bytes)
            return made

        length = pages(compiled(fresh()))
        return _setting(compiled, fresh), length
