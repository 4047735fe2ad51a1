"""Whole pages of the practice site: one HTML file each, with its style, script and data inside and no request to anywhere."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import groupby
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from saltbridge.document import Figure, Question, SheetPage, Variant
from saltbridge.home import shipped
from saltbridge.render.figures import figure_html, sprites
from saltbridge.render.guide_markup import guide_html
from saltbridge.render.html import inscription_html
from saltbridge.render.mathml import maths
from saltbridge.render.page_sentences import BENCH, script_sentences
from saltbridge.render.part_markup import figures_of, question_skeleton
from saltbridge.render.payload import SCHEMA, data_block, policy, question_data
from saltbridge.render.skeleton import join
from saltbridge.words import Words

LEVELS = {"introductory": "Introductory", "core": "Core", "advanced": "Advanced", "first-year": "First year"}
"""Levels of the templates and their names."""

_STYLES = ("site.css", "frame.css", "question.css", "table.css", "feedback.css")
_SHARED_SCRIPTS = ("memory.js", "fields.js", "field_table.js", "field_written.js", "field_choices.js", "page.js")
JUDGES = (
    "units.js",
    "numbers.js",
    "species.js",
    "equations.js",
    "diagrams.js",
    "expressions.js",
    "trees.js",
    "following.js",
    "judge_number.js",
    "judge_choice.js",
    "judge_equation.js",
    "judge_word.js",
    "judge_table.js",
    "judge_written.js",
    "judge_cases.js",
    "judge_reasoned.js",
    "judge_several.js",
    "judge_sequence.js",
    "judge_notation.js",
    "answers.js",
)
"""The scripts that read and judge answers, in the order in which they are loaded."""

_QUESTION_SCRIPTS = (*JUDGES, *_SHARED_SCRIPTS)


@dataclass(frozen=True, slots=True)
class Frame:
    """What every page of a bank's site says about itself.

    ``root`` leads from the page to the front page's folder: empty for pages beside it, ``../`` for pages one folder down.
    ``provenance`` tells what made the page (tool and version, bank, table). ``sentences`` are those of the answers room in
    the page's language: ``{"verdict": {code: text}, "why": {code: text}}``; ``units`` is its table of units.
    """

    title: str
    bank_id: str
    sentences: Mapping[str, Mapping[str, str]]
    language: str = "en"
    provenance: str = ""
    licence: str = ""
    root: str = ""
    standard_sign: str = "°"
    units: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Entry:
    """A question page as the front page lists it; ``outcome`` is the heading it stands under."""

    title: str
    href: str
    outcome: str
    level: str
    marks: int
    minutes: int
    variants: int


# ------------------------------------------------------------------ pages


def question_page(
    questions: Sequence[Question], variants: Sequence[Variant], frame: Frame, words: Words, *, level: str = "", outcome: str = ""
) -> str:
    """The page of one template: ``questions`` are its shapes in order, the first variant stands there without script.

    Raises ``ValueError`` where there is no variant, or a variant of a shape that is not given.
    """
    if not variants or any(variant.shape >= len(questions) for variant in variants):
        raise ValueError("a question page needs a variant, and a question for each variant's shape")
    skeletons = [question_skeleton(question, words) for question in questions]
    data = question_data(questions, skeletons, variants, script_sentences(words, frame.sentences), frame.bank_id, frame.units)
    first = data["variants"][0]
    figures = [figure for question in questions for figure in figures_of(question)]
    figures += [figure for variant in variants for figure in variant.figures]
    return _page(
        "question.html",
        frame,
        words,
        scripts=_QUESTION_SCRIPTS,
        data=data,
        question=questions[variants[0].shape],
        body=Markup(join(skeletons[first["shape"]].chunks, first["texts"])),  # noqa: S704 - written and escaped by our writers
        sprites=Markup(sprites(figures)),  # noqa: S704 - written and escaped by our writers
        count=len(variants),
        level=level_name(level, words),
        outcome=outcome,
    )


def index_page(entries: Iterable[Entry], line: Figure | None, frame: Frame, words: Words) -> str:
    """The front page: the number line of potentials, then the questions by outcome in the order given."""
    groups = [(outcome, list(group)) for outcome, group in groupby(entries, key=lambda entry: entry.outcome)]
    return _page("index.html", frame, words, groups=groups, level_name=level_name, **_both_lines(line))


def sheet_page(sheet: SheetPage, line: Figure | None, frame: Frame, words: Words) -> str:
    """The data sheet: number line, potentials, constants, relative atomic masses."""
    rows = [tuple(Markup(inscription_html(cell)) for cell in (row.half, row.potential)) for row in sheet.rows]  # noqa: S704 - escaped by our writers
    constants = [
        (constant.name, Markup(f"<math>{maths(constant.symbol)}</math>"), Markup(inscription_html(constant.value)))  # noqa: S704 - escaped by our writers
        for constant in sheet.constants
    ]
    return _page("sheet.html", frame, words, sheet=sheet, rows=rows, constants=constants, **_both_lines(line))


@dataclass(frozen=True, slots=True)
class BenchMetal:
    """A metal of the bench's page: ``table`` is its standard potential in millivolts, None where the sheet has none."""

    symbol: str
    name: str
    table: int | None


