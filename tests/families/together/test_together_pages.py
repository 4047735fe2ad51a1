"""Ticks, reasons and steps on their pages in a real browser: right, wrong in each known way, unfinished, kept, and by keyboard."""

from __future__ import annotations

import json

import pytest
from families.family_bank import bank

from saltbridge import build
from saltbridge.answers import judge, merge
from saltbridge.render import pages
from saltbridge.words import catalogue

FAMILY = "together"
NAMES = ("which-protect", "true-of-both-cells", "needed-to-rust", "grows-and-why", "attacked-and-why", "build-a-cell")


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A page of each kind on disk, with the key of its last part in the first version and that part."""
    folder, found = tmp_path_factory.mktemp(FAMILY), {}
    for name in NAMES:
        template = bank(FAMILY).template(name)
        questions, variants = build.practice_variants(bank(FAMILY), template, 3)
        path = folder / f"{name}.html"
        path.write_text(
            pages.question_page(questions, variants, build.frame_of(bank(FAMILY)), catalogue("en"), level=template.level)
        )
        question, variant = questions[variants[0].shape], variants[0]
        key = merge(question.parts[-1].judge, variant.judge[-1], question.graph, variant.given)
        found[name] = path, key, question.parts[-1]
    return found


@pytest.fixture
def opened(browser):
    """Opens a page of a narrow phone in a fresh context; an error of its script fails the test."""
    contexts, troubles = [], []

    def opener(path):
        context = browser.new_context(viewport={"width": 320, "height": 640})
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: troubles.append(str(error)))
        page.goto(path.as_uri())
        return page, page.locator("[data-part]").last

    yield opener
    for context in contexts:
        context.close()
    assert troubles == []


def said(part):
    """What the part says once it is checked."""
    part.get_by_role("button", name="Check").click()
    line = part.locator("[data-verdict] span")
    line.wait_for()
    return line.inner_text()


def tick(part, numbers):
    """Tick these boxes and no others."""
    for at, box in enumerate(part.locator("input[type=checkbox]").all()):
        box.set_checked(at in numbers)


def choose(part, numbers):
    """Choose in each group."""
    for group, number in zip(part.locator("[data-group]").all(), numbers, strict=True):
        if number is not None:
            group.locator("input").nth(number).check()


def put(part, order):
    """Bring the steps into an order, by their buttons alone."""
    for place, step in enumerate(order):
        while True:
            now = [int(each.get_attribute("data-item")) for each in part.locator("[data-item]").all()].index(step)
            if now == place:
                break
            part.locator(f'[data-item="{step}"]').get_by_role("button", name="Up").click()


def judged(part):
    """The verdict that the page keeps at the part."""
    return json.loads(part.get_attribute("data-judged"))


@pytest.mark.parametrize("name", ["which-protect", "true-of-both-cells", "needed-to-rust"])
def test_ticks_are_judged_as_python_does_and_told_in_words(opened, made, name):
    path, key, part_of = made[name]
    _, part = opened(path)
    count = len(part_of.field.options)
    tick(part, key["right"])
    assert said(part) == "Right."
    for option in range(count):
        ticked = sorted({*key["right"]} ^ {option})
        if not ticked:
            continue
        tick(part, ticked)
        told, verdict = said(part), judge(key, ticked)
        assert judged(part) == verdict.as_json()
        assert told.startswith("Not yet." if verdict.verdict != "unread" else "This can't be read yet.")
        if "earns" in verdict.why:
            assert f"So far this earns {verdict.readings[0]} of {verdict.readings[1]} marks." in told
        if verdict.slips:
            assert told.endswith(part_of.judge["hints"][verdict.slips[0]])


def test_none_of_these_beside_another_is_asked_about(opened, made):
    path, key, _ = made["which-protect"]
    _, part = opened(path)
    tick(part, [0, key["none"]])
    assert said(part) == "This can't be read yet. You ticked that none fits, and others too. Take one or the other."


def test_nothing_ticked_is_asked_for(opened, made):
    _, part = opened(made["which-protect"][0])
    assert said(part) == "Give an answer first."


@pytest.mark.parametrize("name", ["grows-and-why", "attacked-and-why"])
def test_the_four_outcomes_are_told_in_words(opened, made, name):
    path, key, part_of = made[name]
    _, part = opened(path)
    right, reason = key["right"][0], key["reason"]["right"]
    sentences = {
        "reason-again": "Your choice is right, but this is not the reason.",
        "choice-again": "The reason is right. Look at your choice again: does it follow from this reason?",
        "both-again": "Look again at the choice and at the reason.",
    }
    for choice in range(len(part_of.field.groups[0].options)):
        for why in range(len(part_of.field.groups[1].options)):
            choose(part, [choice, why])
            told, verdict = said(part), judge(key, [choice, why])
            assert judged(part) == verdict.as_json()
            assert (told == "Right.") == ((choice, why) == (right, reason))
            assert all(sentences[code] in told for code in verdict.why)


def test_a_choice_without_its_reason_is_asked_for(opened, made):
    _, part = opened(made["grows-and-why"][0])
    choose(part, [0, None])
    assert said(part) == "This can't be read yet. Choose an answer and a reason first."


def test_a_choice_follows_from_the_anode_that_was_chosen_before(opened, made):
    path, key, _ = made["grows-and-why"]
    page, part = opened(path)
    first = page.locator("[data-part]").first
    wrong = key["right"][0]  # who takes the cathode for the anode
    first.locator("input").nth(wrong).check()
    choose(part, [1 - wrong, key["reason"]["right"]])
    assert said(part) == "This follows from your answer in (a). Look at that one again, then come back."


def test_steps_are_put_in_order_by_their_buttons(opened, made):
    path, key, part_of = made["build-a-cell"]
    _, part = opened(path)
    put(part, key["right"])
    assert said(part) == "Right."
    at = next(at for at in range(4) if key["stage"][key["right"][at]] < key["stage"][key["right"][at + 1]])
    order = [*key["right"][:at], key["right"][at + 1], key["right"][at], *key["right"][at + 2 :]]
    put(part, order)
    told, verdict = said(part), judge(key, order)
    assert judged(part) == verdict.as_json()
    assert f"Look at numbers {at + 1} and {at + 2}: they stand the wrong way round." in told
    assert all(part_of.judge["hints"][each] in told for each in verdict.slips)


@pytest.mark.parametrize("name", NAMES)
def test_what_was_answered_is_there_again_when_the_page_opens_again(opened, made, name):
    path, key, _ = made[name]
    page, part = opened(path)
    answer = {"several": tick, "reasoned": choose, "sequence": put}[key["kind"]]
    answer(part, [key["right"][0], key["reason"]["right"]] if key["kind"] == "reasoned" else key["right"])
    assert said(part) == "Right."
    page.reload()
    assert said(page.locator("[data-part]").last) == "Right."


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("kept", ["7", '"x"', '{"0": 1}', "[99, 98]", "[[0], null]", "[null, null]", "[]", '["<b>"]'])
def test_a_kept_answer_that_does_not_fit_is_dropped(opened, made, name, kept):
    """Storage may hold anything; the part still works."""
    path, key, _ = made[name]
    page, part = opened(path)
    answer = {"several": tick, "reasoned": choose, "sequence": put}[key["kind"]]
    right = [key["right"][0], key["reason"]["right"]] if key["kind"] == "reasoned" else key["right"]
    answer(part, right)
    said(part)
    page.evaluate(
        """(kept) => Object.keys(localStorage).forEach((name) => {
          const all = JSON.parse(localStorage.getItem(name));
          Object.values((all && all.typed) || {}).forEach((typed) => Object.keys(typed).forEach((label) => { typed[label] = JSON.parse(kept); }));
          localStorage.setItem(name, JSON.stringify(all));
        })""",
        kept,
    )
    page.reload()
    part = page.locator("[data-part]").last
    answer(part, right)
    assert said(part) == "Right."


def test_ticks_and_reasons_are_answered_by_keyboard(opened, made):
    path, key, _ = made["true-of-both-cells"]
    page, part = opened(path)
    part.locator("input").first.focus()
    for at in range(6):
        if at in key["right"]:
            page.keyboard.press("Space")
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    part.locator("[data-verdict] span").wait_for()
    assert part.locator("[data-verdict]").inner_text().strip() == "Right."


def test_each_group_is_named_by_its_question(opened, made):
    page, _ = opened(made["attacked-and-why"][0])
    names = [group.locator("legend").inner_text() for group in page.locator("fieldset").all()]
    assert names == ["Which metal is eaten away at the scratch?", "Which reason is the right one?"]
    assert all(page.get_by_role("group", name=name, exact=True).count() == 1 for name in names)
