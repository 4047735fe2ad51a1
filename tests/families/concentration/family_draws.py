"""Draws of a small family bank, composed once for all tests of it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from saltbridge.answers import merge
from saltbridge.bank.bank import load_bank
from saltbridge.compose.question import Composer
from saltbridge.derivation.catalogue import catalogue
from saltbridge.draw.allocate import practice_seed

SEEDS = 5


@cache
def bank(family):
    """The small bank of a family, concentration or equilibrium."""
    return load_bank(Path(__file__).parents[1] / family / "bank")


def ids(family):
    """The templates of a family's bank."""
    return [template.id for template in bank(family).templates]


@cache
def samples(family, template_id):
    """Five draws of a template: drawn values, question and variant of each."""
    made = Composer(bank(family).template(template_id), bank(family), catalogue())
    found = []
    for number in range(1, SEEDS + 1):
        variant = made.variant(number, practice_seed(number))
        found.append((made.drawer.draw(practice_seed(number)), made.question(variant), variant))
    return found


def keys(question, variant):
    """Each part with its key as the page merges it."""
    return [(part, merge(part.judge, variant.judge[place])) for place, part in enumerate(question.parts)]


def given(drawn):
    """Every given value of a draw by its node, words left out."""
    return {name: each.value for name, each in drawn.situation.given.items() if isinstance(each.value, float)}
