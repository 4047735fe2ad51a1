"""The order of the stages: a bank becomes a practice site and sample papers. Only this file knows it."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from saltbridge.answers.sentences import page_sentences
from saltbridge.answers.unit_words import unit_table
from saltbridge.bank.bank import Bank, survey_bank
from saltbridge.bank.doubtful import OF_NAMES
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.bench_metals import bench_page
from saltbridge.compose.practice import VARIANTS, practice_variants, provenance
from saltbridge.compose.printing import Printer
from saltbridge.compose.question import Composer
from saltbridge.compose.sheet_lines import sheet_line, sheet_page
from saltbridge.deliver.papers import paper_code, paper_letters, set_papers
from saltbridge.deliver.proof.failures import failed
from saltbridge.deliver.proof.locate_fault import placed
from saltbridge.deliver.proof.signoff import unsigned
from saltbridge.deliver.site import site_into
from saltbridge.deliver.workers import workers
from saltbridge.deliver.writing import named, refuse, replacing
from saltbridge.document import Paper, Paragraph, Question, Text, Variant
from saltbridge.draw.hidden_rows import hidden_rows, rows_read
from saltbridge.faults import Fault, FaultList, Faulty
from saltbridge.forms.registries import LEVELS, outcomes
from saltbridge.home import shipped
from saltbridge.policy import policy
from saltbridge.render import pages
from saltbridge.render.desks import clear_abandoned
from saltbridge.render.typst import PaperWriter
from saltbridge.words import Words
from saltbridge.words import of_bank as words_of

SITE, TEACHER = PARTS = ("site", "teacher")
PARALLEL_PAPERS = 4
PAPER_MARKS = 30
Tell = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Published:
    """Where everything is, how much there is, and doubts that did not stop it."""

    site: Path
    teacher: Path
    pages: int
    papers: int
    warnings: tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class _Made:
    """One template's page, or its faults."""

    template: str
    page: str
    entry: pages.Entry | None
    faults: tuple[Fault, ...]


def _quiet(_stage: str) -> None:
    """Say nothing."""


def publish(
    bank: Path | None, to: Path, tell: Tell = _quiet, *, executor: Executor | None = None, variants: int = VARIANTS
) -> Published:
    """Write ``to/site`` (public) and ``to/teacher`` (sample papers, memoranda, data sheet) from a bank folder.

    ``bank`` is the shipped one where ``None``. ``executor`` spreads templates over workers (own processes without it). Raises
    ``Faulty`` with all faults of the bank, those of its files and those that only draws show, and then writes nothing.
    """
    to = named(to)
    refuse(to, PARTS)
    tell("Reading the bank")
    folder, run = (bank or shipped("question_templates")).absolute(), f"{os.getpid()} {time.monotonic_ns()}"
    read, unread = _bank(folder, run)
    tell(f"Drawing {variants} variants of each of {len(read.templates)} templates")
    jobs = [_Job(folder, run, each.id, variants) for each in (*read.templates, *read.doubtful)]
    made = _all_made(jobs, executor)
    unread += unsigned(read, read.templates)
    FaultList([*unread, *(fault for each in made for fault in each.faults)]).stop_if_any()
    tell("Setting the papers")
    cleared = tuple(_abandoned(path) for path in clear_abandoned())
    printer = Printer(read.settings, catalogue(read.folder))
    papers = sample_papers(read)
    hidden, kept = hidden_of_papers(read)
    set_ = set_papers(papers, sheet_page(read.sheet, printer, hidden), PaperWriter(read.settings, printer.words))
    tell("Writing the folder")
    written = _site(read, [each for each in made if each.entry])
    with replacing(to, PARTS) as staging:
        site_into(staging / SITE, written)
        set_.into(staging / TEACHER)
    notes = (*set_.notes, *kept, *cleared, *(() if papers else (_NO_PAPER,)))
    return Published(to / SITE, to / TEACHER, len(written), len(papers), (*read.warnings, *notes))


_NO_PAPER = Fault(
    "no-paper", "a question that a sample paper may hold", "none",
    f"Write `use: [practice, homework]` in a template; a paper has at most {PAPER_MARKS} marks.",
)  # fmt: skip


