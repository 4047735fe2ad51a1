"""No hint, message or caution, nor a question up to its part, names the answer, in any variant of any bank."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hints.told_answers import Shown, names, plain, told
from snapshot.taking import SEEDS, banks, places

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed


def shown(name, template, language):
    bank = banks()[name]
    bank = replace(bank, settings=replace(bank.settings, language=language))
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    for number in range(1, SEEDS + 1):
        variant = composer.variant(number, practice_seed(number))
        said = composer.drawer.draw(practice_seed(number)).situation.words
        cautions = tuple(composer.printer.words(text) for word, text in said.items() if word.endswith("caution"))
        yield Shown(composer.question(variant), variant, cautions)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize(("name", "template"), places(), ids=lambda each: each)
def test_nothing_beside_a_part_names_its_answer(name, template, language):
    assert list(told(list(shown(name, template, language)))) == []


@pytest.mark.parametrize(
    ("text", "phrase", "expected"),
    [
        ("Is it an iron nail?", "iron", True),
        ("Think of the environment.", "iron", False),
        ("It falls by 0.50 V.", "0.50 v", True),
        ("It falls by 10.50 V.", "0.50 v", False),
        ("It is −0.50 V.", "0.50 v", False),
        ("Which oxidation number has it?", "oxidation", False),
        ("Zn²⁺ is left.", "zn", False),
    ],
)
def test_a_phrase_counts_as_whole_words_only(text, phrase, expected):
    assert names(plain(text), phrase) is expected


def test_a_hint_with_the_answer_is_found():
    """The reader of hints looks at every kind of text: planted, each is told."""
    question, variant, _ = next(shown("shipped", "two-metals", "en"))
    metal = next(iter(question.parts[0].answer)).index
    said = f"It is {variant.slots[metal][0].text}."
    assert [each.split(" in the ")[1] for each in told([Shown(question, variant, (said,))])] == [f"caution {said!r}"]
