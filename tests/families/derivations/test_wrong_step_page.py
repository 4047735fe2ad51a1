"""A working with a wrong step on the page and on paper: what each pick is told, what corrects it, and that no solution stands beside it."""

from __future__ import annotations

import re

import pytest
from families.family_bank import bank, samples
from families.family_pages import part, shown, verdict, written_page
from pdf_reading import text
from playwright.sync_api import expect
from workings.wrong_workings import results, steps_of

from saltbridge.answers import judge, merge
from saltbridge.document import Paper
from saltbridge.draw.seeds import practice_seed
from saltbridge.render.text import spans_text
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank

MASS = "mass-with-a-wrong-step"


@pytest.fixture
def path(tmp_path):
    return written_page(tmp_path, "derivations", MASS)


def first():
    """Question and variant that the page shows first."""
    _, question, variant = samples("derivations", MASS)[0]
    return question, variant


def key(question, variant, at):
    return merge(question.parts[at].judge, variant.judge[at], question.graph, variant.given)


def pick(page, place):
    part(page, "a").get_by_role("radio").nth(place).check()
    part(page, "a").get_by_role("button", name="Check (a)").click()


def test_the_wrong_step_is_right_to_pick(browser, path):
    _, variant = first()
    with shown(browser, path) as page:
        pick(page, variant.judge[0]["right"][0])
        expect(verdict(page, "a")).to_have_text("Right.")


def test_every_other_step_is_told_for_what_it_is_with_the_question_of_the_wrong_one(browser, path):
    question, variant = first()
    wrong, whys = variant.judge[0]["right"][0], question.parts[0].judge["whys"]
    hint = question.parts[0].judge["otherwise"]
    said = {
        "step-right": "This step is right.",
        "step-follows": "This step follows from an earlier one that is not right yet. Look further up.",
    }
    assert hint.endswith("?")
    assert set(whys) == {str(at) for at in range(len(question.parts[0].field.options)) if at != wrong}
    with shown(browser, path) as page:
        for at, why in whys.items():
            pick(page, int(at))
            expect(verdict(page, "a")).to_have_text(f"Not yet. {said[why]} {hint}")


def test_steps_after_the_wrong_one_follow_and_those_before_are_right():
    for _, question, variant in samples("derivations", MASS):
        wrong, whys = variant.judge[0]["right"][0], question.parts[0].judge["whys"]
        assert all(whys[str(at)] == "step-right" for at in range(wrong))
        last = len(question.parts[0].field.options) - 1
        assert last == wrong or whys[str(last)] == "step-follows"


def test_the_step_is_corrected_by_its_number_and_the_wrong_one_is_told(browser, path):
    question, variant = first()
    right = spans_text(question.parts[1].answer, variant.slots)
    wrong = results(steps_of(question.parts[0].field)[variant.judge[0]["right"][0]], variant.slots)[-1]
    with shown(browser, path) as page:
        part(page, "b").get_by_role("textbox").fill(wrong.split("≈")[-1].strip())
        part(page, "b").get_by_role("button", name="Check (b)").click()
        expect(verdict(page, "b")).to_contain_text("Not yet.")
        part(page, "b").get_by_role("textbox").fill(right)
        part(page, "b").get_by_role("button", name="Check (b)").click()
        expect(verdict(page, "b")).to_have_text("Right.")


def test_the_wrong_end_is_a_common_error_of_the_part_that_asks_for_the_right_one():
    for _, question, variant in samples("derivations", MASS):
        end = results(steps_of(question.parts[0].field)[-1], variant.slots)[-1]
        assert judge(key(question, variant, 2), end).verdict == "slip", end


def test_no_solution_stands_beside_the_working(browser, path):
    question, variant = first()
    right = spans_text(question.parts[1].answer, variant.slots)
    with shown(browser, path) as page:
        assert part(page, "a").locator("details[open]").count() == 0
        assert right not in part(page, "a").inner_text()


def test_it_is_picked_by_keyboard_and_comes_back_after_a_reload(browser, path):
    _, variant = first()
    with shown(browser, path) as page:
        radios = part(page, "a").get_by_role("radio")
        radios.nth(0).focus()
        page.keyboard.press("Space")
        for _ in range(variant.judge[0]["right"][0]):
            page.keyboard.press("ArrowDown")
        page.keyboard.press("Enter")
        expect(verdict(page, "a")).to_have_text("Right.")
        page.reload()
        expect(radios.nth(variant.judge[0]["right"][0])).to_be_checked()


def test_a_new_version_may_have_another_wrong_step(browser, tmp_path):
    places = {variant.judge[0]["right"][0] for _, _, variant in samples("derivations", MASS)}
    assert len(places) > 1
    with shown(browser, written_page(tmp_path, "derivations", MASS, 6)) as page:
        for _, _, variant in samples("derivations", MASS):
            pick(page, variant.judge[0]["right"][0])
            expect(verdict(page, "a")).to_have_text("Right.")
            page.get_by_role("button", name="New version").click()


@pytest.mark.parametrize("odd", [[], [99], [-1], ["0"], [0, 1], None, "0", {"0": 1}], ids=str)
def test_odd_picks_are_never_right(odd):
    question, variant = first()
    assert judge(key(question, variant, 0), odd).verdict in {"unread", "not-yet"}


def plain(written):
    return re.sub(r"\s+", "", written)


@pytest.mark.parametrize("template", [MASS, "energy-with-a-wrong-step", "concentration-with-a-wrong-step"])
def test_a_paper_has_the_steps_by_letters_and_the_memorandum_the_letter(template):
    made, (_, question, variant) = bank("derivations"), samples("derivations", template)[0]
    writer = PaperWriter(made.settings, of_bank(made.settings))
    paper, memorandum = (
        text(writer.paper(Paper("A school", "Steps", "LINES-A-0", (), ((question, variant),), question.marks, 5, memo, "")).pdf)
        for memo in (False, True)
    )
    letter = "ABCDEFGHIJ"[variant.judge[0]["right"][0]]
    assert re.search(rf"{letter}\s", memorandum)
    assert "✗" in memorandum
    assert "✗" not in paper
    for place, step in enumerate(steps_of(question.parts[0].field)):
        for shown_result in results(step, variant.slots):
            assert plain(shown_result) in plain(paper), (place, shown_result)


def test_each_draw_builds_one_error_in_and_the_same_seed_the_same_one():
    from saltbridge.catalogue.catalogue import catalogue  # noqa: PLC0415 - only here
    from saltbridge.compose.question import Composer  # noqa: PLC0415 - only here

    made = bank("derivations")
    composer = Composer(made.template("concentration-with-a-wrong-step"), made, catalogue())
    wanted, found = composer.template.parts[0], set()
    for number in range(1, 25):
        drawn = composer.drawer.draw(practice_seed(number))
        found.add(composer.drawer.wrong_steps.planted(wanted, drawn).point.slip.id)
    assert found <= set(wanted.errors)
    assert len(found) > 1
