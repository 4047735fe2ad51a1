"""Typed notation on the page itself: what is typed gets its sentence, what follows says from where."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from saltbridge.answers.sentences import WHY
from saltbridge.build import publish

BANK = Path(__file__).parent / "bank"


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    out = tmp_path_factory.mktemp("notation") / "out"
    with ThreadPoolExecutor(1) as threads:
        publish(BANK, out, executor=threads, variants=3)
    return out / "site"


@pytest.fixture
def page(browser):
    opened = browser.new_page()
    troubles = []
    opened.on("pageerror", lambda error: troubles.append(str(error)))
    yield opened
    opened.close()
    assert troubles == []


def typed(page: Page, part: str, text: str) -> str:
    """The verdict line after typing into a part and checking."""
    form = page.locator(f'[data-part="{part}"] form')
    form.locator("input[name=typed]").fill(text)
    form.locator("[data-do=check]").click()
    return verdict(page, part)


def verdict(page: Page, part: str) -> str:
    """The verdict line, once it is told."""
    told = page.locator(f'[data-part="{part}"] [data-verdict]')
    expect(told).not_to_be_empty()
    return told.inner_text()


def answer_of(page: Page, part: str) -> str:
    """The right answer as the page prints it, with its levels lost."""
    page.locator(f'[data-part="{part}"] details.working').evaluate("each => { each.open = true; }")
    return page.locator(f'[data-part="{part}"] .result').inner_text().removeprefix("Answer:").strip()


def test_a_diagram_is_read_and_its_faults_are_named(page: Page, site: Path):
    page.goto((site / "diagram-of-two-metals.html").as_uri())
    right = answer_of(page, "c")
    plain = right.replace("(s)", "").replace("(aq)", "").replace("\N{BROKEN BAR}\N{BROKEN BAR}", "||")
    assert typed(page, "c", plain).startswith("Right.")
    assert WHY["numbers"] in typed(page, "c", f"7{plain}")
    assert WHY["diagram-gap"] in typed(page, "c", f"{plain} |")
    assert "Where do the two solutions meet?" in typed(page, "c", plain.replace("||", "|"))
    left, other = plain.split(" || ")
    turned = f"{' | '.join(other.split(' | ')[::-1])} || {' | '.join(left.split(' | ')[::-1])}"
    assert "On which side of the line does the oxidation stand?" in typed(page, "c", turned)
    metals = page.locator('[data-part="a"] input[type=radio]')
    for at in range(metals.count()):
        metals.nth(at).check()
        page.locator('[data-part="a"] [data-do=check]').click()
        if "Not yet" in verdict(page, "a"):
            break
    assert "This follows from your answer in (a)" in typed(page, "c", turned)


def test_an_expression_is_read_and_its_faults_are_named(page: Page, site: Path):
    page.goto((site / "quotient-with-a-gas.html").as_uri())
    assert WHY["expression"].partition("”")[2].strip() in typed(page, "a", "products over reactants")
    assert WHY["power-sign"] in typed(page, "a", "[Zn2+]2")
    assert WHY["plus-for-times"] in typed(page, "a", "[Xe]+[Kr]")
    box = page.locator('[data-part="a"] input[name=typed]')
    told = box.get_attribute("aria-describedby").split()
    assert [page.locator(f"#{each}").count() for each in told] == [1, 1]