def bench_page(metals: Sequence[BenchMetal], cautions: Sequence[str], frame: Frame, words: Words) -> str:
    """The page for the metals practical: readings put on a line, in order, against any metal, beside the table."""
    data = {
        "metals": [{"symbol": each.symbol, "name": each.name, "table": each.table} for each in metals],
        "sentences": {code: words(said) for code, said in BENCH.items()},
    }
    return _page(
        "bench.html",
        frame,
        words,
        scripts=("bench.js",),
        styles=(*_STYLES, "bench.css"),
        data=data,
        metals=metals,
        cautions=cautions,
    )


def guide_page(frame: Frame, words: Words) -> str:
    """How to type answers, what a verdict means, and what the page keeps."""
    return _page("guide.html", frame, words)


def authors_pages(frame: Frame, words: Words) -> dict[str, str]:
    """The guide for authors and the names of each kind of scenario, by file name; both are in English."""
    written = {"authors.html": "GUIDE.md", "names.html": "NAMES.md"}
    return {page: _page("authors.html", frame, words, guide=Markup(guide_html(source))) for page, source in written.items()}  # noqa: S704 - our own files


def level_name(level: str, words: Words) -> str:
    """The level in the page's language; a level that is not ours is shown as it is."""
    return words(LEVELS[level]) if level in LEVELS else level


def _both_lines(line: Figure | None) -> dict[str, Any]:
    """The number line standing for phones and lying for wide screens and paper; the style shows one of them."""
    if line is None:
        return {"lines": (), "sprites": ""}
    lying = Figure(line.name, line.labels, line.numbers, line.flags - {"vertical"}, line.spoken)
    standing = Figure(line.name, line.labels, line.numbers, line.flags | {"vertical"}, line.spoken)
    drawn = tuple(Markup(figure_html(figure)) for figure in (lying, standing))  # noqa: S704 - escaped by our writers
    return {"lines": drawn, "sprites": Markup(sprites([lying, standing]))}  # noqa: S704 - escaped by our writers


# ------------------------------------------------------------------ assembling


def _page(
    layout: str,
    frame: Frame,
    words: Words,
    *,
    scripts: tuple[str, ...] = _SHARED_SCRIPTS,
    styles: tuple[str, ...] = _STYLES,
    data: Mapping[str, Any] | None = None,
    **content: Any,
) -> str:
    """A layout filled; style and script stand in the page, allowed by their digests."""
    script, style = _joined("scripts", scripts), _joined("styles", styles)
    block = data_block(data or {"schema": SCHEMA, "bank": frame.bank_id, "sentences": script_sentences(words, {})})
    return (
        _environment()
        .get_template(layout)
        .render(
            frame=frame,
            words=words,
            policy=policy(script, style),
            script=Markup(script),  # noqa: S704 - our own file
            style=Markup(style),  # noqa: S704 - our own file
            data=Markup(block),  # noqa: S704 - data_block makes it safe in a script element
            **content,
        )
    )


@cache
def _environment() -> Environment:
    loader = FileSystemLoader(shipped("site") / "layouts")
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)


@cache
def _joined(folder: str, names: tuple[str, ...]) -> str:
    """Files of the site folder in order, as one text."""
    return "\n".join((shipped("site") / folder / name).read_text(encoding="utf-8") for name in names)
