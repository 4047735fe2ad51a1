"""A written answer on the page and on paper: self-marked point by point, kept in memory; no point on a paper, all in the memorandum."""

from __future__ import annotations

import json
import re

import pytest
from families.family_bank import bank, ids, samples
from families.family_pages import part, shown, verdict, written_page
from pdf_reading import text
from playwright.sync_api import expect

from saltbridge.document import Paper, WrittenField
from saltbridge.render.text import spans_text
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank


@pytest.fixture
def path(tmp_path):
    return written_page(tmp_path, "key_points", "why-two-vessels")


def test_ticks_are_added_up_in_words_as_they_are_set(browser, path):
    with shown(browser, path) as page:
        part(page, "a").get_by_label("Your answer").fill("The ions would take electrons at once.")
        expect(verdict(page, "a")).to_have_text("")
        assert part(page, "a").locator("button:visible").count() == 0  # nothing is checked
        part(page, "a").locator("summary").click()
        boxes = part(page, "a").get_by_role("checkbox")
        boxes.nth(0).check()
        expect(verdict(page, "a")).to_have_text("By your own marking: 1 out of 3.")
        boxes.nth(2).check()
        expect(verdict(page, "a")).to_have_text("By your own marking: 2 out of 3.")
        boxes.nth(0).uncheck()
        expect(verdict(page, "a")).to_have_text("By your own marking: 1 out of 3.")
        boxes.nth(2).uncheck()
        expect(verdict(page, "a")).to_have_text("")


def test_a_reload_brings_back_the_text_the_ticks_and_what_they_come_to(browser, path):
    with shown(browser, path) as page:
        box = part(page, "a").get_by_label("Your answer")
        box.fill("First line.\nSecond <b>line</b>.")
        part(page, "a").locator("summary").click()
        part(page, "a").get_by_role("checkbox").nth(1).check()
        page.reload()
        expect(box).to_have_value("First line.\nSecond <b>line</b>.")
        expect(part(page, "a").get_by_role("checkbox").nth(1)).to_be_checked()
        expect(part(page, "a").get_by_role("checkbox").nth(0)).not_to_be_checked()
        expect(verdict(page, "a")).to_have_text("By your own marking: 1 out of 3.")
        expect(verdict(page, "b")).to_have_text("")


def test_the_points_of_a_text_alone_stay_closed_after_a_reload(browser, path):
    with shown(browser, path) as page:
        part(page, "a").get_by_label("Your answer").fill("Heat.")
        page.reload()
        expect(part(page, "a").get_by_role("checkbox").nth(0)).to_be_hidden()


def test_all_of_it_is_done_by_keyboard(browser, path):
    with shown(browser, path) as page:
        part(page, "a").get_by_label("Your answer").focus()
        page.keyboard.type("Heat.")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        page.keyboard.press("Tab")
        page.keyboard.press("Space")
        expect(verdict(page, "a")).to_have_text("By your own marking: 1 out of 3.")
        page.keyboard.press("Enter")  # in a form without a button it must not leave the page
        expect(part(page, "a").get_by_role("checkbox").nth(0)).to_be_checked()


def test_a_sketch_has_no_box_to_type_in(browser, path):
    with shown(browser, path) as page:
        assert part(page, "b").get_by_role("textbox").count() == 0
        part(page, "b").locator("summary").click()
        for tick in part(page, "b").get_by_role("checkbox").all():
            tick.check()
        expect(verdict(page, "b")).to_have_text("By your own marking: 4 out of 4.")


def test_no_more_points_count_than_are_wanted(browser, tmp_path):
    with shown(browser, written_page(tmp_path, "key_points", "a-cell-for-a-use")) as page:
        part(page, "a").locator("summary").click()
        assert part(page, "a").get_by_role("group", name="Tick what your answer has. Any 2 of these count.").count() == 1
        for tick in part(page, "a").get_by_role("checkbox").all():
            tick.check()
        expect(verdict(page, "a")).to_have_text("By your own marking: 2 out of 2.")


def test_without_script_the_points_can_be_shown(browser, path):
    with shown(browser, path, java_script_enabled=False) as page:
        part(page, "a").locator("summary").click()
        expect(part(page, "a").get_by_role("checkbox").nth(0)).to_be_visible()


ODD = ["text", 7, [0], None, {"text": 5, "ticked": "0"}, {"text": "kept", "ticked": [99, -1, "x", None]}, {"ticked": {}}]


@pytest.mark.parametrize("odd", ODD, ids=str)
def test_odd_things_in_the_memory_leave_the_part_working(browser, path, odd):
    with shown(browser, path) as page:
        page.evaluate(
            """odd => localStorage.setItem("saltbridge:1:key-points:why-two-vessels",
                 JSON.stringify({number: 1, typed: {1: {a: odd}}}))""",
            odd,
        )
        page.reload()
        part(page, "a").locator("summary").click()
        part(page, "a").get_by_role("checkbox").nth(0).check()
        expect(verdict(page, "a")).to_have_text("By your own marking: 1 out of 3.")


def _plain(shown_text):
    return re.sub(r"[\s\u200b\u00ad-]+", "", shown_text)


@pytest.mark.parametrize("template", ids("key_points"))
def test_no_point_stands_on_a_paper_and_all_in_the_memorandum(template):
    made, (_, question, variant) = bank("key_points"), samples("key_points", template)[0]
    writer = PaperWriter(made.settings, of_bank(made.settings))
    paper, memorandum = (
        _plain(
            text(
                writer.paper(Paper("A school", "Words", "LINES-A-0", (), ((question, variant),), question.marks, 5, memo, "")).pdf
            )
        )
        for memo in (False, True)
    )
    for field in (each.field for each in question.parts if isinstance(each.field, WrittenField)):
        for point in field.points:
            for spans in (point.text, *point.accept, *point.refuse):
                words = max(re.findall(r"[a-z ]+", spans_text(spans, variant.slots)), key=len)
                assert _plain(words) in memorandum, words
                assert _plain(words) not in paper, words
        assert json.dumps(field.most) in memorandum
