"""One derivation in three forms from one file: the marks are the same, a scaffold asks each marked step, a stretch the last part alone."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from families.family_bank import bank, ids, keys, samples
from families.family_pages import part, shown, verdict, written_page
from playwright.sync_api import expect

from saltbridge.answers import judge
from saltbridge.bank.bank import load_bank, survey_bank
from saltbridge.compose.question import Composer
from saltbridge.document import spoken
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.render.text import spans_text

STANDARD, SCAFFOLD, STRETCH = "coat-of-nickel", "coat-of-nickel-scaffold", "coat-of-nickel-stretch"


def test_one_file_makes_three_questions_of_their_own_names():
    made = {each.id: each for each in bank("derivations").templates if each.file == "coat-of-nickel.yaml"}
    assert {name: each.title for name, each in made.items()} == {
        STANDARD: "A coat of metal", SCAFFOLD: "A coat of metal, step by step", STRETCH: "A coat of metal, in one go",
    }  # fmt: skip


def test_the_forms_come_to_the_same_marks():
    """By the policy of one mark a step: conversion, charge, electrons, amount, mass."""
    for name in (STANDARD, SCAFFOLD, STRETCH):
        assert {question.marks for _, question, _ in samples("derivations", name)} == {5}


def test_a_scaffold_has_a_number_for_each_marked_step_and_the_authors_own_questions():
    for _, question, _ in samples("derivations", SCAFFOLD):
        assert [each.judge["node"] for each in question.parts] == ["t", "q", "n_e", "n_B", "m"]
        assert [each.label for each in question.parts] == list("abcde")
        assert [each.marks for each in question.parts] == [1] * 5
        asked = ["".join(spoken(getattr(block, "spans", ())) for block in each.body) for each in question.parts]
        assert asked[1] == "Calculate the charge that flows."
        assert asked[2].endswith("?")
        assert all(asked)


def test_no_hint_repeats_its_question():
    for _, question, variant in samples("derivations", SCAFFOLD):
        for each in question.parts:
            asked = spans_text(each.body[-1].spans, variant.slots)
            assert asked not in [spans_text(hint, variant.slots) for hint in each.hints]


def test_each_blank_follows_from_the_ones_before():
    for _, question, variant in samples("derivations", SCAFFOLD):
        found = keys(question, variant)
        charge = float(variant.judge[1]["value"])
        electrons = judge(found[2][1], f"{2 * charge / 96485:.3g} mol", {"b": 2 * charge})
        assert (electrons.verdict, electrons.parts) == ("follows", ("b",))


def test_a_stretch_asks_the_last_part_alone_and_its_text_says_so():
    for _, question, variant in samples("derivations", STRETCH):
        (only,) = question.parts
        assert only.judge["node"] == "m"
        assert spans_text(only.body[-1].spans, variant.slots).endswith("in one go.")
        (_, standard, other) = samples("derivations", STANDARD)[0]
        assert not spans_text(standard.parts[-1].body[-1].spans, other.slots).endswith("in one go.")


def test_a_scaffold_is_answered_blank_by_blank_on_the_page(browser, tmp_path):
    _, question, variant = samples("derivations", SCAFFOLD)[0]
    with shown(browser, written_page(tmp_path, "derivations", SCAFFOLD)) as page:
        for each in question.parts:
            part(page, each.label).get_by_role("textbox").fill(spans_text(each.answer, variant.slots))
            part(page, each.label).get_by_role("button", name=f"Check ({each.label})").click()
            expect(verdict(page, each.label)).to_have_text("Right.")
        page.reload()
        expect(part(page, "c").get_by_role("textbox")).to_have_value(spans_text(question.parts[2].answer, variant.slots))


# ------------------------------------------------------------ what authors get wrong


def written(folder: Path, text: str, name: str = "cell") -> Path:
    shutil.copy(Path(__file__).parent / "bank" / "bank.yaml", folder / "bank.yaml")
    (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder


CELL = """\
title: A cell
outcome: T3.4
level: core
form: FORM
scenario:
  galvanic cell: {metals: [Zn, Cu, Ag]}
rules: [R-EMF]
text: A cell of {{ left.metal }} and {{ right.metal }}.
parts:
  - ask: Which electrode is the anode?
    choose: anode.metal
    from: [left.metal, right.metal]
  - ask: Calculate its potential.
    find: E0_zell
"""


def test_a_form_that_there_is_not_is_told_with_those_that_there_are(tmp_path):
    with pytest.raises(Faulty) as caught:
        load_bank(written(tmp_path, CELL.replace("FORM", "[standard, strech]").replace("E0_zell", "E0_cell")))
    assert str(caught.value.faults[0]) == (
        "cell.yaml:4: form[2]: expected one of `standard`, `scaffold`, `stretch`; found `strech`. Did you mean `stretch`? [unknown-word]"
    )


def test_a_fault_of_the_last_part_is_told_at_its_line_in_every_form(tmp_path):
    made, faults = survey_bank(written(tmp_path, CELL.replace("FORM", "[scaffold, standard, stretch]")))
    assert faults == ()
    for template in made.templates:
        with pytest.raises(Faulty) as caught:
            Composer(template, made, known(made)).variant(1, practice_seed(1))
        assert {(each.file, each.line, each.code) for each in caught.value.faults} == {("cell.yaml", 14, "unknown-quantity")}


def known(made):
    from saltbridge.catalogue.catalogue import catalogue  # noqa: PLC0415 - only here

    return catalogue(made.folder)


def test_a_file_of_the_name_that_a_form_makes_is_refused(tmp_path):
    text = CELL.replace("FORM", "[standard, stretch]").replace("E0_zell", "E0_cell")
    written(tmp_path, text)
    with pytest.raises(Faulty) as caught:
        load_bank(written(tmp_path, text.replace("form: [standard, stretch]\n", ""), "cell-stretch"))
    assert [each.code for each in caught.value.faults] == ["template-twice"]


def test_a_choice_before_stays_a_choice_in_a_scaffold(tmp_path):
    made = load_bank(written(tmp_path, CELL.replace("FORM", "scaffold").replace("E0_zell", "E0_cell")))
    composer = Composer(made.template("cell-scaffold"), made, known(made))
    question = composer.question(composer.variant(1, practice_seed(1)))
    assert question.parts[0].judge["kind"] == "choice"
    assert question.parts[-1].judge["node"] == "E0_cell"


def test_the_bank_has_no_other_ids():
    assert {STANDARD, SCAFFOLD, STRETCH} <= set(ids("derivations"))
