"""Ticks, reasons and steps: right in every accepted way, and wrong in each known way, in every draw."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import permutations

import pytest
from families.family_bank import bank, ids, keys, prints_whole, samples

from saltbridge.answers import judge
from saltbridge.bank.bank import load_bank
from saltbridge.bank.beliefs import is_id
from saltbridge.bank.parts import ChoosePart
from saltbridge.bank.sequence_part import SequencePart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.deliver.proof.draws import draw
from saltbridge.deliver.proof.sets_checked import sets_agree
from saltbridge.deliver.proof.variant_under_test import Eyes
from saltbridge.draw.drawn_sets import shown_things
from saltbridge.draw.drawn_steps import in_order, right_steps, shown_steps
from saltbridge.draw.seeds import practice_seed
from saltbridge.policy import policies
from saltbridge.render.text import spans_text

FAMILY = "together"
KINDS = {"several": SeveralPart, "sequence": SequencePart, "reasoned": ChoosePart}

test_a_question_prints_without_holes = prints_whole(FAMILY)


def parts_of(kind):
    """Every part of a kind with its key, in six draws of each template: (template, number, drawn, part, key, earlier parts)."""
    for template in ids(FAMILY):
        for drawn, question, variant in samples(FAMILY, template):
            for part, key in keys(question, variant):
                if key["kind"] == kind:
                    yield template, variant, drawn, part, key


@pytest.mark.parametrize("kind", KINDS)
def test_there_are_two_templates_of_each_kind(kind):
    assert len({template for template, *_ in parts_of(kind)}) >= 2


# ------------------------------------------------------------------ ticks


def test_all_and_only_the_right_ticks_are_right():
    """Every other set of ticks is not, whatever it is."""
    for template, variant, _, part, key in parts_of("several"):
        options = range(len(part.field.options))
        assert judge(key, key["right"]).verdict == "right", (template, variant.number)
        for mask in range(1, 1 << len(options)):
            ticked = [at for at in options if mask >> at & 1]
            assert (judge(key, ticked).verdict == "right") == (sorted(ticked) == sorted(key["right"])), (
                template,
                variant.number,
                ticked,
            )


def test_the_right_things_are_those_that_the_printed_potentials_pick():
    """Compared here by the values of the data sheet alone."""
    met = set()
    for template, variant, drawn, _, key in parts_of("several"):
        if template != "which-protect":
            continue
        values = {
            name.partition(".")[0]: float(given.printed) for name, given in drawn.situation.given.items() if name.endswith(".E0")
        }
        (part,) = bank(FAMILY).template(template).parts
        shown = shown_things(part, drawn)
        right = {shown[at] for at in key["right"] if at < len(shown)}
        assert right == {thing for thing in shown if values[thing] < values["structure"]}, variant.number
        met.add(len(right))
    assert len(met) > 1


def test_each_known_wrong_set_is_told_by_its_error():
    told = set()
    for template, _, _, part, key in parts_of("several"):
        for numbers, ids_ in key["slips"].items():
            verdict = judge(key, [int(each) for each in numbers.split(",")])
            assert (verdict.verdict, verdict.slips) == ("slip", tuple(ids_)), template
            assert all(part.judge["hints"][each] for each in ids_)
            told.update(ids_)
        for option, ids_ in key["beliefs"].items():
            verdict = judge(key, [*key["right"], int(option)])
            assert (verdict.verdict, verdict.slips) == ("slip", tuple(ids_)), template
            told.update(ids_)
    assert {
        "sacrificial-metal-must-be-noble",
        "sides-of-the-mark-changed",
        "signs-dropped-in-ranking",
        "anode-always-plus",
    } <= told


def test_ticks_follow_from_an_own_potential():
    """Who found zinc above copper in (a) has it above copper in (b)."""
    for drawn, question, variant in samples(FAMILY, "below-the-reference"):
        (_, _), (_, key) = keys(question, variant)
        mine = key["values"].index("s1")
        right = [at for at in key["right"] if at != mine] if mine in key["right"] else [*key["right"], mine]
        own = 2.0 if mine in key["right"] else -2.0
        verdict = judge(key, right, {"a": own})
        assert (verdict.verdict, verdict.parts) == ("follows", ("a",)), variant.number
        assert judge(key, right, {"a": float(drawn.outcomes["s1.E"].right.printed)}).verdict != "follows"


@pytest.mark.parametrize("policy", sorted(policies()))
def test_marks_of_ticks_are_full_for_all_never_below_nothing_and_less_for_each_wrong_one(policy):
    """Each policy as data: its weights, on three right options of six."""
    weights = policies()[policy].several
    key = {"kind": "several", "right": [0, 1, 2], "worth": weights, "slips": {}, "beliefs": {}}

    def earned(ticked):
        found = judge(key, ticked)
        return weights["marks"] if found.verdict == "right" else int(found.readings[0])

    assert earned([0, 1, 2]) == weights["marks"]
    assert earned([3, 4, 5]) == 0
    rows = [[earned([*range(right), *range(3, 3 + wrong)]) for wrong in range(4)] for right in range(1, 4)]
    assert all(row == sorted(row, reverse=True) for row in rows)
    assert all(list(column) == sorted(column) for column in zip(*rows, strict=True))
    assert all(0 <= each <= weights["marks"] for row in rows for each in row)
    assert rows[-1][1] < weights["marks"]


# ------------------------------------------------------------------ a choice and its reason


def test_the_four_outcomes_of_a_choice_and_its_reason_are_told_apart():
    for template, variant, _, part, key in parts_of("reasoned"):
        choices, reasons = (range(len(group.options)) for group in part.field.groups)
        right, reason = key["right"][0], key["reason"]["right"]
        for choice in choices:
            for why in reasons:
                verdict = judge(key, [choice, why])
                place = (template, variant.number, choice, why)
                if (choice, why) == (right, reason):
                    assert verdict.verdict == "right", place
                else:
                    code = "reason-again" if choice == right else "choice-again" if why == reason else "both-again"
                    assert verdict.verdict in {"slip", "not-yet"}, place
                    assert code in verdict.why, place
                if choice == right and why != reason:
                    assert verdict.slips == tuple(key["reason"]["slips"][str(why)]), place


def test_a_choice_that_follows_with_the_right_reason_follows():
    for _, question, variant in samples(FAMILY, "grows-and-why"):
        (_, first), (_, key) = keys(question, variant)
        wrong, reason = 1 - key["right"][0], key["reason"]["right"]
        own = judge(first, [1 - first["right"][0]]).own
        assert judge(key, [wrong, reason], {"a": own}).verdict == "follows"
        assert judge(key, [wrong, (reason + 1) % 4], {"a": own}).why == ("reason-again",)


def test_the_right_reason_changes_its_place():
    places = {}
    for template, _, _, _, key in parts_of("reasoned"):
        places.setdefault(template, set()).add(key["reason"]["right"])
    assert all(len(found) > 1 for found in places.values()), places


# ------------------------------------------------------------------ steps


def test_every_order_that_keeps_the_stages_is_right_and_no_other():
    """All orders of the shorter one, a thousand thrown ones of the longer."""
    dice = random.Random("steps")  # noqa: S311 - test orders, no secrets
    for template, variant, _, _, key in parts_of("sequence"):
        count = len(key["stage"])
        every = permutations(range(count)) if count < 6 else (dice.sample(range(count), count) for _ in range(1000))
        for order in every:
            right = in_order([key["stage"][step] for step in order])
            assert (judge(key, list(order)).verdict == "right") == right, (template, variant.number, order)


def test_steps_that_may_change_places_are_right_either_way():
    for _, _, _, _, key in parts_of("sequence"):
        order = list(key["right"])
        for at in range(len(order) - 1):
            if key["stage"][order[at]] == key["stage"][order[at + 1]]:
                swapped = [*order[:at], order[at + 1], order[at], *order[at + 2 :]]
                assert judge(key, swapped).verdict == "right"


def test_two_neighbours_that_stand_wrong_are_named_by_their_numbers_and_told_why():
    for _, _, _, part, key in parts_of("sequence"):
        order = list(key["right"])
        for at in range(len(order) - 1):
            if key["stage"][order[at]] < key["stage"][order[at + 1]]:
                verdict = judge(key, [*order[:at], order[at + 1], order[at], *order[at + 2 :]])
                assert verdict.why == ("neighbours",)
                assert verdict.readings == (str(at + 1), str(at + 2))
                assert verdict.slips == tuple(key["slips"].get(str(order[at + 1]), ()))
                assert all(part.judge["hints"][each] for each in verdict.slips)


def test_steps_are_never_shown_in_a_right_order_and_every_draw_has_two_stages():
    for name in ("build-a-cell", "steps-of-the-activity"):
        (part,) = bank(FAMILY).template(name).parts
        for number in range(200):
            shown = shown_steps(part, practice_seed(number))
            assert not in_order([step.stage for step in shown])
            assert len(shown) == (part.draw or len(part.steps))
            assert in_order([step.stage for step in right_steps(part, practice_seed(number))])


# ------------------------------------------------------------------ proof


def test_proof_finds_no_fault_and_names_what_only_the_author_has_checked():
    for name in ids(FAMILY):
        tally = draw(bank(FAMILY).template(name), bank(FAMILY), catalogue(), 1, 20)
        assert not tally.stopped, name
        assert [hit for hit, _ in tally.counts.first.values() if hit.weight == "fault"] == [], name


def test_a_key_with_other_things_than_the_values_pick_is_found():
    """Proof compares the values a second time."""
    seen = Eyes(bank(FAMILY).template("which-protect"), bank(FAMILY), catalogue()).see(1, "proof 1")
    assert list(sets_agree(seen)) == []
    share = seen.variant.judge[0]
    turned = {**share, "right": [at for at in range(4) if at not in share["right"]]}
    other = replace(seen, variant=replace(seen.variant, judge=(turned,)))
    assert [hit.code for hit in sets_agree(other)] == ["routes-differ"]


def test_every_id_of_a_belief_is_one_of_the_catalogue():
    known = {*catalogue().ideas, *catalogue().slips}
    for name in ids(FAMILY):
        for part in bank(FAMILY).template(name).parts:
            wrong = [*getattr(part, "leave", ()), *(part.reason.wrong if getattr(part, "reason", None) else ())]
            wrong += [step.option for step in getattr(part, "steps", ())]
            assert {each.shows for each in wrong if is_id(each.shows)} <= known, name


def test_a_memorandum_prints_the_letters_of_all_that_is_right():
    made = Composer(bank(FAMILY).template("true-of-both-cells"), bank(FAMILY), catalogue())
    variant = made.variant(1, practice_seed(1))
    (part,) = made.question(variant).parts
    answer = spans_text(part.answer, variant.slots)
    assert answer.count(" · ") == len(variant.judge[0]["right"]) - 1
    assert load_bank(bank(FAMILY).folder).templates
