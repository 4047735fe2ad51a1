"""An estimate before the number: its options come from the errors of the variant, and it follows from the student's own values."""

from __future__ import annotations

import pytest
from families.family_bank import keys, samples
from families.family_pages import part, shown, verdict, written_page
from playwright.sync_api import expect

from saltbridge.answers import Unread, judge, read_number
from saltbridge.check.factors import to_coherent
from saltbridge.render.text import spans_text


def options(part_, variant):
    return [spans_text(each, variant.slots) for each in part_.field.options]


def test_the_right_limits_hold_the_number_that_is_asked_for_next():
    """Read from the printed limits and the printed number, both in one unit."""
    for _, question, variant in samples("derivations", "estimate-first"):
        for at in (0, 2):
            low, high = spans_text(question.parts[at].answer, variant.slots).removeprefix("from ").split(" to ")
            number = float(variant.judge[at + 1]["value"])
            assert plain(low) <= number < plain(high), (low, high, number)


def plain(written):
    """The number of a limit such as ``10 000 mg``."""
    number = read_number(written, ".")
    assert not isinstance(number, Unread), written
    return float(number.value)


def test_limits_rise_from_option_to_option_and_the_right_one_stands_anywhere():
    places = set()
    for _, question, variant in samples("derivations", "estimate-first"):
        for at in (0, 2):
            shown_ = options(question.parts[at], variant)
            lows = [plain(each.removeprefix("from ").split(" to ")[0]) for each in shown_]
            assert lows == sorted(set(lows))
            assert 3 <= len(lows) <= 4
            places.add(variant.judge[at]["right"][0])
    assert len(places) > 1


def test_a_forgotten_unit_is_told_by_its_option():
    told = set()
    for _, question, variant in samples("derivations", "estimate-first"):
        for _, key in keys(question, variant):
            if key["kind"] == "choice":
                for at, ids in key["slips"].items():
                    assert judge(key, [int(at)]).slips == tuple(ids)
                    told |= set(ids)
    assert "minutes-used-as-seconds" in told


def test_an_estimate_follows_from_the_charge_that_the_student_worked_out():
    for _, question, variant in samples("derivations", "estimate-first"):
        key = keys(question, variant)[2][1]
        right, charge = key["right"][0], float(variant.judge[1]["value"])
        larger = [at for at, size in enumerate(key["values"]) if size == key["values"][right] + 1]
        for at in larger:
            verdict_ = judge(key, [at], {"b": to_coherent(charge * 10, "C")})
            assert (verdict_.verdict, verdict_.parts) == ("follows", ("b",))


def test_a_sign_is_chosen_before_the_potential():
    seen = set()
    for _, question, variant in samples("derivations", "sign-first"):
        key = keys(question, variant)[0][1]
        value = float(variant.judge[2]["value"])
        assert key["values"][key["right"][0]] == ("positive" if value > 0 else "negative")
        assert options(question.parts[0], variant) == ["positive", "negative"]
        seen.add(value > 0)
    assert seen == {True, False}


@pytest.mark.parametrize("odd", [[], [7], ["0"], [True], None, 3, "99", [0, 1]], ids=str)
def test_odd_choices_are_never_right(odd):
    _, question, variant = samples("derivations", "estimate-first")[0]
    assert judge(keys(question, variant)[0][1], odd).verdict in {"unread", "not-yet"}


def test_on_the_page_the_estimate_is_checked_and_its_working_is_not_told(browser, tmp_path):
    _, question, variant = samples("derivations", "estimate-first")[0]
    with shown(browser, written_page(tmp_path, "derivations", "estimate-first")) as page:
        radios = part(page, "a").get_by_role("radio")
        radios.nth(variant.judge[0]["right"][0]).check()
        part(page, "a").get_by_role("button", name="Check (a)").click()
        expect(verdict(page, "a")).to_have_text("Right.")
        assert str(variant.judge[1]["value"]) not in part(page, "a").inner_html()
        wrong = next(at for at in range(len(question.parts[0].field.options)) if at != variant.judge[0]["right"][0])
        radios.nth(wrong).check()
        part(page, "a").get_by_role("button", name="Check (a)").click()
        expect(verdict(page, "a")).to_contain_text("Not yet.")
        page.reload()
        expect(radios.nth(wrong)).to_be_checked()
