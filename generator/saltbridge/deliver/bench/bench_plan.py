"""Writes what a practical needs before the lesson: worksheet, technician's list, notes on risks."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from saltbridge.bank.bank import Bank, load_bank
from saltbridge.bank.practical import Practical, read_practical
from saltbridge.deliver.bench.lesson import Lesson
from saltbridge.deliver.bench.technician import risk_notes, technicians_list
from saltbridge.deliver.bench.worksheet import worksheet
from saltbridge.deliver.writing import replacing
from saltbridge.document import Handout
from saltbridge.home import shipped
from saltbridge.render.handout_page import handout_page
from saltbridge.render.typst import PaperWriter

SHEETS = {"worksheet": worksheet, "technicians-list": technicians_list, "notes-on-risks": risk_notes}
PAGES = ("worksheet",)
"""The sheets that are written as a page too, for a screen."""


def write_plan(file: Path, to: Path, bank_folder: Path | None) -> tuple[str, ...]:
    """Write the sheets of a practical into a folder; gives the names of the files. Raises ``Faulty`` with all faults of the file."""
    lesson = lesson_of(read_practical(file), load_bank(bank_folder or shipped("question_templates")))
    made = {name: make(lesson) for name, make in SHEETS.items()}
    with replacing(to) as folder:
        return tuple(_write(folder, made, lesson))


def lesson_of(practical: Practical, bank: Bank) -> Lesson:
    """The practical with its bank, in the language that the practical asks for."""
    language = practical.keys.language
    return Lesson(practical, replace(bank, settings=replace(bank.settings, language=language)) if language else bank)


def _write(folder: Path, made: dict[str, Handout], lesson: Lesson) -> list[str]:
    writer = PaperWriter(lesson.bank.settings, lesson.words)
    names = []
    for name, handout in made.items():
        (folder / f"{name}.pdf").write_bytes(writer.handout(handout).pdf)
        names.append(f"{name}.pdf")
        if name in PAGES:
            page = handout_page(handout, lesson.words, lesson.bank.settings.language)
            (folder / f"{name}.html").write_text(page, encoding="utf-8")
            names.append(f"{name}.html")
    return names
