"""A small bank printed with changed settings: its pages, a paper, a memorandum, a data sheet and its workings as plain text."""

from __future__ import annotations

import html
import re
import shutil
import tempfile
import unicodedata
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from pdf_reading import opened, text

from saltbridge.bank.bank import Bank, load_bank
from saltbridge.build import frame_of, practice_variants, sample_papers
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.printing import Printer
from saltbridge.compose.sheet_lines import sheet_page
from saltbridge.document import Paper
from saltbridge.render import pages
from saltbridge.render.text import working_text
from saltbridge.render.typst import PaperWriter
from saltbridge.words import catalogue as words_of

BANK = Path(__file__).parent / "bank"
Changes = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Printed:
    """What one bank prints: texts of its pages, a paper with its memorandum, its data sheet, and the workings of the paper."""

    page: str
    paper: str
    working: str
    sheet: str
    size: tuple[float, float]
    keys: tuple[dict[str, object], ...]


@cache
def printed(*changes: tuple[str, str]) -> Printed:
    """The trial bank with keys of ``bank.yaml`` changed or added."""
    with tempfile.TemporaryDirectory() as room:
        folder = Path(room) / "bank"
        shutil.copytree(BANK, folder)
        settings = folder / "bank.yaml"
        kept = [line for line in settings.read_text("utf-8").splitlines() if line.partition(":")[0] not in dict(changes)]
        settings.write_text("\n".join([*kept, *(f"{key}: {value}" for key, value in changes)]) + "\n", "utf-8")
        return _printed(load_bank(folder))


def _printed(bank: Bank) -> Printed:
    words = words_of(bank.settings.language)
    frame = frame_of(bank)
    made = [practice_variants(bank, template, 2) for template in bank.templates]
    site = [pages.question_page(questions, variants, frame, words) for questions, variants in made]
    papers = sample_papers(bank)
    paper, memorandum = papers[0], papers[len(papers) // 2]
    writer = PaperWriter(bank.settings, words)
    pdf = writer.paper(paper).pdf
    with opened(pdf) as file:
        box = [float(side) for side in file.pages[0].mediabox]
    sheet = text(writer.sheet(sheet_page(bank.sheet, Printer(bank.settings, catalogue()))).pdf)
    return Printed(
        page=plain("".join(page_text(page) for page in site)),
        paper=plain(text(pdf) + text(writer.paper(memorandum).pdf)),
        working=plain("\n".join(_workings(memorandum))),
        sheet=plain(sheet),
        size=(box[2], box[3]),
        keys=tuple(dict(part.judge) for questions, _ in made for question in questions for part in question.parts),
    )


def _workings(paper: Paper) -> list[str]:
    return [
        working_text(part.working, variant.slots, width=500) for question, variant in paper.questions for part in question.parts
    ]


def page_text(page: str) -> str:
    """The words of a page as its reader sees them, formulas run together, and the words that are read aloud in its stead."""
    body = re.sub(r"(?s)<(style|script)\b.*?</\1>", "", page)
    spoken = " ".join(re.findall(r'(?:alttext|aria-label)="([^"]*)"', body))
    return html.unescape(re.sub(r"<[^>]+>", "", body) + "\n" + spoken)


def plain(shown: str) -> str:
    """The text with all blanks alike and levels brought down to the line."""
    return re.sub(r"\s+", " ", unicodedata.normalize("NFKC", shown))
