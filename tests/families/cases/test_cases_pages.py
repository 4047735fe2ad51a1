"""Cases answered on their pages in a real browser: rightly, wrongly in each known way, not at all and with kept answers that make no sense."""

from __future__ import annotations

import json

import pytest
from families.family_bank import bank, ids

from saltbridge import build
from saltbridge.answers import judge, merge
from saltbridge.render import pages
from saltbridge.words import catalogue

VARIANTS = 4


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Each template's page on disk, with its questions and variants."""
    folder, found = tmp_path_factory.mktemp("cases"), {}
    for name in ids("cases"):
        template = bank("cases").template(name)
        questions, variants = build.practice_variants(bank("cases"), template, VARIANTS)
        path = folder / f"{name}.html"
        path.write_text(
            pages.question_page(questions, variants, build.frame_of(bank("cases")), catalogue("en"), level=template.level)
        )
        found[name] = path, questions, variants
    return found


@pytest.fixture
def opened(browser):
    """Opens a page in a fresh context of a phone; an error of its script fails the test."""
    contexts, troubles = [], []

    def opener(path):
        context = browser.new_context(viewport={"width": 360, "height": 640})
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: troubles.append(str(error)))
        page.goto(path.as_uri())
        return page

    yield opener
    for context in contexts:
        context.close()
    assert troubles == []


def groups(part):
    """The groups of options of a part: its cases, or the one it has."""
    return part.locator("[data-group]").all() or [part.locator("fieldset")]


def answer(part, typed):
    """Choose an option in each group, none where that is ``None``, and check."""
    for group, option in zip(groups(part), typed, strict=True):
        if option is not None:
            group.locator("input").nth(option).check()
    part.get_by_role("button", name="Check").click()
    said = part.locator("[data-verdict]")
    said.locator("span").wait_for()
    return said.inner_text()


def key_of(question, variant):
    """The key of the only part, as the page merges it."""
    return merge(question.parts[0].judge, variant.judge[0], question.graph, variant.given)


@pytest.mark.parametrize("template", ids("cases"))
def test_every_option_is_told_in_the_words_of_its_belief(opened, made, template):
    """Right and each wrong option of the first version; the page says what Python says."""
    path, questions, variants = made[template]
    question, variant = questions[variants[0].shape], variants[0]
    key, hints = key_of(question, variant), question.parts[0].judge["hints"]
    rows = key["rows"] if key["kind"] == "cases" else [{"right": key["right"][0]}]
    page = opened(path)
    part = page.locator("[data-part]")
    for at, row in enumerate(rows):
        for option in range(groups(part)[at].locator("input").count()):
            typed = [each["right"] for each in rows]
            typed[at] = option
            said, verdict = answer(part, typed), judge(key, typed)
            if option == row["right"]:
                assert said == "Right."
            else:
                assert said.startswith("Not yet. ")
                assert said.endswith(hints[verdict.slips[0]])
                assert json.loads(part.get_attribute("data-judged")) == verdict.as_json()


def test_cases_that_are_not_all_answered_are_asked_for(opened, made):
    page = opened(made["cause-of-gap"][0])
    part = page.locator("[data-part]")
    assert answer(part, [None, None, None]) == "Give an answer first."
    assert answer(part, [0, None, 1]) == "This can't be read yet. Choose one for each of them first."


def test_the_number_of_right_cases_is_told_and_the_first_wrong_one_named(opened, made):
    path, questions, variants = made["cause-of-gap"]
    rows = key_of(questions[variants[0].shape], variants[0])["rows"]
    page = opened(path)
    wrong = [rows[0]["right"], (rows[1]["right"] + 1) % 3, (rows[2]["right"] + 1) % 3]
    assert answer(page.locator("[data-part]"), wrong).startswith("Not yet. Right so far: 1. Look at number 2 again.")


def test_what_was_chosen_is_there_again_when_the_page_opens_again(opened, made):
    page = opened(made["cause-of-gap"][0])
    answer(page.locator("[data-part]"), [2, None, 1])
    page.reload()
    chosen = [
        group.locator("input:checked").get_attribute("value") if group.locator("input:checked").count() else None
        for group in groups(page.locator("[data-part]"))
    ]
    assert chosen == ["2", None, "1"]


@pytest.mark.parametrize("kept", [7, "x", {"0": 1}, [9, 9, 9], [[0], None], [None, None, None], [0]])
def test_a_kept_answer_that_does_not_fit_is_dropped(opened, made, kept):
    """Storage may hold anything."""
    page = opened(made["cause-of-gap"][0])
    answer(page.locator("[data-part]"), [0, 0, 0])
    page.evaluate(
        """(kept) => Object.keys(localStorage).forEach((name) => {
          const all = JSON.parse(localStorage.getItem(name));
          if (all && all.typed) { Object.keys(all.typed).forEach((number) => { all.typed[number].a = kept; }); localStorage.setItem(name, JSON.stringify(all)); }
        })""",
        kept,
    )
    page.reload()
    assert answer(page.locator("[data-part]"), [0, 0, 0])


def test_a_case_is_a_group_that_is_named_by_its_situation(opened, made):
    """What a screen reader says on the way in: the question, then the case."""
    page = opened(made["two-kinds-of-cell"][0])
    for group in page.locator("[data-group]").all():
        asked = group.locator("legend").inner_text()
        assert page.get_by_role("group", name=asked, exact=True).count() == 1
    assert page.get_by_role("group", name="For which kind of cell does each sentence hold?").count() == 1


def test_the_arrow_keys_stay_within_a_case(opened, made):
    page = opened(made["two-kinds-of-cell"][0])
    first, second = groups(page.locator("[data-part]"))[:2]
    first.locator("input").first.focus()
    page.keyboard.press("ArrowDown")
    assert first.locator("input:checked").get_attribute("value") == "1"
    assert second.locator("input:checked").count() == 0
