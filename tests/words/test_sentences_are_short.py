"""Sentences that reach a student are short enough for a second-language reader."""

from __future__ import annotations

import re

from msgids import all_sentences

from saltbridge.home import shipped

LONGEST = 20  # words; common advice for plain language
TEACHERS = ("deliver/proof", "render/proof")
REPORT = (shipped("site") / "layouts" / "proof.html").read_text(encoding="utf-8")


def sentences():
    """Each sentence of the catalogue by itself; what only a moderator reads is left out."""
    for text, place in all_sentences().items():
        if not place.startswith(TEACHERS) and text not in REPORT:
            yield from re.split(r"(?<=[.?!:;])\s+", text)


def test_no_sentence_has_more_than_twenty_words():
    assert {each for each in sentences() if len(each.split()) > LONGEST} == set()


def test_the_sentences_of_hints_and_workings_are_among_them():
    """A scan that finds nothing would prove nothing."""
    found = set(sentences())
    assert {"Which couple loses electrons more readily?", "Read from the data sheet:", "Not yet."} <= found
    assert max(len(each.split()) for each in found) == LONGEST
