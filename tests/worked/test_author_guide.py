"""The guide for authors is what its sources say, holds every key and every name, and is a page of every site."""

from __future__ import annotations

import html
import json
import re

import pytest
from axe_playwright_python.sync_playwright import Axe

from saltbridge.bank.names_in_bank import names_listing
from saltbridge.build import publish
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.deliver import author_guide
from saltbridge.deliver.author_guide import GUIDE, NAMES, guide, names, worked_files, write_guide
from saltbridge.home import shipped
from saltbridge.scenarios.kinds.offered import kinds

DATA = shipped("data")
TEXT = (DATA / GUIDE).read_text(encoding="utf-8")


@pytest.mark.parametrize(("file", "made"), [(GUIDE, guide), (NAMES, names)])
def test_it_is_in_step_with_its_sources(file, made):
    """Run ``python -m saltbridge.deliver.author_guide`` after a change of keys, names or worked templates."""
    assert (DATA / file).read_text(encoding="utf-8") == made()


def test_it_is_written_as_it_is(tmp_path):
    write_guide(tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == [GUIDE, NAMES]


def _keys(node):
    """Every key of a template that an editor offers, but for those of scenarios, with what is said of it."""
    for key, each in node.get("properties", {}).items():
        yield key, each.get("description", "")
        yield from _keys(each)
    for way in (*node.get("anyOf", ()), *node.get("oneOf", ())):
        yield from _keys(way)


@pytest.mark.parametrize("schema", ["template.schema.json", "bank.schema.json"])
def test_every_key_stands_there_with_what_it_is(schema):
    whole = json.loads((DATA / schema).read_text(encoding="utf-8"))
    parts = [each for name, each in whole.get("definitions", {}).items() if not name.endswith("Scenario")]
    told = dict.fromkeys((key, said) for node in (whole, *parts) for key, said in _keys(node))
    assert len(told) >= 20
    rows = [line for line in TEXT.splitlines() if line.startswith("| `")]
    missing = [
        key
        for key, said in told
        if not any(re.search(rf"[`› ]{re.escape(key)}`", row) and said.replace("|", "\\|") in row for row in rows)
    ]
    assert missing == []


def test_a_key_that_is_added_appears_by_itself(monkeypatch):
    schema = author_guide.template_schema()
    schema["definitions"]["FindPart"]["properties"]["brand new"] = {
        "type": "string",
        "description": "Nobody told the guide of this.",
    }
    monkeypatch.setattr(author_guide, "template_schema", lambda: schema)
    assert "| `brand new` | Nobody told the guide of this. | text |" in guide()


@pytest.mark.parametrize("path", worked_files(), ids=lambda path: path.stem)
def test_every_worked_template_is_printed_whole(path):
    _modeline, about, *lines = path.read_text(encoding="utf-8").splitlines()
    assert f"```yaml\n{chr(10).join(lines)}\n```" in TEXT
    assert about.removeprefix("# ") in TEXT


def test_they_go_from_the_shortest_to_a_linked_set():
    files = worked_files()
    lengths = [len(path.read_text(encoding="utf-8").splitlines()) for path in files]
    assert lengths[:-1] == sorted(lengths[:-1])
    assert "A linked set" in files[-1].read_text(encoding="utf-8")


@pytest.mark.parametrize("kind", kinds(catalogue()))
def test_the_names_of_each_kind_are_those_that_the_command_lists(kind):
    body = names_listing(kind).text.partition("\n")[2].strip("\n")
    assert f"<pre>{html.escape(body, quote=False)}</pre>" in (DATA / NAMES).read_text(encoding="utf-8")


def test_its_chapters_name_no_command_or_filter_that_there_is_not():
    from saltbridge.cli import COMMANDS  # noqa: PLC0415 - a table of words
    from saltbridge.forms.holes import FILTERS  # noqa: PLC0415 - the same

    chapters = "\n".join(path.read_text(encoding="utf-8") for path in (DATA / "guide").glob("*.md"))
    assert set(re.findall(r"saltbridge ([a-z]+)", chapters)) <= set(COMMANDS)
    filters = set(re.findall(r"\\\| (\w+) \}\}", chapters))
    assert filters
    assert filters <= set(FILTERS)


# ------------------------------------------------------------------ on the site


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    return publish(DATA / "worked", tmp_path_factory.mktemp("out") / "out", variants=1).site


def test_the_front_page_leads_to_it_from_its_foot(site):
    foot = (site / "index.html").read_text(encoding="utf-8").partition('<footer class="site-foot">')[2]
    assert '<a href="authors.html">Guide for authors</a>' in foot
    assert "authors.html" not in (site / "sheet.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("page", ["authors.html", "names.html"])
def test_its_links_lead_somewhere_and_nothing_of_markdown_is_left(site, page):
    text = (site / page).read_text(encoding="utf-8").partition("<main")[2].partition("</main>")[0]
    for href in re.findall(r'href="([^"]*)"', text):
        file, _, place = href.partition("#")
        target = (site / (file or page)).read_text(encoding="utf-8")
        assert not place or f'id="{place}"' in target, href
    prose = re.sub(r"<pre.*?</pre>|<code>.*?</code>", "", text, flags=re.DOTALL)
    assert [mark for mark in ("```", "\\|", "| ---", "**", "`") if mark in prose] == []


def test_it_stays_light(site):
    """The guide is read on a phone, and the names fold."""
    assert (site / "authors.html").stat().st_size < 200_000
    assert (site / "names.html").stat().st_size < 400_000
    assert (site / "names.html").read_text(encoding="utf-8").count("<details>") == len(kinds(catalogue()))


@pytest.mark.parametrize("page", ["authors.html", "names.html", "index.html"])
@pytest.mark.parametrize(("width", "scheme"), [(1200, "light"), (360, "dark")])
def test_it_is_open_to_all_and_fits(browser, site, page, width, scheme):
    context = browser.new_context(color_scheme=scheme, viewport={"width": width, "height": 800})
    shown = context.new_page()
    shown.goto((site / page).as_uri())
    assert shown.evaluate("document.documentElement.scrollWidth") <= width
    assert [each["id"] for each in Axe().run(shown).response["violations"]] == []
    context.close()
