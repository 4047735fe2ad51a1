"""Whole pages: policy, data block, links and names, as text; the browser's view is tested under tests/site."""

from __future__ import annotations

import base64
import hashlib
import html
import json
import re
from html.parser import HTMLParser
from pathlib import Path, PurePosixPath

import page_specimen as made
import pytest

from saltbridge.document import Figure, SheetConstant, SheetLine, SheetPage, Symbol
from saltbridge.home import shipped
from saltbridge.render import field_markup as fields
from saltbridge.render import pages
from saltbridge.render.page_sentences import ACTIONS
from saltbridge.render.pages import Entry, Frame, guide_page, index_page, question_page, sheet_page
from saltbridge.render.payload import data_block
from saltbridge.words import catalogue

ENGLISH = catalogue("en")
VERDICTS = {"right": "Right.", "right-but": "Right, but.", "follows": "Follows.", "not-yet": "Not yet."}
SENTENCES = {"verdict": VERDICTS, "why": {"empty": "Give an answer first."}}
FRAME = Frame("A & B <bank>", "harbour", SENTENCES, provenance="made by <hand>", licence="CC BY 4.0")


def _line() -> Figure:
    labels = {"Zn": made.ion("Zn", "2+"), "Cu": made.ion("Cu", "2+"), "axis": "E°/V"}
    return Figure("number-line", labels, {"Zn": -0.76, "Cu": 0.34}, frozenset(), "two couples on a line")


def _sheet() -> SheetPage:
    row = SheetLine(made.base("Zn² + 2e", "equation"), made.base("−0.76"), made.ion("Zn", "2+"), -0.76)
    faraday = SheetConstant("Faraday constant", Symbol("F", "Faraday constant"), made.base("96 500 C/mol", "quantity"))
    return SheetPage("Data sheet", "downward", (row,), (faraday,), (("Zn", "65.4"),), "printed <source>")


def _question() -> str:
    frame = Frame("A & B <bank>", "harbour", SENTENCES, root="../")
    return question_page([made.question()], made.variants(), frame, ENGLISH, level="core", outcome="Cells")


PAGES = {
    "question": _question,
    "index": lambda: index_page([Entry("Two <metals>", "questions/a.html", "Cells", "core", 7, 9, 30)], _line(), FRAME, ENGLISH),
    "index-without-line": lambda: index_page([], None, FRAME, ENGLISH),
    "sheet": lambda: sheet_page(_sheet(), _line(), FRAME, ENGLISH),
    "guide": lambda: guide_page(FRAME, ENGLISH),
}


