"""A small site of the specimen, and a browser that looks at it."""

from __future__ import annotations

from pathlib import Path

import page_specimen as made
import pytest

from saltbridge.answers import page_sentences, unit_table
from saltbridge.document import Figure, SheetPage
from saltbridge.render.pages import (
    BenchMetal,
    Entry,
    Frame,
    authors_pages,
    bench_page,
    guide_page,
    index_page,
    question_page,
    sheet_page,
)
from saltbridge.words import catalogue

ENGLISH = catalogue("en")


@pytest.fixture(scope="session")
def site(tmp_path_factory) -> Path:
    """A small site of the specimen, on disk."""
    folder = tmp_path_factory.mktemp("site")
    (folder / "questions").mkdir()
    sentences = page_sentences(ENGLISH)
    frame = Frame("Harbour bank", "harbour", sentences, provenance="made by hand", licence="CC BY 4.0", units=unit_table())
    inner = Frame("Harbour bank", "harbour", sentences, root="../", units=unit_table())
    line = Figure("number-line", {"Zn": made.ion("Zn", "2+"), "axis": "E°/V"}, {"Zn": -0.76}, frozenset(), "zinc on a line")
    entry = Entry("Cell potential of two metals", "questions/two-metals.html", "Cells", "core", 7, 9, 3)
    pages = {
        "index.html": index_page([entry], line, frame, ENGLISH),
        "sheet.html": sheet_page(SheetPage("Data sheet", "downward", (), (), (("Zn", "65.4"),)), line, frame, ENGLISH),
        "guide.html": guide_page(frame, ENGLISH),
        "bench.html": bench_page([BenchMetal("Zn", "zinc", -763)], ("Wear eye protection.",), frame, ENGLISH),
        **authors_pages(frame, ENGLISH),
        "questions/two-metals.html": question_page([made.question()], made.variants(), inner, ENGLISH, level="core"),
    }
    for name, text in pages.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def opened(browser, site):
    """Opens a page of the site in a fresh context; a script error or a refused script fails the test.

    A test that means to cause trouble looks at ``opened.troubles`` and clears it.
    """
    contexts, troubles = [], []

    def opener(name="questions/two-metals.html", **settings):
        context = browser.new_context(**settings)
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: troubles.append(str(error)))
        page.on("console", lambda message: troubles.append(message.text) if message.type == "error" else None)
        page.goto((site / name).as_uri())
        return page

    opener.troubles = troubles
    yield opener
    for context in contexts:
        context.close()
    assert troubles == []
