"""Pages of the families' small banks in a browser: opened from disk, answered by hand, come back to after a reload."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from families.family_bank import bank
from playwright.sync_api import Browser, Page

from saltbridge import build
from saltbridge.render import pages
from saltbridge.words import of_bank


def written_page(folder: Path, family: str, template: str, count: int = 3) -> Path:
    """A template's page with several versions, on disk."""
    made = bank(family)
    questions, variants = build.practice_variants(made, made.template(template), count)
    path = folder / f"{template}.html"
    text = pages.question_page(questions, variants, build.frame_of(made), of_bank(made.settings))
    path.write_text(text, encoding="utf-8")
    return path


@contextmanager
def shown(browser: Browser, path: Path, **settings: object) -> Iterator[Page]:
    """The page in a context of its own; an error of the script or a refused script fails the test."""
    context = browser.new_context(**settings)
    page, troubles = context.new_page(), []
    page.on("pageerror", lambda error: troubles.append(str(error)))
    page.on("console", lambda message: troubles.append(message.text) if message.type == "error" else None)
    page.goto(path.as_uri())
    yield page
    context.close()
    assert troubles == []


def part(page: Page, label: str):
    """A part of the page."""
    return page.locator(f'[data-part="{label}"]')


def verdict(page: Page, label: str):
    """The line that tells the verdict of a part."""
    return part(page, label).locator("[role=status]")