def _abandoned(desk: Path) -> Fault:
    """A word on a folder that a killed run had left."""
    return Fault(
        "desk-cleared", "no folder of an earlier run", f"{desk}, which a run that was ended had left", "It is removed now."
    )


# ------------------------------------------------------------------ site


@dataclass(frozen=True, slots=True)
class _Job:
    """One template for a worker; ``run`` tells publishes apart, so that a bank changed between two is read again."""

    folder: Path
    run: str
    template: str
    variants: int


@lru_cache(maxsize=2)
def _bank(folder: Path, _run: str) -> tuple[Bank, tuple[Fault, ...]]:
    """What can be read of the bank, and the faults of the rest."""
    return survey_bank(folder)


def _all_made(jobs: Sequence[_Job], executor: Executor | None) -> list[_Made]:
    if executor is not None:
        return list(executor.map(_made, jobs))
    hands = min(len(jobs), os.cpu_count() or 1)
    if hands < 2:
        return [_made(job) for job in jobs]
    with workers(hands) as pool:
        return list(pool.map(_made, jobs))


def _made(job: _Job) -> _Made:
    """One template's page, where it is for practice; its faults are handed back, since they are told with those of the others."""
    bank, _ = _bank(job.folder, job.run)
    template = bank.readable(job.template)
    if template is None:
        raise KeyError(job.template)
    if template in bank.doubtful:
        return _Made(template.id, "", None, _of_names(bank, template))
    public = "practice" in template.use
    try:
        questions, variants = practice_variants(bank, template, job.variants if public else PARALLEL_PAPERS)
    except Faulty as error:
        return _Made(template.id, "", None, tuple(placed(template, each) for each in error.faults))
    except Exception as error:  # noqa: BLE001 - what is wrong with the others is told too
        return _Made(template.id, "", None, (failed(template, "no variants of it", error),))
    if not public:
        return _Made(template.id, "", None, ())
    frame, words = frame_of(bank), words_of(bank.settings)
    outcome = heading_of(template, words)
    page = pages.question_page(questions, variants, frame, words, level=template.level, outcome=outcome)
    first = questions[variants[0].shape]
    entry = pages.Entry(template.title, f"{template.id}.html", outcome, template.level, first.marks, first.minutes, len(variants))
    return _Made(template.id, page, entry, ())


def _of_names(bank: Bank, template: Template) -> tuple[Fault, ...]:
    """What is wrong with the names of a template that can't be read whole."""
    try:
        practice_variants(bank, template, 1)
    except Faulty as error:
        return tuple(placed(template, each) for each in error.faults if each.code in OF_NAMES)
    except Exception:  # noqa: BLE001 - its faults are told already, and what stands in for them may not go together
        return ()
    return ()


def heading_of(template: Template, words: Words) -> str:
    """What the template belongs to, as a student reads it."""
    return words(outcomes()[template.outcome].can)


def frame_of(bank: Bank) -> pages.Frame:
    """What every page of the bank's site says about itself."""
    words = words_of(bank.settings)
    return pages.Frame(
        title=bank.settings.title, bank_id=bank.id, sentences=page_sentences(words), language=bank.settings.language,
        provenance=provenance(bank), licence=bank.licence, standard_sign=bank.settings.standard_sign,
        units=unit_table(words),
    )  # fmt: skip


def _site(bank: Bank, made: Iterable[_Made]) -> dict[str, str]:
    words, frame = words_of(bank.settings), frame_of(bank)
    printer = Printer(bank.settings, catalogue(bank.folder))
    line = sheet_line(bank.sheet, printer)
    order = {template.id: (_outcome_place(template.outcome), LEVELS.index(template.level)) for template in bank.templates}
    listed = sorted(made, key=lambda each: (*order[each.template], each.template))
    written = {"index.html": pages.index_page([each.entry for each in listed if each.entry], line, frame, words)}
    written["sheet.html"] = pages.sheet_page(sheet_page(bank.sheet, printer), line, frame, words)
    written["guide.html"] = pages.guide_page(frame, words)
    written |= pages.authors_pages(frame, words)
    written["bench.html"] = bench_page(bank, frame)
    return written | {f"{each.template}.html": each.page for each in listed}


