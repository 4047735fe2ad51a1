"""Draws of the small banks of galvanic cells, standard potentials and the bench, composed once for all their tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from saltbridge.answers import judge, merge
from saltbridge.bank.bank import load_bank
from saltbridge.compose.question import Composer
from saltbridge.derivation.catalogue import catalogue
from saltbridge.draw.allocate import practice_seed
from saltbridge.render.text import spans_text

FAMILIES = ("galvanic", "standards", "bench")
BANKS = {family: load_bank(Path(__file__).parent / family / "bank") for family in FAMILIES}
SEEDS = 6


def templates(family):
    """The ids of a family's templates."""
    return [template.id for template in BANKS[family].templates]


@cache
def samples(family, template_id):
    """Six draws of a template: drawn values, question and variant of each."""
    bank = BANKS[family]
    made = Composer(bank.template(template_id), bank, catalogue())
    found = []
    for number in range(1, SEEDS + 1):
        variant = made.variant(number, practice_seed(number))
        found.append((made.drawer.draw(practice_seed(number)), made.question(variant), variant))
    return found


def keys(question, variant):
    """Each part with its key as the page merges it."""
    return [(part, merge(part.judge, variant.judge[place])) for place, part in enumerate(question.parts)]


def check_right_answers(family, template):
    """Numbers as printed, all else as keyed, are judged right."""
    for _, question, variant in samples(family, template):
        for part, key in keys(question, variant):
            right = spans_text(part.answer, variant.slots) if key["kind"] == "number" else key["right"]
            assert judge(key, right).verdict == "right", (variant.number, part.label)


def check_slips(family, template):
    """Slips are told by their value or by the place of the wrong choice, and what must be caught is."""
    for drawn, question, variant in samples(family, template):
        caught = set()
        for _, key in keys(question, variant):
            if key["kind"] == "number":
                for slip in drawn.outcomes[key["node"]].slips:
                    verdict = judge(key, f"{slip.printed} {key['unit']}".strip())
                    assert verdict.verdict == "slip"
                    assert {slip.point.slip.id, *slip.same} & set(verdict.slips)
                    caught |= {slip.point.slip.id, *slip.same}
            if key["kind"] == "choice":
                for place, slips in key["slips"].items():
                    assert int(place) not in key["right"]
                    assert judge(key, [int(place)]).slips == tuple(slips)
                    caught |= set(slips)
        assert set(BANKS[family].template(template).must_catch) <= caught