class _Page(HTMLParser):
    """Elements, and what their attributes refer to."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, {name: value or "" for name, value in attrs}))

    def values(self, name: str) -> list[str]:
        return [attributes[name] for _, attributes in self.elements if name in attributes]


@pytest.fixture(params=PAGES, ids=str)
def page(request) -> str:
    return PAGES[request.param]()


def test_the_policy_names_the_digests_of_the_exact_bytes_in_the_page(page):
    policy = html.unescape(re.search(r'Content-Security-Policy" content="([^"]*)"', page)[1])
    for kind, pattern in (("script", r"<script>(.*?)</script>"), ("style", r"<style>(.*?)</style>")):
        (inside,) = re.findall(pattern, page, flags=re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(inside.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'")


def test_the_policy_stands_before_any_style_or_script(page):
    assert page.index("Content-Security-Policy") < min(page.index("<style"), page.index("<script"))


def test_nothing_is_loaded_from_anywhere(page):
    elements = _Page(page).elements
    assert [
        tag for tag, attributes in elements if "src" in attributes or tag in {"link", "iframe", "object", "embed", "base"}
    ] == []
    assert [value for value in _Page(page).values("href") if "://" in value or value.startswith("/")] == []
    assert not re.search(r"@import|url\((?!#)", page)


def test_nothing_needs_an_inline_handler_or_style(page):
    names = {name for _, attributes in _Page(page).elements for name in attributes}
    assert [name for name in names if name == "style" or name.startswith("on")] == []


def test_every_reference_inside_the_page_finds_its_element(page):
    read = _Page(page)
    names = read.values("id")
    assert len(names) == len(set(names))
    wanted = [
        name for kind in ("for", "aria-labelledby", "aria-describedby") for value in read.values(kind) for name in value.split()
    ]
    wanted += [value[1:] for value in read.values("href") if value.startswith("#")]
    assert set(wanted) <= set(names)


def test_every_group_has_a_legend_and_every_box_a_label(page):
    read = _Page(page)
    tags = [tag for tag, _ in read.elements]
    assert tags.count("fieldset") == tags.count("legend")
    boxes = [attributes["id"] for tag, attributes in read.elements if tag == "input"]
    assert set(boxes) <= set(read.values("for"))


def test_the_bank_is_text_and_never_markup(page):
    assert "A &amp; B &lt;bank&gt;" in page
    assert "<bank>" not in page


def test_links_between_pages_lead_back_to_the_front_page():
    links = [value for value in _Page(_question()).values("href") if not value.startswith("#")]
    places = {str(PurePosixPath("questions") / link) for link in links}
    assert places == {"questions/../index.html", "questions/../sheet.html", "questions/../guide.html", "questions/../bench.html"}


def test_the_question_page_is_whole_with_its_first_variant():
    text = re.sub(r"<script.*?</script>", "", _question(), flags=re.DOTALL)
    assert "a zinc strip" in text
    assert "+1.10" in text
    assert "nickel" not in text


def test_a_variant_is_texts_and_keys_and_nothing_else():
    data = json.loads(re.search(r'id="page-data">(.*?)</script>', _question(), flags=re.DOTALL)[1])
    assert set(data) == {"schema", "bank", "question", "shapes", "variants", "hints", "units", "sentences"}
    assert data["schema"] == 2
    assert [set(variant) for variant in data["variants"]] == [{"number", "shape", "texts", "keys", "given"}] * 3
    used = {chunk for chunk in data["shapes"][0]["chunks"] if isinstance(chunk, int)}
    assert used == set(range(len(data["variants"][0]["texts"])))
    assert len(data["shapes"][0]["keys"]) == len(made.question().parts)
    assert set(data["sentences"]) == {"verdict", "why", "actions"}


def test_thirty_variants_fit_on_a_small_page():
    """The aim is 1 MB a page at most; the texts of one variant cost about three kilobytes."""
    thirty = question_page([made.question()], made.variants() * 10, FRAME, ENGLISH)
    one = question_page([made.question()], made.variants()[:1], FRAME, ENGLISH)
    assert (len(thirty.encode()) - len(one.encode())) / 29 < 3000


def test_a_page_without_a_variant_is_refused():
    with pytest.raises(ValueError, match="needs a variant"):
        question_page([made.question()], (), FRAME, ENGLISH)


@pytest.mark.parametrize("text", ["</script><script>x", "<!-- <SCRIPT", "\u2028</SCRIPT>", "a < b </b>"])
def test_no_text_can_end_the_data_block(text):
    block = data_block({"text": text})
    assert json.loads(block) == {"text": text}
    assert not re.search(r"<!--|</?script", block, flags=re.IGNORECASE)


def test_a_key_that_json_does_not_know_is_named():
    with pytest.raises(TypeError, match="complex"):
        data_block({"key": 1j})


def test_the_script_says_only_what_the_page_hands_it():
    """Every action that the page's scripts ask for has a sentence, and every sentence is asked for."""
    room = shipped("site") / "scripts"
    scripts = [room / "page.js", *sorted(room.glob("field*.js"))]
    script = "\n".join(each.read_text(encoding="utf-8") for each in scripts)
    asked = set(re.findall(r'say\("([a-z-]+)"', script)) | set(re.findall(r'\? "([a-z-]+)" : "([a-z-]+)"', script)[0])
    of_cells = set(re.findall(r'"(cell-[a-z]+)"', script)) | {
        f"cell-{verdict}" for verdict in ("right", "right-but", "follows", "not-yet") if '"cell-" +' in script
    }
    assert (asked | of_cells) - {"cell-verdict"} == set(ACTIONS)


SAID = re.compile(r"""words\((["'])(?P<said>.+?)\1[,)]""")


def _asked() -> set[str]:
    """Every sentence that layouts and page writers ask the catalogue for."""
    package = Path(pages.__file__).parent
    files = [
        *(shipped("site") / "layouts").glob("*.html"),
        *(package / name for name in ("html.py", "part_markup.py", "pages.py")),
        *(path for path in package.glob("*field*.py")),
    ]
    found = {match["said"] for file in files for match in SAID.finditer(file.read_text(encoding="utf-8"))}
    return found | set(ACTIONS.values()) | set(pages.LEVELS.values()) | set(fields.WAYS.values())


def test_every_sentence_of_the_pages_has_a_german_one():
    german = catalogue("de")
    assert {sentence for sentence in _asked() if german(sentence) == sentence} - {"Symbol", "min"} == set()


def test_a_german_page_is_german_throughout():
    frame = Frame("Bank", "harbour", SENTENCES, language="de")
    text = question_page([made.question()], made.variants(), frame, catalogue("de"), level="core")
    assert '<html lang="de">' in text
    body = re.sub(r"<script.*?</script>", "", text, flags=re.DOTALL)
    assert [sentence for sentence in ("Check", "Hint", "Working", "New version", "marks") if f">{sentence}" in body] == []
