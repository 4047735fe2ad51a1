"""Draws of the small banks of redox and titration, composed once for all tests of them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from saltbridge.answers import merge
from saltbridge.bank.bank import load_bank
from saltbridge.compose.question import Composer
from saltbridge.derivation.catalogue import catalogue
from saltbridge.draw.allocate import practice_seed

FAMILIES = Path(__file__).resolve().parents[1]
BANKS = {name: load_bank(FAMILIES / name / "bank") for name in ("redox", "titration")}
IDS = [(name, template.id) for name, bank in BANKS.items() for template in bank.templates]
SEEDS = 5


@cache
def samples(bank, template_id):
    """Five draws of a template: drawn values, question and variant of each."""
    made = Composer(BANKS[bank].template(template_id), BANKS[bank], catalogue())
    found = []
    for number in range(1, SEEDS + 1):
        variant = made.variant(number, practice_seed(number))
        found.append((made.drawer.draw(practice_seed(number)), made.question(variant), variant))
    return found


def keys(question, variant):
    """Each part with its key as the page merges it."""
    return [(part, merge(part.judge, variant.judge[place])) for place, part in enumerate(question.parts)]
