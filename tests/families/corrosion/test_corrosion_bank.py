"""Each question form of corrosion is a template without Python: drawn, composed, judged, its slips caught."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from saltbridge.answers import judge, merge
from saltbridge.bank.bank import load_bank
from saltbridge.compose.question import Composer
from saltbridge.derivation.catalogue import catalogue
from saltbridge.draw.allocate import practice_seed
from saltbridge.render.text import spans_text

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


@pytest.mark.parametrize("template", IDS)
def test_the_right_answer_is_judged_right(template):
    """Numbers as printed, choices, orders and equations as keyed."""
    for _, question, variant in samples(template):
        for part, key in keys(question, variant):
            right = spans_text(part.answer, variant.slots) if key["kind"] == "number" else key["right"]
            assert judge(key, right).verdict == "right", (variant.number, part.label)


@pytest.mark.parametrize("template", IDS)
def test_slips_are_recognised(template):
    """Each slip of a number lies outside the accepted range and is told as itself; each slip of a choice at its option."""
    for drawn, question, variant in samples(template):
        for part, key in keys(question, variant):
            if key["kind"] == "number":
                for slip in drawn.outcomes[key["node"]].slips:
                    verdict = judge(key, f"{slip.printed} {key['unit']}")
                    assert verdict.verdict == "slip", (variant.number, part.label, slip.point.slip.id)
                    assert not Decimal(key["lo"]) <= slip.printed < Decimal(key["hi"])
            if key["kind"] == "choice":
                for option, names in key["slips"].items():
                    verdict = judge(key, [int(option)])
                    assert verdict.verdict == "slip"
                    assert set(names) & set(verdict.slips)
