"""A choice of a real question follows from the student's own earlier answer, by the graph that the question carries."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from saltbridge.answers import judge, merge
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.allocate import practice_seed

FAMILIES = Path(__file__).parents[1] / "families"


def keys_of(family: str, template: str, number: int) -> dict[str, Any]:
    """The keys of one variant by the letter of their part."""
    bank = load_bank(FAMILIES / family / "bank")
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    variant = composer.variant(number, practice_seed(number))
    question = composer.question(variant)
    return {
        part.label: merge(part.judge, variant.judge[place], question.graph, variant.given)
        for place, part in enumerate(question.parts)
    }


def test_a_choice_follows_from_the_anode_that_the_student_chose():
    keys = keys_of("galvanic", "roles-and-ways", 1)
    (label, first), *_ = [(label, key) for label, key in keys.items() if key.get("node") == "anode"]
    wrong = first["values"][1 - first["right"][0]]
    (later, *_) = [key for key in keys.values() if [label, "anode"] in key.get("earlier", [])]
    other = 1 - later["right"][0]
    assert judge(later, [other], {label: wrong}).verdict == "follows"
    assert judge(later, [other], {label: wrong}).parts == (label,)
    assert judge(later, [other], {label: first["values"][first["right"][0]]}).verdict != "follows"
    assert judge(later, later["right"], {label: wrong}).verdict == "right"


def test_a_choice_follows_from_the_number_that_the_student_found():
    keys = keys_of("standards", "can-it-go", 1)
    (label, first), *_ = [(label, key) for label, key in keys.items() if key["kind"] == "number"]
    (later, *_) = [key for key in keys.values() if any(each[:2] == [label, first["node"]] for each in key.get("earlier", []))]
    turned = str(-float(first["value"]))
    other = 1 - later["right"][0]
    assert judge(later, [other], {label: turned}).verdict == "follows"
    assert judge(later, [other], {label: first["value"]}).verdict != "follows"
