"""The order of the stages: a bank becomes a practice site and sample papers. Only this file knows it."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from saltbridge import __version__
from saltbridge.answers.sentences import page_sentences
from saltbridge.bank.bank import Bank, load_bank
from saltbridge.bank.known import outcomes
from saltbridge.bank.template import Template
from saltbridge.compose.printing import Printer
from saltbridge.compose.question import Composer
from saltbridge.compose.sheet import sheet_line, sheet_page
from saltbridge.deliver.papers import paper_code, paper_letters, write_papers
from saltbridge.deliver.site import write_site
from saltbridge.deliver.writing import claim
from saltbridge.derivation.catalogue import catalogue
from saltbridge.document import Paper, Paragraph, Question, Text, Variant
from saltbridge.draw.allocate import practice_seed
from saltbridge.faults import Fault, FaultList, Faulty
from saltbridge.home import shipped
from saltbridge.policy import policy
from saltbridge.render import pages
from saltbridge.words import Words
from saltbridge.words import catalogue as words_of

VARIANTS = 30
PARALLEL_PAPERS = 4
PAPER_MARKS = 30
_SPARE_SEEDS = 4  # seeds tried for each variant wanted, since a seed may draw what another drew
LEVELS = ("introductory", "core", "advanced", "first-year")
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
    ``Faulty`` with all faults of the bank, and then writes nothing.
    """
    folder = bank or shipped("question_templates")
    tell("Reading the bank")
    read = _bank(folder)
    claim(to)
    practice = [each for each in read.templates if "practice" in each.use]
    tell(f"Drawing {variants} variants of each of {len(practice)} templates")
    made = _all_pages(folder, practice, variants, executor)
    faults = FaultList([fault for each in made for fault in each.faults])
    faults.stop_if_any()
    tell("Writing the site")
    written = _site(read, made)
    write_site(to / "site", written)
    tell("Setting the papers")
    papers = sample_papers(read)
    printer = Printer(read.settings, catalogue())
    done = write_papers(to / "teacher", papers, sheet_page(read.sheet, printer), printer.words, read.settings)
    return Published(to / "site", to / "teacher", len(written), len(papers), (*read.warnings, *done.notes))


# ------------------------------------------------------------------ site


@lru_cache(maxsize=2)
def _bank(folder: Path) -> Bank:
    return load_bank(folder)


def _all_pages(folder: Path, templates: Sequence[Template], variants: int, executor: Executor | None) -> list[_Made]:
    jobs = [(folder, each.id, variants) for each in templates]
    if executor is not None:
        return list(executor.map(_page, jobs))
    workers = min(len(jobs), os.cpu_count() or 1)
    if workers < 2:
        return [_page(job) for job in jobs]
    with ProcessPoolExecutor(workers) as pool:
        return list(pool.map(_page, jobs))


def _page(job: tuple[Path, str, int]) -> _Made:
    """One template's page; its faults are handed back, since they are told with those of the others."""
    folder, template_id, wanted = job
    bank = _bank(folder)
    template = bank.template(template_id)
    if template is None:
        raise KeyError(template_id)
    try:
        questions, variants = practice_variants(bank, template, wanted)
    except Faulty as error:
        return _Made(template_id, "", None, tuple(each.at(file=template.file) for each in error.faults))
    frame, words = _frame(bank), words_of(bank.settings.language)
    outcome = _heading(template, words)
    page = pages.question_page(questions, variants, frame, words, level=template.level, outcome=outcome)
    first = questions[variants[0].shape]
    entry = pages.Entry(template.title, f"{template_id}.html", outcome, template.level, first.marks, first.minutes, len(variants))
    return _Made(template_id, page, entry, ())


