"""A question of each kind of the published bank, answered in a browser from disk: right, by slip, with the wrong sign, after a wrong choice."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from page_data import data_of, one_of_each
from playwright.sync_api import Page, expect

NAMES = sorted(one_of_each())
every_question = pytest.mark.parametrize("name", NAMES)


def _keys(page: Page, number: int = 0) -> list[tuple[str, dict]]:
    """Label and whole key of each part of a variant."""
    data = data_of(page.content())
    variant = data["variants"][number]
    shape = data["shapes"][variant["shape"]]
    labels = [part.get_attribute("data-part") for part in page.locator("[data-part]").all()]
    return [(label, {**one, **other}) for label, one, other in zip(labels, shape["keys"], variant["keys"], strict=True)]


def _check(page: Page, label: str) -> str:
    part = page.locator(f'[data-part="{label}"]')
    part.locator("[data-do=check]").click()
    expect(part.locator("[role=status]")).not_to_have_text("")
    return part.locator("[role=status]").inner_text()


def _typed(page: Page, label: str, text: str) -> str:
    page.locator(f'[data-part="{label}"] input[name=typed]').fill(text)
    return _check(page, label)


def _chosen(page: Page, label: str, place: int) -> str:
    page.locator(f'[data-part="{label}"] input[name=typed]').nth(place).check()
    return _check(page, label)


def _ordered(page: Page, label: str, right: list[int]) -> str:
    """Put in order by the buttons alone, one step up at a time."""
    part = page.locator(f'[data-part="{label}"]')
    for place, item in enumerate(right):
        for _ in range(len(right)):
            now = [each.get_attribute("data-item") for each in part.locator("[data-item]").all()]
            if now.index(str(item)) == place:
                break
            part.locator(f'[data-item="{item}"] [data-do=up]').click()
    return _check(page, label)


def _right(page: Page, label: str, key: dict) -> str:
    match key["kind"]:
        case "number":
            return _typed(page, label, key["value"])
        case "choice":
            return _chosen(page, label, key["right"][0])
        case "order":
            return _ordered(page, label, key["right"])
        case _:
            return _typed(page, label, key["right"])


@every_question
def test_right_answers_are_told_so_also_after_fresh_numbers(opened, name):
    page = opened(name)
    for number in range(2):
        for label, key in _keys(page, number):
            assert _right(page, label, key) == "Right.", (label, key)
        page.locator("[data-do=fresh]").click()
        expect(page.locator("[role=status][data-verdict]").first).to_have_text("")


@every_question
def test_a_number_may_have_a_comma_and_its_unit(opened, name):
    page = opened(name)
    for label, key in _keys(page):
        if key["kind"] == "number":
            comma = key["value"].replace(".", ",")
            if re.fullmatch(r"[-+]?[1-9][0-9]{0,2},[0-9]{3}", comma):
                assert "could be" in _typed(page, label, comma), (label, comma)
            elif "E" not in comma:
                assert _typed(page, label, f"{comma} {key['unit']}".strip()) == "Right.", (label, comma)


@every_question
def test_the_answer_shown_in_the_working_is_right_when_typed(opened, name):
    """What the working prints and what the judge takes are one number; the text is typed as it stands on the page."""
    page = opened(name)
    for label, key in _keys(page):
        if key["kind"] == "number":
            part = page.locator(f'[data-part="{label}"]')
            shown = part.locator(".result").inner_html().partition("</strong>")[2]
            text = re.sub(r"<sup>(.*?)</sup>", r"^\1", shown)
            text = re.sub(r"<[^>]+>", "", text).replace("&nbsp;", " ").strip()
            assert _typed(page, label, text) == "Right.", (label, text)


@every_question
def test_a_number_from_a_slip_brings_its_hint(opened, name):
    """Earlier parts stand empty: nothing follows from them, and no error is ruled out by a right answer there."""
    page = opened(name)
    hints = data_of(page.content())["hints"]
    for label, key in _keys(page):
        for slip, (low, high) in key["slips"].items() if key["kind"] == "number" else ():
            said = _typed(page, label, f"{(Decimal(low) + Decimal(high)) / 2:f}")
            assert said.startswith("Not yet."), (label, slip, said)
            assert hints[slip] in said, (label, slip, said)
            page.locator(f'[data-part="{label}"] input[name=typed]').fill("")


@every_question
def test_the_wrong_sign_is_never_right(opened, name):
    page = opened(name)
    for label, key in _keys(page):
        if key["kind"] == "number" and Decimal(key["value"]) != 0:
            said = _typed(page, label, str(-Decimal(key["value"])))
            assert said.startswith("Not yet."), (label, said)
        assert _right(page, label, key) == "Right."


def test_a_potential_of_the_wrong_sign_is_told_to_look_at_it(opened):
    page = opened("gibbs-energy.html")
    keys = dict(_keys(page))
    label = next(label for label, key in keys.items() if key.get("node") == "E0_cell")
    assert _typed(page, label, f"-{keys[label]['value']}") in {
        "Not yet. Look at the sign.",
        "Not yet. This cell drives a current by itself. Which sign does its potential have then?",
    }


def test_after_the_wrong_anode_the_turned_potential_follows(opened):
    page = opened("two-metals.html")
    keys = _keys(page)
    choice, number = keys[0], next(each for each in keys if each[1]["kind"] == "number")
    assert _chosen(page, choice[0], 1 - choice[1]["right"][0]).startswith("Not yet.")
    said = _typed(page, number[0], f"-{number[1]['value']}")
    assert said.startswith("This follows from your answer in (a).")
    assert _typed(page, number[0], number[1]["value"]) == "Right."


def test_an_equation_turned_round_or_multiplied_is_named(opened):
    page = opened("gibbs-energy.html")
    label, key = next(each for each in _keys(page) if each[1]["kind"] == "equation")
    left, right = key["right"].split(" -> ")
    turned = _typed(page, label, f"{right} -> {left}")  # a common error with words of its own
    assert turned.removeprefix("Not yet. ") in data_of(page.content())["hints"].values()
    assert "can't be read" in _typed(page, label, left)


@every_question
def test_without_script_everything_can_be_read(opened, name):
    page = opened(name, java_script_enabled=False)
    assert page.locator("button:visible").count() == 0
    for part in page.locator("[data-part]").all():
        for summary in part.locator("summary").all():
            summary.click()
        assert part.locator(".result").is_visible()
        assert all(hint.is_visible() for hint in part.locator("[data-hint] p").all())
    body = page.locator("article").inner_text()
    assert "{" not in body
    assert "\ue000" not in body
