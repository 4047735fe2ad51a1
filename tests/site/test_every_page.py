"""What holds for every page of the site in a browser: accessibility, targets, reflow, requests, policy, print."""

from __future__ import annotations

import io

import pikepdf
import pytest
from axe_playwright_python.sync_playwright import Axe

PHONE = {"width": 360, "height": 740}
NARROW = {"width": 320, "height": 600}
RULES = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}}
NAMES = ("index.html", "sheet.html", "guide.html", "questions/two-metals.html")
QUESTION = "questions/two-metals.html"

every_page = pytest.mark.parametrize("name", NAMES)


def _answered(page):
    """Every part checked, wrong and right, and everything unfolded, so that all states are looked at."""
    page.check("#part-1-1")
    page.fill("#part-2-typed", "1.10")
    page.fill("#part-4-typed", "Zn -> Cu")
    for part in page.locator("[data-part]").all():
        part.locator("[data-do=check]").click()
    page.wait_for_timeout(150)
    page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; each.hidden = false; })")


@every_page
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(opened, name, scheme):
    """Source of the rules: axe-core, WCAG 2.2 A and AA and its best practices."""
    page = opened(name, color_scheme=scheme)
    if name == QUESTION:
        _answered(page)
    found = Axe().run(page, options=RULES).response["violations"]
    assert [(rule["id"], [node["html"] for node in rule["nodes"]]) for rule in found] == []


@every_page
def test_every_control_is_large_enough_to_hit(opened, name):
    """WCAG 2.2, 2.5.8 (AA): 24 by 24 CSS pixels; links in running text are excepted there."""
    page = opened(name, viewport=PHONE)
    sizes = page.evaluate(
        "Array.from(document.querySelectorAll('button, input, summary, nav a, .contents a'))"
        ".filter(each => each.checkVisibility()).map(each => [each.outerHTML.slice(0, 60), each.getBoundingClientRect()])"
        ".filter(([, box]) => box.width < 24 || box.height < 24)"
    )
    assert sizes == []


@every_page
def test_nothing_is_wider_than_a_narrow_phone(opened, name):
    """WCAG 1.4.10 (AA): no scrolling sideways at 320 CSS pixels."""
    page = opened(name, viewport=NARROW)
    if name == QUESTION:
        _answered(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


@every_page
def test_no_request_leaves_the_page(opened, name):
    page = opened("guide.html")
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(page.url.rsplit("/", 1)[0] + "/" + name)
    if name == QUESTION:
        _answered(page)
        page.locator("[data-do=fresh]").click()
    assert [url for url in asked if not url.endswith(name)] == []
    assert len(asked) == 1


@every_page
def test_links_between_the_pages_lead_somewhere(opened, site, name):
    page = opened(name)
    targets = page.evaluate("Array.from(document.querySelectorAll('a[href]'), a => a.href.split('#')[0])")
    places = {target.removeprefix("file://") for target in targets}
    assert all((site / name).parent.joinpath(place).is_file() for place in places)


def test_markup_that_slips_in_can_not_run(opened):
    """The policy allows one script only, by its digest; a handler or script set in later stays dead."""
    page = opened(QUESTION)
    page.evaluate("window.ran = false")
    inserted = "<img src=x onerror='ran = true'><svg onload='ran = true'></svg>"
    page.evaluate("html => document.body.insertAdjacentHTML('beforeend', html)", inserted)
    script = "const s = document.createElement('script'); s.textContent = 'ran = true'; document.body.append(s)"
    page.evaluate(script)
    page.wait_for_timeout(100)
    assert page.evaluate("ran") is False
    assert all("Content Security Policy" in trouble for trouble in opened.troubles)
    opened.troubles.clear()


def test_a_form_sends_nothing(opened):
    page = opened(QUESTION)
    before = page.url
    page.evaluate("HTMLFormElement.prototype.submit.call(document.querySelector('form'))")
    page.wait_for_timeout(100)
    assert page.url == before
    assert "form-action 'none'" in opened.troubles.pop()


def test_no_animation_where_less_motion_is_asked_for(opened):
    page = opened(QUESTION, reduced_motion="reduce")
    assert page.evaluate("getComputedStyle(document.querySelector('button')).transitionDuration") == "0s"


def test_figures_keep_their_lines_in_forced_colours(opened):
    page = opened(QUESTION, forced_colors="active")
    left = "getComputedStyle(document.querySelector('.figure')).getPropertyValue('--left')"
    assert page.evaluate(left) == "CanvasText"


def test_equals_signs_of_a_working_stand_in_one_column(opened):
    page = opened(QUESTION)
    page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
    script = "Array.from(document.querySelectorAll('[data-part=b] mtd.right'), cell => cell.getBoundingClientRect().left)"
    places = page.evaluate(script)
    assert len(places) == 3
    assert max(places) - min(places) < 1


def test_the_number_line_stands_on_a_phone_and_lies_on_a_wide_screen(opened):
    shown = "Array.from(document.querySelectorAll('.line-of-potentials svg'), each => each.checkVisibility())"
    assert opened("index.html", viewport=PHONE).evaluate(shown) == [False, True]
    assert opened("index.html").evaluate(shown) == [True, False]


def test_print_hides_controls_and_opens_workings(opened):
    page = opened(QUESTION)
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator("button:visible").count() == 0
    assert page.locator("[data-hint]:visible").count() == 0
    assert all(working.is_visible() for working in page.locator("[data-working] .result").all())
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert page.locator("[data-working][open]").count() == 0


def test_a_printed_question_takes_two_or_three_a4_pages(opened):
    with pikepdf.open(io.BytesIO(opened(QUESTION).pdf(prefer_css_page_size=True, format="A4"))) as paper:
        assert 2 <= len(paper.pages) <= 3
        assert [float(side) for side in paper.pages[0].mediabox][2:] == pytest.approx([595.3, 841.9], abs=1)
