"""How hard a text is to read: words in a sentence and long words, after Björnsson.

LIX = words per sentence + percentage of words with more than six letters (C. H. Björnsson, Läsbarhet, Stockholm 1968, from
memory); it needs no dictionary and is used for English and German alike. By the same source up to 40 is easy, 50 is the
level of newspapers, 60 that of specialists. Chemical names count as long words, so a question is rated rather harder than it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from saltbridge.document import Block, Items, Paragraph, Question, Spans, Variant
from saltbridge.render.text import spans_text

LONG_WORD = 6
LONGEST_SENTENCE = 30
HARDEST = 56

_WORD = re.compile(r"[^\W\d_]+(?:[-'’][^\W\d_]+)*")
_END = re.compile(r"(?<=[.!?:;])\s+")


@dataclass(frozen=True, slots=True)
class Reading:
    """The measure of a text: words, sentences, LIX, and its longest sentence."""

    words: int
    sentences: int
    lix: float
    longest: str


def reading(texts: Iterable[str]) -> Reading:
    """Measure paragraphs; a paragraph's end ends a sentence."""
    sentences = [part for text in texts for part in _END.split(text) if _WORD.search(part)]
    words = [word for sentence in sentences for word in _WORD.findall(sentence)]
    if not words:
        return Reading(0, 0, 0.0, "")
    long = sum(len(word) > LONG_WORD for word in words)
    lix = len(words) / len(sentences) + 100 * long / len(words)
    return Reading(len(words), len(sentences), round(lix, 1), max(sentences, key=words_in))


def words_in(sentence: str) -> int:
    """How many words a sentence has."""
    return len(_WORD.findall(sentence))


def texts_of(question: Question, variant: Variant) -> tuple[str, ...]:
    """The paragraphs that a student reads before answering."""
    blocks = [*question.blocks, *(block for part in question.parts for block in part.body)]
    return tuple(spans_text(spans, variant.slots) for spans in _lines(blocks))


def _lines(blocks: Iterable[Block]) -> Iterator[Spans]:
    for block in blocks:
        match block:
            case Paragraph(spans):
                yield spans
            case Items(_, items):
                for item in items:
                    yield from _lines(item)
            case _:
                pass
