"""The moderator's report as one page: what was found, worst first, then every template with samples. No script, no request."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from saltbridge.document import Figure
from saltbridge.home import shipped
from saltbridge.render.figures import sprites
from saltbridge.render.pages import level_name
from saltbridge.render.payload import digest
from saltbridge.render.skeleton import escape
from saltbridge.words import Words

WEIGHTS = {"fault": "Fault", "warning": "Warning", "note": "Note"}
"""Weights of findings and their names."""

STATES = {"draft": "Draft", "signed": "Signed", "changed": "Changed since it was signed", "withdrawn": "Withdrawn"}
"""States of a sign-off and their names."""

_STYLES = ("site.css", "frame.css", "question.css", "proof.css", "proof-paper.css")
_NAMES = {**WEIGHTS, **STATES}


@dataclass(frozen=True, slots=True)
class FindingView:
    """One finding; ``place`` is file and line, ``share`` how many draws have it, ``seed`` one of them."""

    weight: str
    place: str
    key: str
    expected: str
    found: str
    hint: str
    code: str
    share: str = ""
    seed: str = ""
    anchor: str = ""
    title: str = ""


@dataclass(frozen=True, slots=True)
class SampleView:
    """A sample variant, written and escaped by our writers."""

    seed: str
    html: str


@dataclass(frozen=True, slots=True)
class TemplateView:
    """What the report says of one template; ``facts`` are pairs of a name and a text, ``slips`` and ``rejected`` of a name and a share."""

    id: str
    title: str
    file: str
    outcome: str
    level: str
    weight: str
    tally: str
    marks: int
    state: str
    signed: str
    facts: Sequence[tuple[str, str]]
    slips: Sequence[tuple[str, str, bool]]
    rejected: Sequence[tuple[str, str]]
    findings: Sequence[FindingView]
    samples: Sequence[SampleView]


@dataclass(frozen=True, slots=True)
class OutcomeView:
    """A row of the coverage grids: templates and marks at each level and of each demand, and the slips that its templates tell apart."""

    id: str
    can: str
    cells: Sequence[tuple[int, int]]
    demands: Sequence[tuple[int, int]]
    slips: Sequence[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class ProofView:
    """The whole report. ``counts`` are the findings by weight, ``changes`` what moved against another bank."""

    title: str
    language: str
    provenance: str
    facts: Sequence[tuple[str, str]]
    counts: Mapping[str, int]
    findings: Sequence[FindingView]
    levels: Sequence[str]
    demands: Sequence[str]
    outcomes: Sequence[OutcomeView]
    templates: Sequence[TemplateView]
    figures: Sequence[Figure] = ()


def proof_page(view: ProofView, words: Words) -> str:
    """The report as an HTML file that needs nothing else."""
    style = _style()
    csp = f"default-src 'none'; style-src '{digest(style)}'; img-src data:; base-uri 'none'; form-action 'none'"
    return (
        _environment()
        .get_template("proof.html")
        .render(
            view=view,
            words=words,
            named=lambda code: words(_NAMES[code]),
            level_name=lambda level: level_name(level, words),
            csp=csp,
            style=Markup(style),  # noqa: S704 - our own file
            sprites=Markup(sprites(view.figures)),  # noqa: S704 - written and escaped by our writers
            trusted=Markup,
            coded=coded,
        )
    )


def coded(text: str) -> Markup:
    """A fault's text, what stands between backticks set as code."""
    pieces = text.split("`")
    whole = len(pieces) % 2 == 1
    marked = [f"<code>{escape(piece)}</code>" if whole and at % 2 else escape(piece) for at, piece in enumerate(pieces)]
    return Markup("".join(marked))  # noqa: S704 - every piece is escaped


@cache
def _style() -> str:
    return "\n".join((shipped("site") / "styles" / name).read_text(encoding="utf-8") for name in _STYLES)


@cache
def _environment() -> Environment:
    loader = FileSystemLoader(shipped("site") / "layouts")
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
