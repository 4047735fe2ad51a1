"""The papers of a set as jobs for a printer: a file holds copies of one size of print and paper, at most so many."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from saltbridge import document as doc
from saltbridge.deliver.homework.class_list import Student
from saltbridge.deliver.homework.file_names import class_stems, stem
from saltbridge.deliver.homework.record import Entry
from saltbridge.deliver.papers import in_files
from saltbridge.records import Settings


@dataclass(frozen=True, slots=True)
class Copy:
    """One paper to print: whose, in which settings and language."""

    student: Student
    entry: Entry
    settings: Settings
    minutes: int


@dataclass(frozen=True, slots=True)
class Job:
    """A file to print: its name without ending, what it holds; ``apart`` from the others where its print or paper differs."""

    name: str
    copies: tuple[Copy, ...]
    apart: bool


@dataclass(frozen=True, slots=True)
class PrintedJob:
    """A job that is set: its pages in all."""

    job: Job
    pages: int

    @property
    def pages_each(self) -> int:
        """Pages of one copy; all of a job have the same even number."""
        return self.pages // len(self.job.copies)

    @property
    def sheets(self) -> int:
        """Sheets of the whole job, printed on both sides."""
        return -(-self.pages // 2)


def copies(members: Sequence[tuple[Student, Entry]], usual: Settings, minutes: int) -> Iterator[Copy]:
    """The copies in printed order; a student with two languages gets one in each."""
    for student, entry in members:
        wish = student.arrangement
        longer = -(-minutes * (100 + wish.extra_time) // 100)
        settings = _arranged(usual, wish.print_size, wish.paper)
        for language in wish.languages or (usual.language,):
            yield Copy(student, entry, replace(settings, language=language), longer)


def _arranged(usual: Settings, print_size: str, paper: str) -> Settings:
    size = int(print_size) if print_size else usual.print_size
    return replace(usual, print_size=size, paper=paper or usual.paper)  # type: ignore[arg-type]  # the class list has checked the word


def jobs(title: str, every: Sequence[Copy], usual: Settings) -> tuple[Job, ...]:
    """The jobs of a set: class by class in usual print, then each other size of print, paper and language by itself."""
    stems = class_stems(title, (each.entry.class_name for each in every))
    found: list[Job] = []
    for class_name, first in stems.items():
        chosen = [each for each in every if each.settings == usual and each.entry.class_name == class_name]
        found += _files(f"{first}-papers", chosen, apart=False)
    for settings in dict.fromkeys(each.settings for each in every if each.settings != usual):
        chosen = [each for each in every if each.settings == settings]
        found += _files(f"{stem(title)}-{_told(settings, usual)}", chosen, apart=True)
    return tuple(found)


def _files(name: str, chosen: Sequence[Copy], *, apart: bool) -> Iterator[Job]:
    for each, part in in_files(name, chosen):
        yield Job(each, tuple(part), apart)


def _told(settings: Settings, usual: Settings) -> str:
    """What is different, in a word or two."""
    told = [
        f"print-{settings.print_size}" if settings.print_size != usual.print_size else "",
        settings.paper if settings.paper != usual.paper else "",
        settings.language if settings.language != usual.language else "",
    ]
    return "-".join(each for each in told if each)


def paper_of(copy: Copy, head: doc.Paper, questions: tuple[tuple[doc.Question, doc.Variant], ...], *, named: bool) -> doc.Paper:
    """The paper of a copy: with the student's name, or with the number alone."""
    shown = copy.student.name if named and copy.student.name and copy.settings.students == "name" else copy.entry.number
    return replace(
        head, questions=questions, code=copy.entry.code, student=shown, list_number=copy.entry.number,
        class_name=copy.entry.class_name, minutes=copy.minutes,
    )  # fmt: skip
