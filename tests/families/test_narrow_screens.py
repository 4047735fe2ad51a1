"""No page scrolls sideways on a narrow phone with wide letters, in every family's bank; each line that scrolls is reached and named.

320 CSS pixels: WCAG 2.2, 1.4.10 (AA). DejaVu Sans is the widest of the faces that common systems set text in (measured by hand).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from family_bank import bank

from saltbridge import build
from saltbridge.bank.bank import load_bank
from saltbridge.home import shipped
from saltbridge.render import pages
from saltbridge.words import catalogue

FAMILIES = sorted(path.parent.name for path in Path(__file__).parent.glob("*/bank"))
KINDS = ("number", "choice", "order", "equation", "written", "choices", "several", "sequence", "word", "table", "notation")
RULES = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}}
WIDE_FACE = "body *:not(math, math *) { font-family: 'DejaVu Sans' !important; }"
HAS_FACE = """() => {
  const pen = document.createElement("canvas").getContext("2d");
  const width = (face) => { pen.font = face; return pen.measureText("mmmiiiWW").width; };
  return width("40px 'DejaVu Sans', monospace") === width("40px 'DejaVu Sans', serif");
}"""
UNFOLD = "document.querySelectorAll('details').forEach(each => { each.open = true; each.hidden = false; })"
UNREACHED = """Array.from(document.querySelectorAll('[data-line]'))
  .filter(each => each.scrollWidth > each.clientWidth && !(each.tabIndex === 0 && each.getAttribute('aria-label')))
  .map(each => each.textContent)"""
IDLE = (
    "Array.from(document.querySelectorAll('[data-line][tabindex]')).filter(each => each.scrollWidth <= each.clientWidth).length"
)


def _written(folder: Path, made, template) -> Path:
    """The page of a template, one version, on disk."""
    questions, variants = build.practice_variants(made, template, 1)
    path = folder / f"{template.id}.html"
    path.write_text(pages.question_page(questions, variants, build.frame_of(made), catalogue("en"), level=template.level))
    return path


@pytest.fixture
def phone(browser):
    """A narrow phone in its own context, in light or dark; wide letters are set in by ``_show``."""
    contexts = []

    def opener(**settings):
        context = browser.new_context(viewport={"width": 320, "height": 600}, bypass_csp=True, **settings)
        contexts.append(context)
        return context.new_page()

    yield opener
    for context in contexts:
        context.close()


def _show(page, path: Path, width: int = 320) -> None:
    page.set_viewport_size({"width": width, "height": 600})
    page.goto(path.as_uri())
    assert page.evaluate(HAS_FACE), "DejaVu Sans is missing: on Debian, apt-get install fonts-dejavu-core"
    page.add_style_tag(content=WIDE_FACE)
    page.evaluate(UNFOLD)
    page.wait_for_timeout(50)  # the lines' widths are seen after the next drawing


@pytest.mark.parametrize("family", FAMILIES)
def test_no_page_of_a_family_scrolls_sideways(phone, tmp_path, family):
    page, wrong = phone(), {}
    for template in bank(family).templates:
        _show(page, _written(tmp_path, bank(family), template))
        width, unreached = page.evaluate("document.documentElement.scrollWidth"), page.evaluate(UNREACHED)
        if width > 320 or unreached or page.evaluate(IDLE):
            wrong[template.id] = (width, unreached)
    assert wrong == {}


def _of_each_kind():
    """A template for each kind of field, the first of the families' banks that asks so."""
    asks = {
        "number": "FindPart",
        "choice": "ChoosePart",
        "order": "OrderPart",
        "equation": "BalancePart",
        "written": "WrittenPart",
        "choices": "CasesPart",
        "several": "SeveralPart",
        "sequence": "SequencePart",
        "word": "WordPart",
        "table": "TablePart",
        "notation": "DiagramPart",
    }
    every = [(family, template) for family in FAMILIES for template in bank(family).templates]
    return {
        kind: next(each for each in every if any(type(part).__name__ == name for part in each[1].parts))
        for kind, name in asks.items()
    }


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_a_phone(phone, tmp_path, kind, scheme):
    """Source of the rules: axe-core; scrollable-region-focusable finds nothing on a wide screen."""
    family, template = _of_each_kind()[kind]
    page, path = phone(color_scheme=scheme), _written(tmp_path, bank(family), template)
    for width in (320, 360):
        _show(page, path, width)
        found = Axe().run(page, options=RULES).response["violations"]
        assert [(rule["id"], [node["html"] for node in rule["nodes"]]) for rule in found] == []


def test_what_is_asked_names_each_group_box_and_button(phone, tmp_path):
    """The names that a screen reader says: the question for a group; part, quantity and unit for a box; the part for a button."""
    made = load_bank(shipped("question_templates"))
    page = phone()
    _show(page, _written(tmp_path, made, made.template("two-metals")))
    for group in page.locator("fieldset").all():
        asked = group.locator("legend").inner_text()
        assert page.get_by_role("group", name=asked, exact=True).count() == 1
        assert len(asked) > 20
    for part in page.locator("[data-part]").all():
        label = part.get_attribute("data-part")
        assert part.get_by_role("button", name=f"Check ({label})", exact=True).count() == 1
        for box in part.get_by_role("textbox").all():
            said = box.evaluate("box => box.labels[0].innerText")
            assert said.startswith(f"({label})")
            if part.locator(".unit").count():
                assert "volt" in said
