"""Answers requests from the bank that is written: every answer is made here and none is read from a path, so no request leads out of it.

Only a browser on this machine that calls the preview by its own name is answered, and only what it looks at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from http import HTTPStatus
from typing import Any
from urllib.parse import parse_qs

from saltbridge.build import frame_of
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.bench_metals import bench_page
from saltbridge.compose.printing import Printer
from saltbridge.compose.sheet_lines import sheet_line, sheet_page
from saltbridge.faults import Faulty
from saltbridge.preview.made_template import KINDS
from saltbridge.preview.views import index_view, template_view
from saltbridge.preview.watched_bank import WatchedBank
from saltbridge.render import pages
from saltbridge.render.preview_page import index_html, template_html
from saltbridge.words import of_bank as words_of

ASKED = frozenset({"GET", "HEAD"})
HTML, SVG, PDF, PLAIN = "text/html; charset=utf-8", "image/svg+xml", "application/pdf", "text/plain; charset=utf-8"
_GUARDS = (
    ("Cache-Control", "no-store"),
    ("X-Content-Type-Options", "nosniff"),
    ("X-Frame-Options", "SAMEORIGIN"),
    ("Cross-Origin-Resource-Policy", "same-origin"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("Referrer-Policy", "no-referrer"),
)
Start = Callable[[str, list[tuple[str, str]]], Any]


@dataclass(frozen=True, slots=True)
class Answer:
    """What goes back: a status, a type, the bytes, further headings."""

    status: HTTPStatus
    kind: str
    body: bytes
    further: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Preview:
    """A WSGI application over a bank; ``names`` are the Host names that it answers to."""

    bank: WatchedBank
    names: frozenset[str] = field(default_factory=frozenset)

    def __call__(self, asked: Mapping[str, Any], start: Start) -> Iterable[bytes]:
        """Answer one request."""
        answer = self._answer(asked)
        head = [("Content-Type", answer.kind), ("Content-Length", str(len(answer.body))), *_GUARDS, *answer.further]
        start(f"{answer.status.value} {answer.status.phrase}", head)
        return [] if asked.get("REQUEST_METHOD") == "HEAD" else [answer.body]

    def _answer(self, asked: Mapping[str, Any]) -> Answer:
        if asked.get("HTTP_HOST", "").lower() not in self.names:
            return _plain(HTTPStatus.MISDIRECTED_REQUEST, "This is not the address of the preview.")
        if asked.get("REQUEST_METHOD") not in ASKED:
            return _plain(HTTPStatus.METHOD_NOT_ALLOWED, "The preview is only looked at.", (("Allow", "GET, HEAD"),))
        try:
            return self._looked_up(asked.get("PATH_INFO", ""), asked.get("QUERY_STRING", ""))
        except Faulty as error:
            return _plain(HTTPStatus.INTERNAL_SERVER_ERROR, str(error))
        except Exception as error:  # noqa: BLE001 - one page that can't be made must not end the preview
            return _plain(HTTPStatus.INTERNAL_SERVER_ERROR, f"This is an error of saltbridge: {type(error).__name__}.")

    def _looked_up(self, path: str, query: str) -> Answer:
        match path.split("/")[1:]:
            case [""]:
                with self.bank.alone():
                    return _html(*index_html(index_view(self.bank)))
            case ["stamp", name]:
                return _plain(HTTPStatus.OK, self.bank.stamp(name))
            case ["site", "index.html"]:
                return _plain(HTTPStatus.SEE_OTHER, "The templates.", (("Location", "/"),))
            case ["site", ("sheet.html" | "guide.html" | "bench.html") as name]:
                return _html(self._page_of_all(name))
            case ["site", name] if name.endswith(".html"):
                return self._page(name.removesuffix(".html"), query)
            case [("paper" | "memorandum") as kind, name, file]:
                return self._printed(kind, name, file)
            case [name]:
                return self._template(name, query)
        return _nothing()

    # -------------------------------------------------------------- one template

    def _template(self, name: str, query: str) -> Answer:
        with self.bank.alone():
            shown = self.bank.shown(name)
            if shown is None:
                return _nothing()
            return _html(*template_html(template_view(self.bank, shown, _number(parse_qs(query).get("version", ["1"])[0]))))

    def _page(self, name: str, query: str) -> Answer:
        shown = self.bank.shown(name)
        if shown is None or shown.made is None:
            return _nothing()
        version = _number(parse_qs(query).get("version", ["1"])[0])
        if version > len(shown.made.variants):
            return _nothing()
        return _html(shown.made.page(version))

    def _printed(self, kind: str, name: str, file: str) -> Answer:
        """A paper or memorandum: ``VERSION.pdf`` whole, ``VERSION-PAGE.svg`` a page of it."""
        shown = self.bank.shown(name)
        stem, _, ending = file.partition(".")
        version, _, page = stem.partition("-")
        if shown is None or shown.made is None or kind not in KINDS or not 1 <= _number(version) <= len(shown.made.variants):
            return _nothing()
        with self.bank.alone():
            if ending == "pdf" and not page:
                return Answer(HTTPStatus.OK, PDF, shown.made.pdf(kind, _number(version)))
            pictures = shown.made.pictures(kind, _number(version))
        if ending == "svg" and 1 <= _number(page) <= len(pictures):
            return Answer(HTTPStatus.OK, SVG, pictures[_number(page) - 1])
        return _nothing()

    # -------------------------------------------------------------- pages of the site

    def _page_of_all(self, name: str) -> str:
        bank = self.bank.bank
        words, frame = words_of(bank.settings), frame_of(bank)
        if name == "guide.html":
            return pages.guide_page(frame, words)
        if name == "bench.html":
            return bench_page(bank, frame)
        printer = Printer(bank.settings, catalogue(bank.folder))
        return pages.sheet_page(sheet_page(bank.sheet, printer), sheet_line(bank.sheet, printer), frame, words)


def _number(text: str) -> int:
    """A whole number from 1 to 9999; 0 for anything else."""
    return int(text) if text.isascii() and text.isdecimal() and len(text) <= 4 else 0


def _html(page: str, policy: str = "") -> Answer:
    return Answer(HTTPStatus.OK, HTML, page.encode(), (("Content-Security-Policy", policy),) if policy else ())


def _plain(status: HTTPStatus, text: str, further: tuple[tuple[str, str], ...] = ()) -> Answer:
    return Answer(status, PLAIN, f"{text}\n".encode(), further)


def _nothing() -> Answer:
    return _plain(HTTPStatus.NOT_FOUND, "There is no such page.")
