"""Fixtures that several rooms share."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser

# The tests that all families share show what they compared, as a test file's own do; they are imported from other rooms too.
pytest.register_assert_rewrite("families.family_bank", "families.family_cases", "families.family_slips")


def _chromium() -> str | None:
    """The system's Chromium, or None for the one that Playwright installs itself."""
    return next((path for name in ("chromium", "chromium-browser", "google-chrome") if (path := shutil.which(name))), None)


def _refuse_without_letters(running: Browser) -> None:
    """Without any font Chromium dies on a page with formulas, one page after the other; say so once instead."""
    page = running.new_page()
    width = page.evaluate(
        "(() => { const pen = document.createElement('canvas').getContext('2d'); return pen.measureText('m').width; })()"
    )
    page.close()
    assert width > 0, "No font is installed: on Debian, apt-get install fonts-dejavu-core"


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One headless Chromium for the whole run; it needs no sandbox where the tests run as root."""
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - only the browser tests need it

    flags = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=_chromium(), args=flags)
        _refuse_without_letters(running)
        yield running
        running.close()
