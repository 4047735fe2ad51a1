"""The question page in a browser, opened from disk: without script, with script, by keyboard."""

from __future__ import annotations

import json
import re

import page_specimen as made
import pytest
from playwright.sync_api import expect


def _part(page, label):
    return page.locator(f'[data-part="{label}"]')


def _verdict(page, label):
    return _part(page, label).locator("[role=status]")


def _answer(page, text):
    page.fill("#part-2-typed", text)
    page.press("#part-2-typed", "Enter")


# ------------------------------------------------------------ without script


def test_without_script_question_hints_and_workings_can_be_read(opened):
    page = opened(java_script_enabled=False)
    assert page.locator("article h1").inner_text() == "Cell potential of two metals"
    assert page.locator("svg.galvanic-cell text").count() == 6
    page.locator("[data-part=b] [data-working] summary").click()
    assert page.locator("[data-part=b] .result").is_visible()
    page.locator("[data-part=b] [data-hint] summary").nth(1).click()
    assert page.locator("[data-part=b] [data-hint] p").nth(1).is_visible()


def test_without_script_no_control_stands_there_that_does_nothing(opened):
    page = opened(java_script_enabled=False)
    assert page.locator("button:visible").count() == 0
    assert page.locator("noscript").count() == 1


# ------------------------------------------------------------ answering


def test_an_answer_that_is_right_is_told_so_in_words(opened):
    page = opened()
    expect(_verdict(page, "b")).to_have_text("")
    _answer(page, "1.10 V")
    expect(_verdict(page, "b")).to_have_text("Right.")
    assert _verdict(page, "b").locator("svg use").get_attribute("href") == "#sign-right"


def test_a_second_answer_is_told_anew(opened):
    page = opened()
    _answer(page, "−1.10")
    expect(_verdict(page, "b")).to_contain_text("Look at the sign.")
    _answer(page, "two")
    expect(_verdict(page, "b")).to_contain_text("This can't be read yet.")
    assert page.locator("#part-2-typed").get_attribute("aria-invalid") == "true"
    _answer(page, "1,10")
    expect(_verdict(page, "b")).to_have_text("Right.")
    assert page.locator("#part-2-typed").get_attribute("aria-invalid") == "false"


def test_nothing_typed_is_told_without_a_verdict(opened):
    page = opened()
    page.locator("[data-part=b] [data-do=check]").click()
    expect(_verdict(page, "b")).to_have_text("Give an answer first.")


def test_the_hint_of_a_known_slip_is_told(opened):
    page = opened()
    page.check("#part-1-1")
    page.locator("[data-part=a] [data-do=check]").click()
    expect(_verdict(page, "a")).to_have_text("Not yet. Compare the two potentials.")


def test_an_answer_that_follows_from_an_earlier_one_is_told_so(opened):
    page = opened()
    page.check("#part-1-1")
    _answer(page, "-1.10")
    expect(_verdict(page, "b")).to_contain_text("This follows from your answer in (a).")
    page.check("#part-1-0")
    _answer(page, "-1.10")
    expect(_verdict(page, "b")).to_contain_text("Look at the sign.")


def test_a_verdict_goes_with_the_answer_that_it_is_about(opened):
    page = opened()
    _answer(page, "1.10")
    expect(_verdict(page, "b")).to_have_text("Right.")
    page.locator("#part-2-typed").press_sequentially("5")
    expect(_verdict(page, "b")).to_have_text("")
    assert "verdict-right" not in _verdict(page, "b").get_attribute("class")


def test_a_later_part_is_judged_again_when_an_earlier_answer_changes(opened):
    page = opened()
    page.check("#part-1-1")
    _answer(page, "-1.10")
    expect(_verdict(page, "b")).to_contain_text("This follows from your answer in (a).")
    page.check("#part-1-0")
    expect(_verdict(page, "b")).to_have_text("Not yet. Look at the sign.")
    page.check("#part-1-1")
    expect(_verdict(page, "b")).to_contain_text("This follows from your answer in (a).")


def test_a_part_that_was_not_judged_stays_so_when_an_earlier_answer_changes(opened):
    page = opened()
    page.fill("#part-2-typed", "-1.10")
    page.check("#part-1-1")
    page.locator("[data-part=a] [data-do=check]").click()
    expect(_verdict(page, "a")).to_contain_text("Not yet.")
    expect(_verdict(page, "b")).to_have_text("")


def test_the_figures_wanted_stand_at_the_box_and_in_its_name(opened):
    page = opened()
    assert _part(page, "b").locator(".wanted").inner_text() == "(to 0.01 V)"
    assert page.get_by_label("(to 0.01 V)").get_attribute("id") == "part-2-typed"


def test_the_figures_wanted_are_told_where_they_lack(opened):
    page = opened()
    _answer(page, "1.1")
    expect(_verdict(page, "b")).to_have_text("Right, but change one thing. Give it to 0.01 V.")


