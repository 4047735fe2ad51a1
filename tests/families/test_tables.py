"""Every table in the families' banks: answered rightly, wrongly in each known way, and oddly, in Python and in the page alike."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from family_bank import bank, right_of, samples

from saltbridge import build
from saltbridge.answers import judge, merge
from saltbridge.bank.table_part import TablePart
from saltbridge.render import pages
from saltbridge.render.part_markup import question_skeleton, variant_texts
from saltbridge.render.skeleton import join
from saltbridge.words import catalogue

FAMILIES = sorted(path.parent.name for path in Path(__file__).parent.glob("*/bank"))
TABLES = [
    (family, template.id)
    for family in FAMILIES
    for template in bank(family).templates
    if any(isinstance(part, TablePart) for part in template.parts)
]
# Form of a question that a table makes possible -> a template that asks so.
FORMS = {
    "letters or points of the loop and what carries the charge": "points-of-the-loop",
    "a table of potentials with another metal as zero": "table-with-a-new-zero",
    "the reference of a table of readings changed": "readings-against-another-strip",
    "an equation doubled: what changes": "doubled-table",
    "a sign table with blanks": "signs-table",
    "two kinds of cell compared": "two-kinds-of-cell",
    "both products and the pH change": "products-table",
    "the plating of an object set up": "plating-table",
    "what happens at each plate on charging": "plates-table",
    "cause and sign of the gap": "causes-table",
    "variables of a fair test": "fair-test-table",
    "one pair of electrodes: roles, metals, electrons": "roles-table",
}
ODD = (
    None,
    "",
    "  ",
    "x" * 300,
    "\x00",
    "\ud800",
    "−",
    "1e999",
    "½",
    "=1+1",
    "<b>zinc</b>",
    "__proto__",
    [],
    [99],
    [-1],
    [0, 0],
    ["0"],
    {},
    5,
    True,
    [None],
)


def tables_of(family, template):
    """Each drawn table: its part, its key, and the right answers of its cells."""
    for _, question, variant in samples(family, template):
        for place, part in enumerate(question.parts):
            if part.judge["kind"] == "table":
                key = merge(part.judge, variant.judge[place], question.graph, variant.given)
                cells = zip(part.field.blanks, key["cells"], strict=True)
                yield part, key, [right_of(blank, cell, variant.slots) for blank, cell in cells]


def wrong_ways(key):
    """(cell, answer, ids of common errors) for each wrong option or number of which a cell knows."""
    for at, cell in enumerate(key["cells"]):
        if cell["kind"] == "number":
            for error, (low, high) in cell["slip_ranges"].items():
                yield at, f"{(float(low) + float(high)) / 2:.12g}", (error,)
        else:
            for option, errors in cell["slips"].items():
                yield at, _typed_or_chosen(cell, option), tuple(errors)


def _typed_or_chosen(cell, wrong):
    """A wrong answer of a key as a student gives it."""
    if cell["kind"] == "word":
        return cell["words"][int(wrong)][0]
    return wrong if cell["kind"] == "species" else [int(wrong)]


def test_each_form_has_a_template():
    assert set(FORMS.values()) <= {template for _, template in TABLES}


@pytest.mark.parametrize(("family", "template"), TABLES)
def test_a_table_filled_in_rightly_is_right_as_a_whole_and_cell_by_cell(family, template):
    for part, key, right in tables_of(family, template):
        verdict = judge(key, right)
        assert verdict.verdict == "right", (part.label, right, verdict)
        assert [each.verdict for each in verdict.cells] == ["right"] * len(right)
        units = part.field.units
        assert part.marks % units == 0 or units % part.marks == 0


@pytest.mark.parametrize(("family", "template"), TABLES)
def test_a_known_error_in_one_cell_is_told_there_and_nowhere_else(family, template):
    for _, key, right in tables_of(family, template):
        for at, wrong, errors in wrong_ways(key):
            alone = judge(key, [wrong if place == at else None for place in range(len(right))]).cells[at]
            assert alone.verdict == "slip", (at, wrong, alone)
            assert set(errors) & set(alone.slips)
            verdict = judge(key, [*right[:at], wrong, *right[at + 1 :]])
            assert verdict.verdict == "not-yet"
            # With the cells before it right, an error that would have spoilt them can't have happened.
            assert verdict.cells[at].verdict in ({"slip", "not-yet"} if key["cells"][at].get("earlier") else {"slip"})
            others = [each.verdict for place, each in enumerate(verdict.cells) if place != at]
            assert set(others) <= {"right", "not-yet"}
            assert {each.verdict for each in verdict.cells[:at]} <= {"right"}


@pytest.mark.parametrize(("family", "template"), TABLES)
def test_a_cell_that_hangs_on_another_follows_it(family, template):
    """Whatever a cell names as earlier is a cell or part that stands before it."""
    for part, key, _ in tables_of(family, template):
        labels = [cell["label"] for cell in key["cells"]]
        for at, cell in enumerate(key["cells"]):
            assert all(label in labels[:at] or label < part.label for label, *_ in cell.get("earlier", ()))


@pytest.mark.parametrize(("family", "template"), TABLES)
def test_odd_answers_are_never_right_and_never_raise(family, template):
    for _, key, right in tables_of(family, template):
        for odd in ODD:
            verdict = judge(key, [odd, *right[1:]])
            assert verdict.cells[0].verdict not in {"right", "right-but"} if verdict.cells else verdict.verdict == "unread"
            assert judge(key, odd).verdict == "unread" or judge(key, odd).verdict == "not-yet"


@pytest.mark.parametrize("odd", ODD)
def test_what_is_no_list_of_cells_is_no_answer(odd):
    _, key, _ = next(tables_of(*TABLES[0]))
    assert judge(key, odd).verdict == "unread"


# ------------------------------------------------------------------ in the page


@pytest.fixture
def opened(browser, tmp_path):
    """The page of a template with the versions of its samples."""
    context = browser.new_context()

    def opener(family, template):
        made = bank(family)
        questions, variants = build.practice_variants(made, made.template(template), 3)
        path = tmp_path / f"{template}.html"
        path.write_text(pages.question_page(questions, variants, build.frame_of(made), catalogue("en"), level="core"))
        page = context.new_page()
        page.goto(path.as_uri())
        return page

    yield opener
    context.close()


@pytest.mark.parametrize(("family", "template"), TABLES)
def test_the_page_judges_tables_as_python_does(opened, family, template):
    """Right, each known error, and odd answers: every verdict of every cell is the same in both."""
    page = opened(family, template)
    for _, key, right in tables_of(family, template):
        asked = [right, *([*right[:at], wrong, *right[at + 1 :]] for at, wrong, _ in wrong_ways(key))]
        asked += [[odd, *right[1:]] for odd in ODD if odd != "\ud800"]
        found = page.evaluate(
            "([key, asked]) => asked.map((typed) => saltbridgeAnswers.judge(key, typed, {}, JSON.parse(document.getElementById('page-data').textContent).units))",
            [json.loads(json.dumps(key, default=dict)), asked],
        )
        mine = [judge(key, typed).as_json() for typed in asked]
        assert [(typed, a, b) for typed, a, b in zip(asked, mine, found, strict=True) if a != b] == []


def fill(page, answers):
    """Type and choose, cell by cell, as a student does."""
    for cell, answer in zip(page.locator("[data-cell]").all(), answers, strict=True):
        if isinstance(answer, list):
            cell.locator("input[type=radio]").nth(answer[0]).check()
        else:
            cell.locator("input").fill(answer)


@pytest.mark.parametrize(("family", "template"), TABLES)
def test_a_student_fills_in_a_table_and_is_told_at_each_cell(opened, family, template):
    page = opened(family, template)
    _, key, right = next(tables_of(family, template))
    fill(page, right)
    page.locator("form[data-kind=table] [data-do=check]").click()
    status = page.locator("[data-part]", has=page.locator("form[data-kind=table]")).locator("[data-verdict]")
    status.filter(has_text="Right.").wait_for()
    assert [each.inner_text().strip() for each in page.locator("[data-cell-verdict]").all()] == ["right"] * len(right)
    assert page.locator("[data-note]").count() == 0
    wrong = next(((at, answer) for at, answer, _ in wrong_ways(key)), None)
    if wrong is not None:
        at, answer = wrong
        fill(page, [*right[:at], answer, *right[at + 1 :]])
        cell = page.locator("[data-cell]").nth(at)
        assert cell.locator("[data-cell-verdict]").inner_text() == ""
        page.locator("form[data-kind=table] [data-do=check]").click()
        cell.locator("[data-cell-verdict]", has_text="not yet").wait_for()
        assert page.locator(f"[data-note='{cell.get_attribute('data-cell')}']").count() == 1
        assert any(_is_kept(page, at, answer) for _ in range(6))


def _is_kept(page, at, answer):
    """Whether the answer of a cell stands there after a reload; a busy browser takes its time to write what it keeps."""
    page.wait_for_timeout(300)
    page.reload()
    kept = page.locator("[data-cell]").nth(at)
    if isinstance(answer, list):
        return kept.locator("input[type=radio]").nth(answer[0]).is_checked()
    return kept.locator("input").input_value() == answer


def test_each_field_of_a_table_is_named_by_its_row_and_column(opened):
    page = opened("standards", "table-with-a-new-zero")
    boxes = page.locator("[data-cell] input").all()
    names = [box.evaluate("box => box.labels[0].innerText") for box in boxes]
    assert len(set(names)) == len(names) == 4
    for name in names:
        assert name.startswith("(a) ")
        assert "Their scale, volts (to 0.001" in name
    assert page.get_by_role("table", name="Complete their table of potentials.").count() == 1
    assert page.get_by_role("columnheader").count() == 3
    assert page.get_by_role("rowheader").count() == 4
    for box in boxes:
        told = box.get_attribute("aria-describedby")
        assert page.locator(f"#{told}").count() == 1


def test_a_table_is_filled_in_by_keyboard_alone(opened):
    page = opened("galvanic", "points-of-the-loop")
    page.locator("[data-cell] input").first.focus()
    for _ in range(page.locator("[data-cell]").count()):
        page.keyboard.press("Space")
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.dataset.do") == "check"
    page.keyboard.press("Enter")
    page.locator("[data-cell-verdict]", has_text="right").first.wait_for()
    assert all(each.inner_text().strip() for each in page.locator("[data-cell-verdict]").all())


def test_a_blank_cell_is_empty_in_the_page_as_it_was_written():
    """No right answer of a table stands in its fields before the working."""
    for family, template in TABLES:
        for _, question, variant in samples(family, template):
            skeleton = question_skeleton(question, catalogue("en"))
            html = join(skeleton.chunks, variant_texts(skeleton, variant))
            blanks = [cell for part in question.parts for cell in getattr(part.field, "blanks", ())]
            assert html.count("data-cell=") == len(blanks)
            values = re.findall(r"<input[^>]*>", html)
            assert not [each for each in values if ('type="text"' in each and " value=" in each) or " checked" in each]
