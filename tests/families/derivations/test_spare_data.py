"""A datum too many: which one it is follows from the derivation, and a datum called spare that is needed is a fault."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from families.family_bank import bank, samples
from families.family_pages import part, shown, verdict, written_page
from playwright.sync_api import expect

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.render.text import spans_text

NAME = "one-datum-too-many"


def test_the_volume_is_the_one_and_stands_anywhere():
    """Faraday's law, m = I t M/(z F), has no volume of the bath in it."""
    places = set()
    for _, question, variant in samples("derivations", NAME):
        right = variant.judge[0]["right"][0]
        assert spans_text(question.parts[0].field.options[right], variant.slots).startswith("volume of the bath, ")
        places.add(right)
    assert len(places) > 1


def test_each_datum_stands_with_its_value_as_the_text_tells_it():
    for drawn, question, variant in samples("derivations", NAME):
        shown_ = " ".join(spans_text(each, variant.slots) for each in question.parts[0].field.options).replace("\u202f", " ")
        for name in ("I", "t", "V_bath"):
            given = drawn.given(name)
            assert f"{given.printed} {given.unit}" in shown_


def test_one_that_is_needed_is_told_so(browser, tmp_path):
    _, _, variant = samples("derivations", NAME)[0]
    right = variant.judge[0]["right"][0]
    with shown(browser, written_page(tmp_path, "derivations", NAME)) as page:
        radios = part(page, "a").get_by_role("radio")
        radios.nth((right + 1) % 3).check()
        part(page, "a").get_by_role("button", name="Check (a)").click()
        expect(verdict(page, "a")).to_contain_text("Not yet. This one is needed. Which step uses it?")
        radios.nth(right).check()
        part(page, "a").get_by_role("button", name="Check (a)").click()
        expect(verdict(page, "a")).to_have_text("Right.")
        page.reload()
        expect(radios.nth(right)).to_be_checked()


def told(tmp_path, *changes):
    """The faults of the template with texts changed."""
    here = Path(__file__).parent / "bank"
    text = (here / f"{NAME}.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    shutil.copy(here / "bank.yaml", tmp_path / "bank.yaml")
    (tmp_path / "t.yaml").write_text(text, encoding="utf-8")
    made = load_bank(tmp_path)
    composer = Composer(made.template("t"), made, catalogue())
    with pytest.raises(Faulty) as caught:
        composer.variant(1, practice_seed(1))
    return [(each.line, each.key, each.code, each.found) for each in caught.value.faults]


def test_a_spare_datum_that_a_part_needs_is_told_with_the_part(tmp_path):
    assert told(tmp_path, ("spare: V_bath", "spare: t")) == [(13, "spare", "spare-needed", "part 1 follows from it")]


def test_a_spare_datum_that_the_text_does_not_tell_is_told(tmp_path):
    assert told(tmp_path, ("{{ V_bath }} of ", "")) == [(13, "spare", "not-told", "it stands nowhere")]


def test_a_spare_datum_that_there_is_not_is_told(tmp_path):
    assert told(tmp_path, ("spare: V_bath", "spare: V_bat")) == [(13, "spare", "unknown-name", "`V_bat`")]


def test_two_data_that_are_not_needed_leave_no_right_option(tmp_path):
    assert told(tmp_path, ("[I, t, V_bath]", "[I, t, V_bath, R]")) == [
        (19, "parts[1].from", "no-right-option", "V_bath, R"),
    ]  # fmt: skip


def test_a_datum_that_there_is_not_is_told_at_its_key(tmp_path):
    assert told(tmp_path, ("[I, t, V_bath]", "[I, t, V_bat]")) == [(19, "parts[1].from", "unknown-name", "`V_bat`")]


def test_data_that_are_all_needed_leave_no_right_option(tmp_path):
    assert told(tmp_path, ("[I, t, V_bath]", "[I, t]")) == [(19, "parts[1].from", "no-right-option", "none: all are needed")]


def test_the_bank_knows_it():
    assert bank("derivations").template(NAME).spare == ("V_bath",)
