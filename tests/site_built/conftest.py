"""The shipped bank, with one exam question more, published as it would be, and a browser that opens it from disk."""

from __future__ import annotations

import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from saltbridge.build import publish
from saltbridge.home import shipped

EXAM = """\
title: Quincunx of a lightship
outcome: T3.4
level: core
use: exam
scenario:
  galvanic cell: {metals: [Zn, Cu, Ag]}
text: The quincunx of {{ left.metal }} and {{ right.metal }} belongs to the moderators.
parts:
  - ask: Calculate the standard {{ potential_name }} of the quincunx.
    find: E0_cell
"""


@pytest.fixture(scope="session")
def out(tmp_path_factory) -> Path:
    """The published folder, three variants a template."""
    room = tmp_path_factory.mktemp("built")
    bank = room / "bank"
    shutil.copytree(shipped("question_templates"), bank)
    (bank / "lightship-exam.yaml").write_text(EXAM, encoding="utf-8")
    with ThreadPoolExecutor(1) as one:
        publish(bank, room / "out", executor=one, variants=3)
    return room / "out"


@pytest.fixture(scope="session")
def site(out: Path) -> Path:
    return out / "site"


@pytest.fixture(scope="session")
def questions(site: Path) -> list[str]:
    """The question pages."""
    return sorted(
        path.name for path in site.glob("*.html") if path.name not in {"index.html", "sheet.html", "guide.html", "bench.html"}
    )


@pytest.fixture
def opened(browser, site: Path):
    """Opens a page in a fresh context; a request to anywhere else, a script error or a console error fails the test."""
    contexts, troubles = [], []

    def opener(name: str, **settings):
        context = browser.new_context(**settings)
        contexts.append(context)
        page = context.new_page()
        address = (site / name).as_uri()
        page.on("pageerror", lambda error: troubles.append(str(error)))
        page.on("console", lambda message: troubles.append(message.text) if message.type == "error" else None)
        page.on("request", lambda request: troubles.append(request.url) if request.url != address else None)
        page.goto(address)
        return page

    yield opener
    for context in contexts:
        context.close()
    assert troubles == []
