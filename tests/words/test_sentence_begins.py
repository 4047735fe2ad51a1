"""A hole that begins a sentence prints its word with a capital; elsewhere, and alone, as the data have it."""

from __future__ import annotations

import pytest
from snapshot.taking import banks

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose import filled_prose
from saltbridge.compose.context import Context
from saltbridge.compose.question import Composer
from saltbridge.compose.slots import Slots
from saltbridge.draw.seeds import practice_seed
from saltbridge.forms.prose import read_prose
from saltbridge.render.text import spans_text


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("{{ left.metal }} dissolves. {{ right.metal }} does not.", "Nickel dissolves. Zinc does not."),
        ("Which dissolves? {{ left.metal }} or {{ right.metal }}?", "Which dissolves? Nickel or zinc?"),
        ("The metal is {{ left.metal }}.", "The metal is nickel."),
        ("{{ left.metal }}", "nickel"),
        ("{{ left.ion }} is dissolved.", "Ni²⁺ is dissolved."),
    ],
)
def test_a_hole_that_begins_a_sentence_has_a_capital(text, expected):
    bank = banks()["shipped"]
    composer = Composer(bank.template("two-metals"), bank, catalogue(bank.folder))
    drawn, slots = composer.drawer.draw(practice_seed(1)), Slots()
    (paragraph,) = filled_prose.blocks(read_prose(text), slots, drawn)
    assert spans_text(paragraph.spans, slots.fill(Context(composer.printer, drawn))) == expected


@pytest.mark.parametrize(
    ("name", "template", "text", "expected"),
    [
        ("shipped", "mass-deposited", "{{ product }} is {{ product | name }}.", "Cu is copper."),
        ("electrolysis", "energy-per-kilogram", "{{ product }} is {{ product.name }}.", "Cl₂ is chlorine."),
    ],
)
def test_a_product_has_symbol_and_word(name, template, text, expected):
    bank = banks()[name]
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    drawn, slots = composer.drawer.draw(practice_seed(1)), Slots()
    (paragraph,) = filled_prose.blocks(read_prose(text), slots, drawn)
    assert spans_text(paragraph.spans, slots.fill(Context(composer.printer, drawn))) == expected
