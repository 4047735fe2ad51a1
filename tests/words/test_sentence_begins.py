"""A hole that begins a sentence prints its word with a capital; elsewhere, and alone, as the data have it."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from snapshot.taking import banks, places

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose import filled_prose
from saltbridge.compose.context import Context
from saltbridge.compose.question import Composer
from saltbridge.compose.slots import Slots
from saltbridge.document import Caution, Items, MathLine, Paragraph
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
        ("worked", "bath-of-salt", "{{ cathode.product }} is {{ cathode.product.name }}.", "Ni is nickel."),
        ("worked", "bath-of-salt", "{{ anode.product }} is {{ anode.product | name }}.", "O₂ is oxygen."),
        ("worked", "bath-of-salt", "{{ hydrogen.product }} is {{ hydrogen.product | name }}.", "H₂ is hydrogen."),
    ],
)
def test_a_product_has_symbol_and_word(name, template, text, expected):
    bank = banks()[name]
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    drawn, slots = composer.drawer.draw(practice_seed(1)), Slots()
    (paragraph,) = filled_prose.blocks(read_prose(text), slots, drawn)
    assert spans_text(paragraph.spans, slots.fill(Context(composer.printer, drawn))) == expected


SEEDS = 4
SYMBOLS = ("lg K", "lg Q", "ln K", "ln Q", "pH", "mol")
"""Signs that are written with a small letter wherever they stand."""
SMALL = re.compile(r"(?:^|(?<=[.?!…]) )(?=[a-zäöüß])(?:.{0,40})")


def _paragraphs(blocks) -> Iterator[tuple]:
    """The running text of blocks; cells of tables are no sentences."""
    for block in blocks:
        if isinstance(block, Paragraph):
            yield block.spans
        elif isinstance(block, Caution):
            yield from _paragraphs(block.blocks)
        elif isinstance(block, Items):
            for item in block.items:
                yield from _paragraphs(item)


def _sentences(question, variant) -> Iterator[str]:
    """All that a student reads as sentences: situation, questions, hints, workings, and options that end as sentences do."""
    read = [*_paragraphs(question.blocks)]
    for part in question.parts:
        read += [*_paragraphs(part.body), *part.hints, *(step.say for step in part.working)]
        read += [line for step in part.working for line in step.lines if not isinstance(line, MathLine)]
        read += getattr(part.field, "options", ())
    yield from (text for spans in read if (text := spans_text(spans, variant.slots).strip()).endswith((".", "?", "!")))


def _small(text) -> list[str]:
    """The sentences of a text that begin with a small letter, from their beginning."""
    found = [each[0].strip() for each in SMALL.finditer(text)]
    return [each for each in found if not each.startswith(SYMBOLS)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("zinc is the anode.", ["zinc is the anode."]),
        ("It stands there. zinc is left.", ["zinc is left."]),
        ("Zinc is left. lg K is 3. At 0.5 V it stops.", []),
        ("Which? iron, or tin?", ["iron, or tin?"]),
    ],
)
def test_a_small_letter_is_seen(text, expected):
    assert _small(text) == expected


@pytest.mark.parametrize(("name", "template"), places())
def test_every_sentence_that_a_student_reads_begins_with_a_capital(name, template):
    bank = banks()[name]
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    read = 0
    for number in range(1, SEEDS + 1):
        variant = composer.variant(number, practice_seed(number))
        for text in _sentences(composer.question(variant), variant):
            read += 1
            assert _small(text) == []
    assert read >= SEEDS


@pytest.mark.parametrize("template", [each for name, each in places() if name == "worked"])
def test_minutes_without_a_key_are_what_the_key_says(template):
    """1.2 a mark, as the description of `minutes` tells an author."""
    bank = banks()["worked"]
    keys = bank.template(template)
    composer = Composer(keys, bank, catalogue(bank.folder))
    question = composer.question(composer.variant(1, practice_seed(1)))
    assert "1.2 a mark" in type(keys).model_fields["minutes"].description
    assert question.minutes == (keys.minutes or max(1, round(1.2 * question.marks)))
