"""The moderator's page: its content, its looks at three widths, on paper, and for those who hear it."""

from __future__ import annotations

import re

import pikepdf
import pytest
from axe_playwright_python.sync_playwright import Axe
from banks import change, small_bank

from saltbridge.bank.bank import load_bank
from saltbridge.deliver.proof.bank_catalogue import catalogue_of
from saltbridge.deliver.proof.proof_run import demands, prove
from saltbridge.deliver.proof.report import report_html
from saltbridge.deliver.proof.signoff import sign
from saltbridge.render.proof_page import STATES, WEIGHTS


@pytest.fixture(scope="module")
def bank(tmp_path_factory):
    """A bank with a fault, warnings and a signature."""
    from datetime import date  # noqa: PLC0415 - beside its only use

    folder = small_bank(tmp_path_factory.mktemp("bank"))
    change(folder / "cell.yaml", "    decimals: 2", "    decimals: 2\n    marks: 5")
    read = load_bank(folder)
    bath = read.template("bath")
    assert bath is not None
    sign(read, bath, catalogue_of(folder), "A. <Moderator>", date(2026, 11, 25))
    return folder


@pytest.fixture(scope="module")
def html(bank):
    return report_html(prove(bank, 60))


@pytest.fixture(scope="module")
def file(html, tmp_path_factory):
    path = tmp_path_factory.mktemp("page") / "proof.html"
    path.write_text(html, encoding="utf-8")
    return path


def _text(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html.partition("<body")[2].partition(">")[2]).split())


def test_it_begins_with_the_verdict(html):
    assert _text(html).startswith(
        "Skip to the content Proof Pier Bank One fault must be corrected. Warnings: 1. Notes: 1. Templates 3 Variants drawn and checked 180 "
        "Data sheet School data sheet Marking policy steps Signed 1 of 3 Findings Templates Coverage Common errors by outcome What was checked"
    )


def test_the_worst_comes_first(html):
    found = re.findall(r'<li class="finding (\w+)">', html.partition('<h2 id="templates"')[0])
    assert found == sorted(found, key=list(WEIGHTS).index)
    assert found[0] == "fault"
    heads = re.findall(r'<h2 id="template-([\w-]+)"', html)
    assert heads[0] == "cell"
    assert sorted(heads) == ["bath", "bench", "cell"]


def test_a_finding_says_where_what_and_how_often(html):
    item = html[html.index('<li class="finding fault">') :].partition("</li>")[0]
    assert _text("<body>" + item) == (
        "Fault cell.yaml:21 parts[2].marks 60 of 60 draws Wanted: 1, as the policy steps puts at the lines of the working. Found: 5. "
        "Leave marks out, or give as many as the lines earn. For example in variant proof 1. Cell"
    )


def test_a_signature_is_shown_as_text(html):
    assert "<strong>Signed</strong>: A. &lt;Moderator&gt;, 2026-11-25" in html
    assert "<strong>Draft</strong>" in html


def test_each_template_has_three_samples_with_working_slips_and_range(html):
    assert html.count('<article class="sample"') == 9
    sample = html[html.index('<article class="sample"') :].partition("</article>")[0]
    assert "Common errors that it reveals" in sample
    assert "Anode minus cathode" in sample
    assert "anode-minus-cathode" not in html
    assert re.search(r"accept [0-9.]+ to [0-9.]+", sample)
    assert '<ol class="steps">' in sample


def test_the_grid_of_coverage_counts_templates_and_marks(html):
    grid = html[html.index('<h2 id="coverage"') :].partition("</section>")[0]
    rows = re.findall(r"<tr><th scope=\"row\">(.*?)</tr>", grid, re.DOTALL)
    assert [_text("<body>" + row).split(" ", 1)[0] for row in rows] == ["T3.4", "T6.8", "T9.3"] * 2
    assert "1 [8]" in _text("<body>" + rows[0])


