"""A German bank says nothing in English."""

from __future__ import annotations

import pytest
from babel.messages.pofile import read_po
from msgids import all_sentences, code_files, data_sentences, layout_sentences, literals

from saltbridge.home import shipped
from saltbridge.words import CONTEXT, catalogue, holes

SENTENCES = all_sentences()


def key(message):
    """The sentence, after its context where it has one."""
    return f"{message.context}{CONTEXT}{message.id}" if message.context else str(message.id)


def test_every_sentence_has_a_german_one():
    """All missing ones at once, each with the place where it was found."""
    german = catalogue("de")
    missing = [f'{place}: "{text}"' for text, place in sorted(SENTENCES.items(), key=lambda each: each[1]) if text not in german]
    assert not missing, "data/words/de.po lacks\n" + "\n".join(missing)


def test_the_scan_finds_sentences_of_each_kind():
    """Code, module constant, table, layout and data: a scan that finds nothing would prove nothing."""
    by_file = {path.name: set(literals(path)) for path in code_files()}
    assert "Your answer for {quantity}" in by_file["number_parts.py"]
    assert "Convert to the unit that the formula needs." in by_file["walk.py"]
    assert "The number of electrons lost equals the number gained. Add the two." in set(data_sentences())
    assert "Introductory" in by_file["pages.py"]
    assert "New version" in set(layout_sentences())
    assert {
        "zinc",
        "copper(II) sulfate",
        "Faraday constant",
        "Is everything in Q at its standard value here?",
    } <= SENTENCES.keys()


def test_no_german_sentence_is_left_over():
    """A sentence that nothing says any more is dead weight, or its English was changed without it."""
    with (shipped("data") / "words" / "de.po").open("rb") as file:
        spare = {key(message) for message in read_po(file) if message.id} - SENTENCES.keys()
    assert spare == set()


@pytest.mark.parametrize("text", sorted(text for text in SENTENCES if holes(text)))
def test_the_braces_are_kept(text):
    assert holes(catalogue("de")(text)) == holes(text)