def practice_variants(bank: Bank, template: Template, wanted: int) -> tuple[tuple[Question, ...], tuple[Variant, ...]]:
    """The practice variants of a template, by number and without repeats; fewer where there are not so many.

    Raises ``Faulty`` as ``Drawer.draw`` does.
    """
    composer = Composer(template, bank, catalogue())
    kept: dict[str, Variant] = {}
    for number in range(1, wanted * _SPARE_SEEDS + 1):
        variant = composer.variant(len(kept) + 1, practice_seed(number))
        kept.setdefault(repr(variant.slots), variant)
        if len(kept) == wanted:
            break
    return composer.questions, tuple(kept.values())


def _heading(template: Template, words: Words) -> str:
    return words(outcomes()[template.outcome].can)


def _frame(bank: Bank) -> pages.Frame:
    words = words_of(bank.settings.language)
    return pages.Frame(
        title=bank.settings.title, bank_id=bank.id, sentences=page_sentences(words), language=bank.settings.language,
        provenance=provenance(bank), licence=bank.licence, standard_sign=bank.settings.standard_sign,
    )  # fmt: skip


def provenance(bank: Bank) -> str:
    """What made a page or paper: tool and version, bank, data sheet."""
    return f"saltbridge {__version__} · {bank.id} · {words_of(bank.settings.language)(bank.sheet.title)}"


def _site(bank: Bank, made: Iterable[_Made]) -> dict[str, str]:
    words, frame = words_of(bank.settings.language), _frame(bank)
    printer = Printer(bank.settings, catalogue())
    line = sheet_line(bank.sheet, printer)
    order = {template.id: (_outcome_place(template.outcome), LEVELS.index(template.level)) for template in bank.templates}
    listed = sorted(made, key=lambda each: (*order[each.template], each.template))
    written = {"index.html": pages.index_page([each.entry for each in listed if each.entry], line, frame, words)}
    written["sheet.html"] = pages.sheet_page(sheet_page(bank.sheet, printer), line, frame, words)
    written["guide.html"] = pages.guide_page(frame, words)
    return written | {f"{each.template}.html": each.page for each in listed}


def _outcome_place(outcome: str) -> int:
    return list(outcomes()).index(outcome)


# ------------------------------------------------------------------ sample papers


def sample_papers(bank: Bank) -> tuple[Paper, ...]:
    """Parallel versions of one sample paper, each with its memorandum, from the templates for homework in outcome order."""
    words = words_of(bank.settings.language)
    chosen = _paper_templates(bank)
    composers = [Composer(template, bank, catalogue()) for template in chosen]
    papers = []
    for place in range(1, PARALLEL_PAPERS + 1):
        letters = paper_letters(place)
        seed = f"sample paper {letters}"
        pairs = tuple(
            (composer.question(variant), variant) for composer in composers if (variant := composer.variant(place, seed))
        )
        papers.append(_paper(bank, pairs, letters, words))
    return (*papers, *(_memorandum(paper, bank, words) for paper in papers))


def _paper_templates(bank: Bank) -> list[Template]:
    """Templates for homework, in the order of their outcomes, up to the marks of a paper."""
    homework = [each for each in bank.templates if "homework" in each.use]
    homework.sort(key=lambda each: (_outcome_place(each.outcome), each.id))
    chosen: list[Template] = []
    marks = 0
    for template in homework:
        worth = Composer(template, bank, catalogue())
        variant = worth.variant(1, "marks")
        if marks + worth.question(variant).marks <= PAPER_MARKS:
            chosen.append(template)
            marks += worth.question(variant).marks
    return chosen


def _paper(bank: Bank, pairs: tuple[tuple[Question, Variant], ...], letters: str, words: Words) -> Paper:
    lead = Paragraph((Text(words("Answer every question. Show your working. Use the values of the data sheet.")),))
    marks, minutes = (sum(getattr(question, what) for question, _ in pairs) for what in ("marks", "minutes"))
    code = paper_code("SAMPLE", letters)
    return Paper(words("Sample paper"), bank.settings.title, code, (lead,), pairs, marks, minutes, False, provenance(bank))


def _memorandum(paper: Paper, bank: Bank, words: Words) -> Paper:
    say = Paragraph((Text(words(policy(bank.settings.policy).say)),))
    return replace(paper, lead=(say,), memorandum=True)
