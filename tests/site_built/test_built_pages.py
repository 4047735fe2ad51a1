"""What holds for every page of the published site in a browser: rules of access, width, print; and what it must not hold."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from page_data import TEMPLATES, data_of, one_of_each
from pdf_reading import text

RULES = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}}
PLAIN = ("index.html", "sheet.html", "guide.html", "bench.html", "authors.html", "names.html")
NAMES = (*PLAIN, *(f"{each.id}.html" for each in TEMPLATES if "practice" in each.use))
WIDE, PHONE, NARROW = ({"width": width, "height": 740} for width in (1280, 360, 320))
every_page = pytest.mark.parametrize("name", NAMES)
UNFOLD = "document.querySelectorAll('details').forEach(each => { each.open = true; each.hidden = false; })"


def test_these_are_all_pages(site: Path):
    assert sorted(path.name for path in site.glob("*.html")) == sorted(NAMES)


@pytest.mark.parametrize("name", [*PLAIN, *one_of_each(scenarios=False)])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(opened, name, scheme):
    """Source of the rules: axe-core, WCAG 2.2 A and AA and its best practices.

    The other question pages hold the same kinds of part and drawing; those of all scenarios are looked at on a phone in
    tests/families, each state of an answer in tests/site.
    """
    page = opened(name, color_scheme=scheme)
    page.evaluate(UNFOLD)
    for size in (WIDE, PHONE, NARROW) if name in PLAIN else (WIDE,):
        page.set_viewport_size(size)
        found = Axe().run(page, options=RULES).response["violations"]
        assert [(rule["id"], [node["html"] for node in rule["nodes"]]) for rule in found] == []


@every_page
def test_a_phone_need_not_scroll_sideways(opened, name):
    page = opened(name)
    page.evaluate(UNFOLD)
    for size in (PHONE, NARROW):
        page.set_viewport_size(size)
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


def test_the_rows_of_a_formula_keep_clear_of_each_other(opened):
    """A conversion has a row for each equals sign; boxes of formulas end at their ink."""
    page = opened("mass-deposited.html", viewport=PHONE)
    page.evaluate(UNFOLD)
    gaps = page.evaluate("""() => [...document.querySelectorAll('.aligned mtr + mtr')].map(row => {
      const ink = each => each.querySelector('.right > mrow').getBoundingClientRect();
      return ink(row).top - ink(row.previousElementSibling).bottom;
    })""")
    assert len(gaps) >= 1
    assert min(gaps) >= 4


@pytest.mark.parametrize("name", [*PLAIN, *one_of_each()])
def test_print_opens_the_workings_and_hides_the_controls(opened, name):
    page = opened(name)
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator("button:visible").count() == 0
    assert all(result.is_visible() for result in page.locator("[data-working] .result").all())


# ------------------------------------------------------------------ what must not be public


def test_no_word_of_an_exam_question_reaches_the_public_site(site: Path):
    """Neither the exam question of this test nor any exam-only one of the shipped bank: no id, title, text or part."""
    public = {path.name: path.read_text("utf-8") for path in site.iterdir()}
    secret = ["quincunx", "Quincunx", "lightship-exam"]
    for template in TEMPLATES:
        if "practice" not in template.use:
            secret += [template.id, template.title]
    found = [
        (name, word)
        for name, page in public.items()
        for word in secret
        if re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", page)
    ]
    assert found == []


def test_no_code_of_a_paper_reaches_the_public_site(out: Path):
    codes = [path.stem for path in (out / "teacher").rglob("*.pdf")]
    assert any(code.startswith("SAMPLE-A") for code in codes)
    for page in (out / "site").iterdir():
        held = page.read_text("utf-8")
        assert [code for code in codes if code.startswith("SAMPLE") and code in held] == []


def test_no_paper_shares_a_question_with_a_page(out: Path):
    """A question of a paper and a variant of a page may agree by chance in one number, but never in all numbers of a template."""
    for paper in sorted((out / "teacher" / "memoranda").glob("*.pdf")):
        printed = re.sub(r"\s+", "", text(paper.read_bytes()))
        for template in TEMPLATES:
            path = out / "site" / f"{template.id}.html"
            if template.title.replace(" ", "") not in printed or not path.exists():
                continue
            data = data_of(path.read_text("utf-8"))
            for variant in data["variants"]:
                numbers = [key["value"].replace("-", "−") for key in variant["keys"] if "value" in key]
                words = [re.sub(r"<[^>]+>|\s", "", each) for each in variant["texts"]]
                same = all(number in printed for number in numbers) and all(word in printed for word in words if len(word) > 6)
                assert not same, f"{paper.name} has {template.id} variant {variant['number']}"


def test_a_page_holds_its_own_seeds_only(site: Path):
    """Nothing of the record, of seeds or of folders of the maker stands in a page."""
    for path in site.glob("*.html"):
        page = path.read_text("utf-8")
        assert "sample paper" not in page
        assert str(site.parent) not in page
        if 'type="application/json"' in page:
            assert json.dumps(data_of(page)).count("seed") == 0
