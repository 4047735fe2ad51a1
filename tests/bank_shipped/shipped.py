"""Draws of the shipped bank, composed once for all tests of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from saltbridge.answers import merge
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.document import Question, Variant
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.seeds import practice_seed
from saltbridge.home import shipped
from saltbridge.render.text import spans_text

SEEDS = 10
BANK = load_bank(shipped("question_templates"))
IDS = [template.id for template in BANK.templates]


@dataclass(frozen=True)
class Sample:
    """One draw of a template, with its question and variant."""

    drawn: Drawn
    question: Question
    variant: Variant

    def key(self, label):
        """A part's key as the page merges it."""
        place = [part.label for part in self.question.parts].index(label)
        return merge(self.question.parts[place].judge, self.variant.judge[place], self.question.graph, self.variant.given)

    def answer(self, label):
        """A part's answer as it stands in print."""
        part = next(part for part in self.question.parts if part.label == label)
        return spans_text(part.answer, self.variant.slots)

    def number(self, *names):
        """A given or derived number by its name; several names are tried in turn."""
        for name in names:
            if name in self.drawn.graph.index:
                return self.drawn.graph.value(self.drawn.cells, name)
            if name in self.drawn.situation.given:
                return self.drawn.situation.given[name].value
        raise KeyError(names)

    def numbers(self):
        """Parts that ask for a number, with their keys."""
        return [(part, key) for part in self.question.parts if (key := self.key(part.label))["kind"] == "number"]


@cache
def composer(template_id):
    """The composer of a template."""
    return Composer(BANK.template(template_id), BANK, catalogue())


@cache
def samples(template_id):
    """So many draws of a template."""
    made = composer(template_id)
    found = []
    for number in range(1, SEEDS + 1):
        variant = made.variant(number, practice_seed(number))
        found.append(Sample(made.drawer.draw(practice_seed(number)), made.question(variant), variant))
    return found
