"""Draws of the small bank of electrolysis, composed once for all tests of it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from saltbridge.answers import merge
from saltbridge.bank.bank import load_bank
from saltbridge.compose.question import Composer
from saltbridge.derivation.catalogue import catalogue
from saltbridge.draw.allocate import practice_seed

BANK = load_bank(Path(__file__).parent / "bank")
IDS = [template.id for template in BANK.templates]
SEEDS = 6


@cache
def samples(template_id):
    """Six draws of a template: drawn values, question and variant of each."""
    made = Composer(BANK.template(template_id), BANK, catalogue())
    found = []
    for number in range(1, SEEDS + 1):
        variant = made.variant(number, practice_seed(number))
        found.append((made.drawer.draw(practice_seed(number)), made.question(variant), variant))
    return found


def keys(question, variant):
    """Each part with its key as the page merges it."""
    return [(part, merge(part.judge, variant.judge[place])) for place, part in enumerate(question.parts)]
