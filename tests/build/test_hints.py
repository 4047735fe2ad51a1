"""A hint points at the next step and leaves the finding to the student."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from snapshot.taking import banks

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.graph import walk
from saltbridge.render.text import blocks_text, spans_text

OWN = Path(__file__).resolve().parent / "own_bank"
LONGEST = 14  # words
RELATIONS = catalogue().relations
OF_STEPS = {name: text for name, text in vars(walk).items() if name.endswith("_HINT")}


def _plain(text):
    """A sentence for comparison: its words alone."""
    return " ".join(re.findall(r"\w+", text.casefold()))


@pytest.mark.parametrize("relation", RELATIONS.values(), ids=RELATIONS)
def test_every_shipped_relation_has_a_hint_that_is_not_its_sentence(relation):
    hint = _plain(relation.hint)
    assert hint
    for sentence in filter(None, (relation.say, relation.say_here)):
        assert hint not in _plain(sentence)
        assert _plain(sentence) not in hint


@pytest.mark.parametrize("hint", [*(each.hint for each in RELATIONS.values()), *OF_STEPS.values()])
def test_no_hint_gives_a_number_a_formula_or_an_answer(hint):
    """Nor any hole to fill with an answer."""
    assert not re.search(r"[\d={}]|\btimes (the|its)\b|\bminus\b|\bdivided\b", hint)
    assert len(hint.split()) <= LONGEST


def test_the_steps_that_are_no_relation_have_hints_too():
    """Two readings, four counts, two conversions."""
    assert len(OF_STEPS) == 8
    assert {hint for _, hint in walk.COUNTED.values()} <= set(OF_STEPS.values())


@pytest.mark.parametrize("name", sorted(banks()))
def test_no_hint_of_a_part_repeats_its_question(name):
    bank = banks()[name]
    for template in bank.templates:
        question, variant = _composed(bank, template)
        for part in question.parts:
            asked = {_plain(each) for each in re.split(r"(?<=[.?:])\s", blocks_text(part.body, variant, width=1000))}
            hinted = {_plain(spans_text(hint, variant.slots)) for hint in part.hints}
            assert not hinted & asked, (template.id, part.label)


def test_a_bank_s_own_relation_without_a_hint_shows_its_sentence_and_with_one_its_hint(tmp_path):
    folder = tmp_path / "bank"
    shutil.copytree(OWN, folder)
    say, hint = "What the lamp does not need is to spare.", "How much does the lamp need?"
    assert say in _hints(folder)
    file = folder / "relations.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace(f"  say: {say}\n", f"  say: {say}\n  hint: {hint}\n"), encoding="utf-8")
    assert hint in _hints(folder)
    assert say not in _hints(folder)


def _composed(bank, template):
    composer = Composer(template, bank, catalogue(bank.folder))
    variant = composer.variant(1, practice_seed(1))
    return composer.question(variant), variant


def _hints(folder):
    bank = load_bank(folder)
    question, variant = _composed(bank, bank.templates[0])
    return [spans_text(hint, variant.slots) for part in question.parts for hint in part.hints]