def test_a_number_from_a_known_slip_brings_its_hint(opened):
    page = opened()
    _answer(page, "-0.42")
    expect(_verdict(page, "b")).to_have_text("Not yet. Both potentials were added as printed. The anode's is taken away.")


def test_two_readings_of_a_number_are_named(opened):
    page = opened()
    _answer(page, "1,234.5")
    expect(_verdict(page, "b")).to_contain_text("1234.5 or 1.2345")


def test_an_equation_is_judged(opened):
    page = opened()
    page.fill("#part-4-typed", "2Zn + 2Cu^2+ -> 2Zn^2+ + 2Cu")
    page.locator("[data-part=d] [data-do=check]").click()
    expect(_verdict(page, "d")).to_contain_text("smallest whole numbers")


def test_a_formula_that_can_not_be_read_is_quoted_with_its_cure(opened):
    page = opened()
    page.fill("#part-4-typed", "Zn + CU^2+ -> Zn^2+ + Cu")
    page.locator("[data-part=d] [data-do=check]").click()
    expect(_verdict(page, "d")).to_contain_text("“CU^2+” can't be read: an element has one capital letter. Write Cu^2+.")


def test_hints_come_one_at_a_time(opened):
    page = opened()
    hints = page.locator("[data-part=b] [data-hint]")
    assert [hints.nth(at).is_visible() for at in range(2)] == [True, False]
    hints.nth(0).locator("summary").click()
    expect(hints.nth(1)).to_be_visible()


# ------------------------------------------------------------ ordering


def test_entries_are_moved_by_buttons_and_the_focus_stays(opened):
    page = opened()
    things = page.locator("[data-part=c] .thing")
    assert things.all_inner_texts() == ["Zn2+", "Ag+", "Cu2+"]
    mover = page.get_by_role("button", name=re.compile("^Up.*Ag"))
    mover.click()
    assert things.all_inner_texts() == ["Ag+", "Zn2+", "Cu2+"]
    expect(_verdict(page, "c")).to_have_text("Ag+: place 1 of 3.")
    assert page.evaluate("document.activeElement.closest('[data-item]').dataset.item") == "1"
    assert mover.get_attribute("aria-disabled") == "true"
    page.get_by_role("button", name=re.compile("^Down.*Zn")).click()
    page.locator("[data-part=c] [data-do=check]").click()
    expect(_verdict(page, "c")).to_have_text("Right.")


def test_the_first_entry_can_not_go_further_up(opened):
    page = opened()
    before = page.locator("[data-part=c] .thing").all_inner_texts()
    page.get_by_role("button", name=re.compile("^Up.*Zn")).click(force=True)
    assert page.locator("[data-part=c] .thing").all_inner_texts() == before


# ------------------------------------------------------------ new versions and memory


def test_fresh_numbers_show_the_next_variant_as_python_writes_it(opened, browser):
    page = opened()
    page.locator("[data-do=fresh]").click()
    assert "a nickel strip" in page.locator(".situation").inner_text()
    expect(page.locator("[data-fresh-says]")).to_have_text("New version: 2 of 3.")
    _answer(page, "1.06")
    expect(_verdict(page, "b")).to_have_text("Right.")
    page.locator("[data-do=fresh]").click()
    page.locator("[data-do=fresh]").click()
    assert "a zinc strip" in page.locator(".situation").inner_text()


def test_a_variant_joined_in_the_page_is_the_one_joined_in_python(opened):
    page = opened()
    start = page.locator("[data-place]").evaluate("place => place.querySelector('.situation').innerHTML")
    for _ in made.variants():
        page.locator("[data-do=fresh]").click()
    assert page.locator("[data-place]").evaluate("place => place.querySelector('.situation').innerHTML") == start


KEY = "saltbridge:1:harbour:two-metals"


def test_what_was_typed_is_kept_under_the_banks_name(opened):
    page = opened()
    page.fill("#part-2-typed", "1.23")
    page.check("#part-1-1")
    page.locator("[data-do=fresh]").click()
    kept = json.loads(page.evaluate("name => localStorage.getItem(name)", KEY))
    assert kept == {"number": 2, "typed": {"1": {"a": [1], "b": "1.23", "c": [0, 1, 2]}, "2": {"c": [0, 1, 2]}}}
    assert page.evaluate("Object.keys(localStorage)") == [KEY]
    for _ in range(2):
        page.locator("[data-do=fresh]").click()
    assert page.input_value("#part-2-typed") == "1.23"
    assert page.is_checked("#part-1-1")


