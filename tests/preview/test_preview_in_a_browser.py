"""In a real browser a save reloads what is shown, the arrow keys go through the versions, and the page is open to all."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe

FILE = "cells/anode-of-two.yaml"
LONG = 20_000  # ms


@pytest.fixture
def page(browser, written):
    """The template's preview, opened; a script that is refused or fails, or a file that is missing, fails the test."""
    context = browser.new_context(viewport={"width": 1500, "height": 900})
    shown, troubles = context.new_page(), []
    shown.set_default_timeout(LONG)
    shown.on("pageerror", lambda error: troubles.append(str(error)))
    shown.on("console", lambda message: troubles.append(message.text) if message.type == "error" else None)
    shown.goto(f"{written.address}anode-of-two")
    yield shown
    context.close()
    assert troubles == []


def test_a_save_reloads_the_page_and_faults_come_and_go(page, written):
    good = (written.folder / FILE).read_text(encoding="utf-8")
    inner = page.frame_locator("iframe")
    inner.get_by_role("heading", name="A lamp on the pier").wait_for()
    (written.folder / FILE).write_text(good.replace("A lamp on the pier", "A lamp on the quay"), encoding="utf-8")
    inner.get_by_role("heading", name="A lamp on the quay").wait_for()
    assert page.title() == "A lamp on the quay · preview"
    (written.folder / FILE).write_text(good.replace("find: E0_cell", "find: E0_cel"), encoding="utf-8")
    told = page.get_by_role("alert").filter(has_text="To mend")
    told.wait_for()
    assert "Did you mean E0_cell?" in told.inner_text()
    assert inner.get_by_role("heading", name="A lamp on the quay").is_visible()
    (written.folder / FILE).write_text(good, encoding="utf-8")
    told.wait_for(state="detached")
    inner.get_by_role("heading", name="A lamp on the pier").wait_for()


def test_the_arrow_keys_go_through_the_versions_but_not_while_an_answer_is_typed(page):
    inner = page.frame_locator("iframe")
    inner.get_by_role("heading", name="A lamp on the pier").wait_for()
    page.keyboard.press("ArrowRight")
    page.wait_for_url("**version=2")
    inner.get_by_role("heading", name="A lamp on the pier").click()
    page.keyboard.press("ArrowRight")
    page.wait_for_url("**version=3")
    page.keyboard.press("ArrowLeft")
    page.wait_for_url("**version=2")
    inner.locator('input[type="text"]').first.fill("1.10")
    page.keyboard.press("ArrowLeft")
    inner.locator('input[type="radio"]').first.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_timeout(300)
    assert page.url.endswith("version=2")


def test_page_paper_and_memorandum_stand_side_by_side(page):
    page.wait_for_function("[...document.images].every((each) => each.complete && each.naturalWidth > 300)")
    boxes = [page.locator(f"section[aria-labelledby={name}]").bounding_box() for name in ("page", "paper", "memorandum")]
    assert len({round(box["y"]) for box in boxes}) == 1
    assert [box["x"] for box in boxes] == sorted({box["x"] for box in boxes})


@pytest.mark.parametrize(("width", "scheme"), [(1500, "light"), (360, "dark")])
def test_it_is_open_to_all_and_fits(page, written, width, scheme):
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)
    source = (written.folder / FILE).read_text(encoding="utf-8")
    (written.folder / FILE).write_text(source.replace("outcome: T3.4", "outcome: T9.99"), encoding="utf-8")
    page.get_by_role("alert").filter(has_text="To mend").wait_for()
    for address in (page.url, written.address):
        page.goto(address)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        found = Axe().run(page, options={"iframes": False})
        assert [(each["id"], each["nodes"][0]["html"]) for each in found.response["violations"]] == []


def test_the_page_says_when_the_preview_has_ended(browser, written):
    context = browser.new_context()
    shown = context.new_page()
    shown.goto(written.address)
    shown.route("**/stamp/**", lambda route: route.abort())
    shown.get_by_role("alert").filter(has_text="has ended").wait_for(timeout=LONG)
    shown.unroute("**/stamp/**")
    shown.get_by_role("alert").filter(has_text="has ended").wait_for(state="hidden", timeout=LONG)
    context.close()
