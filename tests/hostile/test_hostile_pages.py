"""Texts of people who mean harm, where any text is allowed: on pages in a browser and on paper they are letters and nothing else."""

from __future__ import annotations

import pytest
from hostile_cases import quoted, template
from hostile_samples import BANK, write_bank
from pdf_reading import text as text_of_pdf

from saltbridge.build import publish
from saltbridge.home import shipped

SCRIPT = "<script>window.pwned=1</script>"
TITLES = (
    SCRIPT,
    "</script><script>window.pwned=1</script>",
    "<img src=x onerror=window.pwned=1>",
    '"><svg onload=window.pwned=1>',
    "' onfocus=window.pwned=1 autofocus='",
    "<!--<script>window.pwned=1",
    "{{ 7*7 }}{% raw %}${7*7}<%= 7*7 %>",
    "#panic() \\u{41} $x$ *b* _i_ `c` @r <l>",
    "&lt;b&gt;&#60;b&#62;&copy;",
    "javascript:window.pwned=1//</title></style>",
    "__proto__ constructor toString",
)  # fmt: skip


@pytest.fixture(scope="module")
def published(tmp_path_factory):
    """A bank with script in every text that takes any: titles, options, authors, the sheet's title, citation and names of constants."""
    folder = tmp_path_factory.mktemp("bank")
    sheet = (shipped("data") / "sheets" / "school.yaml").read_text(encoding="utf-8")
    lines = [
        f"title: {quoted(SCRIPT)}"
        if line.startswith("title:")
        else f"citation: {quoted(SCRIPT)}"
        if line.startswith("citation:")
        else line
        for line in sheet.splitlines()
    ]
    option = quoted('`Zn` & "x" \' onerror=window.pwned=1 <')
    part = f"[{{ask: {quoted('Is 1 < 2 & 3 > 2? [Look](https://a.example/?a=1&b=2)')}, choose: anode.metal, from: [left.metal, right.metal, {option}]}}]"
    files = {
        "bank.yaml": BANK.replace("Ferry bank", quoted(SCRIPT)) + f"authors: [{quoted(SCRIPT)}]\ndata sheet: sheets/ours.yaml\n",
        "sheets/ours.yaml": "\n".join(lines) + "\n",
    }
    for number, title in enumerate(TITLES):
        more = {"parts": part} if number == 0 else {}
        files[f"t{number}.yaml"] = template(title=quoted(title), use="[practice, homework]", **more)
    to = tmp_path_factory.mktemp("out") / "out"
    return publish(write_bank(folder, files), to, variants=3)


@pytest.fixture
def opened(browser, published):
    """Opens a page of the hostile site; notes every request, error and complaint of the browser."""
    context = browser.new_context()
    page = context.new_page()
    page.set_default_timeout(20_000)
    troubles: list[str] = []
    page.on("pageerror", lambda error: troubles.append(f"error {error}"))
    page.on("console", lambda message: troubles.append(message.text) if message.type in {"error", "warning"} else None)
    page.on(
        "request",
        lambda request: troubles.append(f"request {request.url}") if not request.url.startswith(("file:", "data:")) else None,
    )
    page.on("dialog", lambda _dialog: troubles.append("dialog"))

    def opener(name):
        page.goto((published.site / name).as_uri())
        return page

    opener.troubles = troubles
    yield opener
    context.close()


def test_script_in_every_text_is_only_text_on_every_page(opened, published):
    """No script of theirs runs, no request leaves, the browser has nothing to complain of, and no element is theirs."""
    names = sorted(path.name for path in published.site.glob("*.html"))
    assert len(names) == len(TITLES) + 6
    for name in names:
        page = opened(name)
        page.wait_for_load_state("load")
        assert page.evaluate("window.pwned === undefined"), name
        assert (
            page.evaluate("document.querySelectorAll('[onerror],[onload],[onfocus],img,iframe,object,embed,base').length") == 0
        ), name
        assert page.evaluate("[...document.querySelectorAll('a')].every(a => /^(https|file|mailto):$/.test(a.protocol))"), name
    assert opened.troubles == []


@pytest.mark.parametrize("number", range(len(TITLES)))
def test_a_hostile_title_stands_on_its_page_letter_by_letter(opened, number):
    page = opened(f"t{number}.html")

    assert TITLES[number] in page.evaluate("document.body.textContent")
    assert TITLES[number] in page.title()
    assert opened.troubles == []


def test_another_variant_shown_by_the_script_brings_nothing_to_life(opened):
    page = opened("t0.html")
    for button in page.query_selector_all("button:visible"):
        if button.is_visible() and button.is_enabled():
            button.click()

    assert page.evaluate("window.pwned === undefined")
    assert opened.troubles == []


def test_hostile_titles_are_printed_letter_by_letter_on_paper(published):
    papers = "".join(text_of_pdf(path.read_bytes()) for path in sorted((published.teacher / "papers").glob("*.pdf")))
    plain = "".join(papers.split())

    missing = [title for title in TITLES if "".join(title.split()) not in plain]
    assert missing == []