def test_the_grid_of_demands_counts_what_templates_say_of_themselves(tmp_path):
    folder = small_bank(tmp_path)
    change(folder / "cell.yaml", "level: core\n", "level: core\ndemand: apply\n")
    proof = prove(folder, 5)
    assert demands(proof.templates) == {("T3.4", "apply"): (1, 4), ("T6.8", ""): (1, 5), ("T9.3", ""): (1, 3)}
    grid = report_html(proof).partition('<caption id="demand">')[2].partition("</table>")[0]
    heads = [_text("<body>" + head) for head in re.findall(r"<th scope=\"col\".*?</th>", grid)]
    assert heads == ["Outcome", "Recall", "Routine", "Apply", "Judge", "not said"]
    cells = re.findall(r"<td.*?</td>", grid[grid.index("T3.4") :].partition("</tr>")[0])
    assert [_text("<body>" + cell) for cell in cells] == ["–", "–", "1 [4]", "–", "–"]


def test_it_needs_no_other_file_and_runs_no_script(html):
    assert not re.search(r"<(script|link|img|iframe)\b", html)
    assert not re.search(r"url\(|@import|https?://(?!www\.w3\.org)", html)
    assert "default-src &#39;none&#39;" in html


def test_every_state_and_weight_has_a_name():
    assert set(STATES) == {"draft", "signed", "changed", "withdrawn"}
    assert set(WEIGHTS) == {"fault", "warning", "note"}


# ------------------------------------------------------------------ in a browser


@pytest.fixture(params=[(1280, "light"), (1280, "dark"), (360, "light")], ids=["wide", "dark", "phone"])
def page(request, browser, file):
    width, scheme = request.param
    opened = browser.new_page(viewport={"width": width, "height": 800}, color_scheme=scheme)
    asked: list[str] = []
    opened.on("request", lambda sent: asked.append(sent.url))
    told: list[str] = []
    opened.on("console", lambda said: told.append(said.text))
    opened.goto(file.as_uri())
    yield opened, asked, told
    opened.close()


def test_it_asks_for_nothing_and_complains_of_nothing(page, file):
    _, asked, told = page
    assert asked == [file.as_uri()]
    assert told == []


def test_it_never_scrolls_sideways(page):
    opened, _, _ = page
    assert opened.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_nothing_is_wrong_for_those_who_hear_or_see_badly(page):
    opened, _, _ = page
    found = Axe().run(opened).response["violations"]
    assert [(each["id"], [node["html"][:120] for node in each["nodes"]][:3]) for each in found] == []


def test_samples_stand_side_by_side_on_a_wide_screen_only(page):
    opened, _, _ = page
    tops = opened.evaluate("[...document.querySelector('.samples').children].map(each => each.getBoundingClientRect().top)")
    wide = opened.viewport_size["width"] > 1000
    assert len(set(tops)) == (1 if wide else 3)


def test_on_paper_it_lies_with_each_template_on_a_page_of_its_own(browser, file, tmp_path):
    opened = browser.new_page()
    opened.goto(file.as_uri())
    opened.pdf(path=tmp_path / "proof.pdf", prefer_css_page_size=True)
    opened.close()
    with pikepdf.open(tmp_path / "proof.pdf") as pdf:
        box = [float(side) for side in pdf.pages[0].mediabox]
        assert box[2] > box[3]
        assert 5 <= len(pdf.pages) <= 16


def test_a_german_bank_reads_german(tmp_path):
    folder = small_bank(tmp_path, settings="language: de\ndecimal mark: comma\n")
    html = report_html(prove(folder, 10))
    text = _text(html)
    assert "Es wurden keine Fehler gefunden." in text
    assert "Wie man" not in text
    assert re.search(r"zulässig von [0-9,]+ bis [0-9,]+", text)


def test_no_line_of_a_working_leaves_its_sample(page):
    """A long line scrolls by itself; all others fit."""
    opened, _, _ = page
    over = opened.evaluate(
        """[...document.querySelectorAll('.sample .line-body:not([tabindex])')]
            .filter(each => each.scrollWidth > each.closest('.sample').clientWidth - 20).map(each => each.textContent)"""
    )
    assert over == []
