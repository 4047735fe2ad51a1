"""Situations told in words: each case has its own right option, and each wrong one is told by the belief that it shows."""

from __future__ import annotations

from dataclasses import replace

import pytest
from families.family_bank import bank, ids, keys, prints_whole, samples

from saltbridge.answers import judge
from saltbridge.bank.beliefs import is_id
from saltbridge.bank.cases_part import CasesPart
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.drawn_cases import drawn_cases
from saltbridge.draw.seeds import practice_seed
from saltbridge.render.text import spans_text

ONE = [
    template for template in ids("cases") if all(getattr(part, "draw", 0) == 1 for part in bank("cases").template(template).parts)
]
AT_ONCE = [
    template for template in ids("cases") if any(getattr(part, "draw", 0) > 1 for part in bank("cases").template(template).parts)
]
FORMS = {
    "Q026": "notation-error", "Q027": "gains-mass", "Q029": "why-apart", "Q032": "missing-condition", "Q043": "nothing-seen",
    "Q082": "two-kinds-of-cell", "Q101": "supply-above-limit", "Q120": "battery-for-use", "Q135": "bench-fault", "Q142": "cause-of-gap",
    "Q149": "what-to-keep", "Q154": "precaution",
}  # fmt: skip
"""Forms of question that need cases, each with its template."""

test_a_question_prints_without_holes = prints_whole("cases")


def test_every_form_has_its_template():
    assert set(FORMS.values()) <= set(ids("cases"))
    for name in FORMS.values():
        assert any(isinstance(part, CasesPart) for part in bank("cases").template(name).parts), name


def chosen(key):
    """What a student takes who is right."""
    return [row["right"] for row in key["rows"]] if key["kind"] == "cases" else key["right"]


@pytest.mark.parametrize("template", ids("cases"))
def test_the_right_option_is_right_and_every_other_is_told_by_what_it_shows(template):
    for _, question, variant in samples("cases", template):
        ((part, key),) = keys(question, variant)
        assert judge(key, chosen(key)).verdict == "right"
        hints = part.judge["hints"]
        rows = key["rows"] if key["kind"] == "cases" else [{"right": key["right"][0], "slips": key["slips"]}]
        groups = [group.options for group in part.field.groups] if key["kind"] == "cases" else [part.field.options]
        for at, (row, options) in enumerate(zip(rows, groups, strict=True)):
            for option in set(range(len(options))) - {row["right"]}:
                typed = chosen(key) if key["kind"] == "cases" else [0]
                typed[at] = option
                verdict = judge(key, typed)
                assert verdict.verdict == "slip", (variant.number, at, option)
                assert hints[verdict.slips[0]], "a belief has its sentence"


@pytest.mark.parametrize("template", ids("cases"))
def test_no_belief_and_no_hint_says_the_right_option(template):
    """What is told after a wrong choice leads on; it never reads out what is right."""
    (written,) = bank("cases").template(template).parts
    options = [option for case in written.cases for option in written.options_of(case) if option.text == case.right.text]
    right = {option.prose.source.casefold().rstrip(".") for option in options}
    for _, question, variant in samples("cases", template):
        for part, _ in keys(question, variant):
            said = [*part.judge["hints"].values(), *(spans_text(hint, variant.slots) for hint in part.hints)]
            assert [(text, each) for text in said for each in right if each in text.casefold()] == []


@pytest.mark.parametrize("template", ids("cases"))
def test_every_case_is_drawn_and_its_answer_is_the_one_written_beside_it(template):
    """The printed answer is held against the file, for each case by itself."""
    made = Composer(bank("cases").template(template), bank("cases"), catalogue())
    (written,) = made.template.parts
    met = set()
    for number in range(1, 61):
        seed = practice_seed(number)
        variant = made.variant(number, seed)
        shown = drawn_cases(written, made.drawer.draw(seed).seed)
        assert len({str(each.case) for each in shown}) == written.draw
        met.update(str(each.case) for each in shown)
        answer = spans_text(made.question(variant).parts[0].answer, variant.slots)
        for each in shown:
            said = each.options[each.right].prose.source
            assert "{{" in said or said in answer
    assert met == {str(case) for case in written.cases}


def test_own_options_change_their_places_and_common_ones_keep_theirs():
    places = {
        name: {variant.judge[0]["right"][0] for _, _, variant in samples("cases", name)} for name in ("bench-fault", "why-apart")
    }
    assert all(len(found) > 1 for found in places.values()), places
    shown = {
        tuple(spans_text(option, variant.slots) for option in question.parts[0].field.options)
        for _, question, variant in samples("cases", "nothing-seen")
    }
    assert len(shown) == 1


def test_a_case_added_takes_only_the_draws_that_it_wins():
    """The other variants keep their case, whatever its place in the file."""
    (part,) = bank("cases").template("bench-fault").parts
    fewer = part.model_copy(update={"cases": part.cases[::-1][:-1]})
    dropped = str(part.cases[0])
    for number in range(40):
        (before,), (after,) = drawn_cases(part, practice_seed(number)), drawn_cases(fewer, practice_seed(number))
        assert str(before.case) == dropped or str(before.case) == str(after.case)


def texts_of(made):
    """What the question on a fault at the bench tells in twenty versions."""
    composer = Composer(made.template("bench-fault"), made, catalogue())
    texts = set()
    for number in range(1, 21):
        variant = composer.variant(number, practice_seed(number))
        texts.update(spans_text(block.spans, variant.slots) for block in composer.question(variant).blocks)
    return texts


def test_what_a_case_carries_is_printed_where_the_text_names_it_as_the_bank_prints_numbers():
    comma = replace(bank("cases"), settings=replace(bank("cases").settings, decimal_mark=","))
    assert len(texts_of(bank("cases"))) == 4
    assert any("0.00" in text for text in texts_of(bank("cases")))
    assert any("0,00" in text for text in texts_of(comma))


def test_cases_need_no_scenario_and_nothing_is_drawn_for_them():
    template = bank("cases").template("battery-for-use")
    assert template.scenario.kind == ""
    drawn, _, _ = samples("cases", "battery-for-use")[0]
    assert drawn.situation.given == {}
    assert drawn.graph.steps == ()


def test_every_id_of_a_belief_is_one_of_the_catalogue():
    known = {*catalogue().ideas, *catalogue().slips}
    for name in ids("cases"):
        for part in bank("cases").template(name).parts:
            shown = {belief for case in part.cases for belief in part.beliefs_of(case).values() if is_id(belief)}
            assert shown <= known, name
