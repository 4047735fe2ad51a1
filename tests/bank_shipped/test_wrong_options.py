"""A word for each wrong option: the error that it shows, never only the question of the step that decides."""

from __future__ import annotations

from hints.told_answers import names, plain
from snapshot.taking import banks

from saltbridge.bank.parts import kind_of
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.render.text import spans_text

VARIANTS = 6
TOLD_OTHERWISE = {"wrong step in", "estimate", "not needed for"}
"""Parts that answer a wrong choice by the working itself; and letters of a drawing are no words."""


def _choices():
    """Bank and part, and of each choice of a variant its key and its options as printed."""
    for name, bank in banks().items():
        for template in bank.templates if name != "figures" else ():  # its options are places in a drawing
            composer = Composer(template, bank, catalogue(bank.folder))
            for number in range(1, VARIANTS + 1):
                variant = composer.variant(number, practice_seed(number))
                for place, part in enumerate(composer.question(variant).parts):
                    key = {**part.judge, **variant.judge[place]}
                    if key["kind"] == "choice" and not key.get("signs") and kind_of(template.parts[place]) not in TOLD_OTHERWISE:
                        options = [plain(spans_text(each, variant.slots)) for each in part.field.options]
                        yield f"{template.id} ({part.label})", key, options


def test_each_wrong_option_of_a_choice_has_a_word_of_its_own():
    wrong = [
        (part, str(option) in key["slips"])
        for part, key, options in _choices()
        for option in range(len(options))
        if option not in key["right"]
    ]
    print(f"{len(wrong)} wrong options in {len({part for part, _ in wrong})} parts")
    assert {part for part, has_word in wrong if not has_word} == set()


def test_no_word_for_a_wrong_option_names_the_right_one():
    """A word may name options as long as it names two: then it tells none of them."""
    told = {
        (part, key["hints"][error])
        for part, key, options in _choices()
        for errors in key["slips"].values()
        for error in errors
        if {each for each in options if names(plain(key["hints"][error]), each)} == {options[key["right"][0]]}
    }
    assert told == set()


def test_each_wrong_answer_of_a_fact_shows_a_belief():
    assert [(fact.id, each.says) for fact in catalogue().facts.values() for each in fact.wrong if not each.shows] == []
