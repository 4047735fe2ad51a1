"""Writes what comes of a class's readings: a report for each class, and a small bank of questions from them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from saltbridge.bank.bank import load_bank
from saltbridge.bank.practical import read_practical
from saltbridge.deliver.bench.bench_plan import lesson_of
from saltbridge.deliver.bench.class_questions import class_questions
from saltbridge.deliver.bench.class_readings import ClassReading
from saltbridge.deliver.bench.class_report import class_report, findings
from saltbridge.deliver.bench.cleaning import clean
from saltbridge.deliver.bench.lesson import Lesson
from saltbridge.deliver.bench.readings_file import readings_of
from saltbridge.deliver.homework.list_cells import read_rows
from saltbridge.deliver.writing import replacing
from saltbridge.home import shipped
from saltbridge.render.handout_page import handout_page
from saltbridge.render.typst import PaperWriter


@dataclass(frozen=True, slots=True)
class BenchDone:
    """What was written, and what the teacher should know at once."""

    files: tuple[str, ...]
    flagged: int
    questions: bool


def write_results(file: Path, plan: Path, to: Path, bank_folder: Path | None) -> BenchDone:
    """Read a file of readings, write reports and questions. Raises ``Faulty`` with all faults of plan or readings."""
    lesson = lesson_of(read_practical(plan), load_bank(bank_folder or shipped("question_templates")))
    readings = readings_of(read_rows(file, ("group", "class", "red")), lesson.practical, file.name)
    found = findings(readings, lesson)
    kept = clean(readings, found.flagged)
    questions = class_questions(kept, lesson)
    with replacing(to, ("questions",) if questions else ()) as folder:
        files = _reports(folder, readings, lesson)
        for name, text in questions.items():
            (folder / "questions" / name).parent.mkdir(exist_ok=True)
            (folder / "questions" / name).write_text(text, encoding="utf-8")
    return BenchDone((*files, *(f"questions/{name}" for name in questions)), len(found.flagged), bool(questions))


def _reports(folder: Path, readings: tuple[ClassReading, ...], lesson: Lesson) -> list[str]:
    """A report for each class, as PDF and page."""
    writer = PaperWriter(lesson.bank.settings, lesson.words)
    names = []
    for at, name in enumerate(dict.fromkeys(each.class_name for each in readings), 1):
        found = findings([each for each in readings if each.class_name == name], lesson)
        report = class_report(found, lesson, name)
        stem = f"report-{at}"
        (folder / f"{stem}.pdf").write_bytes(writer.handout(report).pdf)
        page = handout_page(report, lesson.words, lesson.bank.settings.language)
        (folder / f"{stem}.html").write_text(page, encoding="utf-8")
        names += [f"{stem}.pdf", f"{stem}.html"]
    return names