def _outcome_place(outcome: str) -> int:
    return list(outcomes()).index(outcome)


# ------------------------------------------------------------------ sample papers


def sample_papers(bank: Bank) -> tuple[Paper, ...]:
    """Parallel versions of one sample paper, each with its memorandum, from the templates for homework in outcome order.

    None where no question is for homework.

    Raises ``Faulty`` with the faults of all templates that can't be drawn.
    """
    words = words_of(bank.settings)
    chosen = _paper_templates(bank)
    if not chosen:
        return ()
    papers = []
    for place in range(1, PARALLEL_PAPERS + 1):
        letters = paper_letters(place)
        pairs = _drawn(chosen, place, paper_seed(place))
        papers.append(paper_of(bank, tuple(pairs), letters, words))
    return (*papers, *(memorandum_of(paper, bank, words) for paper in papers))


def hidden_of_papers(bank: Bank) -> tuple[frozenset[str], tuple[Fault, ...]]:
    """The couples whose rows the papers' data sheet leaves out, and a word on each that another question needs."""
    if not any(each.hide_row for each in _homework(bank)):
        return frozenset(), ()
    chosen = _paper_templates(bank)
    hidden: dict[str, Template] = {}
    needed: dict[str, str] = {}
    for composer in chosen:
        for place in range(1, PARALLEL_PAPERS + 1):
            drawn = composer.drawer.draw(paper_seed(place))
            hidden.update(dict.fromkeys(hidden_rows(composer.template, drawn), composer.template))
            if not composer.template.hide_row:
                needed.update(dict.fromkeys(rows_read(drawn), composer.template.id))
    hint = "Take one of the two questions out of `homework`."
    notes = [
        template.fault(
            "hide row", "row-needed", expected=f"no other question that reads {couple}", found=needed[couple], hint=hint
        )
        for couple, template in hidden.items()
        if couple in needed
    ]
    return frozenset(hidden) - needed.keys(), tuple(notes)


def paper_seed(place: int) -> str:
    """The seed of a parallel sample paper, from 1."""
    return f"sample paper {paper_letters(place)}"


def _drawn(composers: Iterable[Composer], number: int, seed: str) -> list[tuple[Question, Variant]]:
    faults = FaultList()
    pairs = []
    for composer in composers:
        try:
            variant = composer.variant(number, seed)
        except Faulty as error:
            faults.extend(placed(composer.template, each) for each in error.faults)
        else:
            pairs.append((composer.question(variant), variant))
    faults.stop_if_any()
    return pairs


def _homework(bank: Bank) -> list[Template]:
    """The templates for homework, in the order of their outcomes."""
    return sorted(
        (each for each in bank.templates if "homework" in each.use), key=lambda each: (_outcome_place(each.outcome), each.id)
    )


def _paper_templates(bank: Bank) -> list[Composer]:
    """The first templates for homework, up to the marks of a paper."""
    composers = [Composer(template, bank, catalogue(bank.folder)) for template in _homework(bank)]
    chosen: list[Composer] = []
    marks = 0
    for composer, (question, _) in zip(composers, _drawn(composers, 1, "marks"), strict=True):
        if marks + question.marks <= PAPER_MARKS:
            chosen.append(composer)
            marks += question.marks
    return chosen


def paper_of(bank: Bank, pairs: tuple[tuple[Question, Variant], ...], letters: str, words: Words) -> Paper:
    """A sample paper of these questions; its letters are those of papers set side by side."""
    lead = Paragraph((Text(words("Answer every question. Show your working. Use the values of the data sheet.")),))
    marks, minutes = (sum(getattr(question, what) for question, _ in pairs) for what in ("marks", "minutes"))
    code = paper_code("SAMPLE", letters)
    return Paper(words("Sample paper"), bank.settings.title, code, (lead,), pairs, marks, minutes, False, provenance(bank))


def memorandum_of(paper: Paper, bank: Bank, words: Words) -> Paper:
    """The memorandum of a paper."""
    found = policy(bank.settings.policy)
    say = Paragraph((Text(" ".join(words(each) for each in found.says)),))
    return replace(paper, lead=(say,), memorandum=True, numbered=found.numbered)
