"""The pages around a bank that is being written: its templates, and one of them with page, paper and memorandum beside each other.

They alone hold the script that looks for changes; what is shown in them is what a publish would write.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from saltbridge.home import shipped
from saltbridge.render.payload import digest
from saltbridge.render.proof_page import coded

_STYLES = ("site.css", "preview.css")


@dataclass(frozen=True, slots=True)
class FaultView:
    """A fault, warning or note; ``place`` is file and line, ``share`` how many draws have it."""

    weight: str
    place: str
    key: str
    expected: str
    found: str
    hint: str
    share: str


@dataclass(frozen=True, slots=True)
class LinkView:
    """A template as the list shows it."""

    id: str
    title: str
    file: str
    faults: int


@dataclass(frozen=True, slots=True)
class IndexView:
    """The list of templates with the faults of all files."""

    bank: str
    folder: str
    stamp: str
    links: Sequence[LinkView]
    faults: Sequence[FaultView]


@dataclass(frozen=True, slots=True)
class PrintedView:
    """A paper or memorandum of a version, and how many pages it has."""

    kind: str
    pages: int


@dataclass(frozen=True, slots=True)
class TemplateView:
    """One template in one version. ``kept``: what is shown is the last good one, older than the faults."""

    id: str
    title: str
    bank: str
    file: str
    stamp: str
    version: int
    versions: int
    kept: bool
    faults: Sequence[FaultView]
    findings: Sequence[FaultView]
    draws: int
    printed: Sequence[PrintedView]


def index_html(view: IndexView) -> tuple[str, str]:
    """The list as a page, and its content security policy."""
    return _page("preview_index.html", view)


def template_html(view: TemplateView) -> tuple[str, str]:
    """A template as a page, and its content security policy."""
    return _page("preview.html", view)


def _page(layout: str, view: IndexView | TemplateView) -> tuple[str, str]:
    style, script = _joined("styles", *_STYLES), _joined("scripts", "preview.js")
    policy = (
        f"default-src 'none'; script-src '{digest(script)}'; style-src '{digest(style)}'; img-src 'self' data:; "
        "frame-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'"
    )
    page = _environment().get_template(layout).render(view=view, style=Markup(style), script=Markup(script), coded=coded)  # noqa: S704 - our own files
    return page, policy


@cache
def _environment() -> Environment:
    loader = FileSystemLoader(shipped("site") / "layouts")
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)


@cache
def _joined(folder: str, *names: str) -> str:
    return "\n".join((shipped("site") / folder / name).read_text(encoding="utf-8") for name in names)