def test_a_page_that_opens_again_takes_up_where_it_was_left(browser, site):
    """Memory is set before the page's script runs: with a machine under load, Chromium may show a reloaded page from
    disk an empty storage (seen in 1 of 40 runs, Chromium 156)."""
    kept = json.dumps({"number": 2, "typed": {"2": {"a": [0], "b": "1.06", "c": [1, 2, 0]}}})
    context = browser.new_context()
    context.add_init_script(f"localStorage.setItem({KEY!r}, {kept!r})")
    page = context.new_page()
    page.goto((site / "questions/two-metals.html").as_uri())
    assert "a nickel strip" in page.locator(".situation").inner_text()
    assert page.input_value("#part-2-typed") == "1.06"
    assert page.is_checked("#part-1-0")
    assert page.locator("[data-part=c] .thing").all_inner_texts() == ["Ag+", "Ag+", "Ni2+"]
    context.close()


@pytest.mark.parametrize("kept", ["not json", "7", '{"number": 99}', '{"number": 1, "typed": {"1": {"c": [5], "a": "x"}}}'])
def test_memory_that_makes_no_sense_is_passed_over(browser, site, kept):
    context = browser.new_context()
    context.add_init_script(f"localStorage.setItem({KEY!r}, {kept!r})")
    page = context.new_page()
    page.goto((site / "questions/two-metals.html").as_uri())
    assert "a zinc strip" in page.locator(".situation").inner_text()
    _answer(page, "1.10")
    expect(_verdict(page, "b")).to_have_text("Right.")
    context.close()


@pytest.mark.parametrize("thing", [{"b": 1}, [1], 1.1, True, None])
def test_a_kept_answer_that_is_no_text_is_dropped(browser, site, thing):
    kept = json.dumps({"number": 1, "typed": {"1": {"b": thing, "d": thing}}})
    context = browser.new_context()
    context.add_init_script(f"localStorage.setItem({KEY!r}, {kept!r})")
    page = context.new_page()
    page.goto((site / "questions/two-metals.html").as_uri())
    assert [page.input_value(f"#part-{part}-typed") for part in (2, 4)] == ["", ""]
    context.close()


def test_forgetting_clears_this_bank_and_nothing_else(opened):
    page = opened()
    page.fill("#part-2-typed", "1.23")
    page.evaluate("localStorage.setItem('someone-else', '1')")
    page.locator("[data-do=forget]").click()
    assert page.evaluate("Object.keys(localStorage)") == ["someone-else"]
    assert page.input_value("#part-2-typed") == ""
    expect(page.locator("[data-memory-says]")).to_have_text("Your answers have been deleted.")


def test_the_page_works_where_storage_is_refused(opened, browser, site):
    context = browser.new_context()
    context.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('refused'); } })")
    page = context.new_page()
    page.goto((site / "questions/two-metals.html").as_uri())
    _answer(page, "1.10")
    expect(_verdict(page, "b")).to_have_text("Right.")
    expect(page.locator("[data-memory-says]")).to_contain_text("keeps no answers")
    context.close()


def test_a_part_that_breaks_leaves_the_others_working(opened, site, tmp_path):
    text = (site / "questions/two-metals.html").read_text(encoding="utf-8")
    broken = text.replace('data-kind="choice"', 'data-gone="choice"', 1)
    (tmp_path / "broken.html").write_text(broken, encoding="utf-8")
    page = opened(tmp_path / "broken.html")
    expect(_verdict(page, "a")).to_contain_text("Something went wrong in this part")
    _answer(page, "1.10")
    expect(_verdict(page, "b")).to_have_text("Right.")


def test_data_of_another_schema_is_named_and_not_used(opened, site, tmp_path):
    text = (site / "questions/two-metals.html").read_text(encoding="utf-8")
    (tmp_path / "later.html").write_text(text.replace('{"schema":2,', '{"schema":3,', 1), encoding="utf-8")
    page = opened(tmp_path / "later.html")
    expect(page.get_by_role("alert")).to_contain_text("made for another version")
    assert page.locator("button:visible").count() == 0


# ------------------------------------------------------------ keyboard


def test_the_whole_question_can_be_answered_by_keyboard(opened):
    page = opened()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "part-1-0"
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(_verdict(page, "a")).to_have_text("Right.")
    reached = set()
    for _ in range(60):
        page.keyboard.press("Tab")
        reached.add(
            page.evaluate(
                "document.activeElement.tagName + (document.activeElement.id || document.activeElement.dataset.do || '')"
            )
        )
    assert {
        "INPUTpart-2-typed",
        "INPUTpart-4-typed",
        "BUTTONup",
        "BUTTONdown",
        "BUTTONfresh",
        "BUTTONforget",
        "SUMMARY",
    } <= reached


def test_the_focus_can_be_seen(opened):
    page = opened()
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    style = page.evaluate(
        "(({outlineStyle, outlineWidth}) => [outlineStyle, outlineWidth])(getComputedStyle(document.activeElement))"
    )
    assert style == ["solid", "3px"]
