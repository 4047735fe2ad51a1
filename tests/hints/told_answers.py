"""Where a hint, a message, a caution or a question names the answer that it should help to find."""

from __future__ import annotations

import re
import unicodedata
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from saltbridge.answers import merge
from saltbridge.document import ChoiceField, Part, Question, Variant
from saltbridge.render.text import blocks_text, spans_text

TERMS = ("oxidation number", "oxidationszahl")
"""Terms that hold a word which may be an answer, and do not say it."""


class Shown(NamedTuple):
    """A variant with the cautions that a template may print beside it."""

    question: Question
    variant: Variant
    cautions: tuple[str, ...]


def plain(text: str) -> str:
    """Small letters, single spaces, no point at the end, no term that only looks like an answer."""
    said = re.sub(r"\s+", " ", unicodedata.normalize("NFC", text)).strip().rstrip(".").casefold()
    for term in TERMS:
        said = said.replace(term, "…")
    return said


def names(text: str, phrase: str) -> bool:
    """Whether a text has a phrase as whole words: `iron` stands in "an iron nail", not in "environment"."""
    return bool(phrase) and bool(re.search(rf"(?<![\w.,+−]){re.escape(phrase)}(?![\w⁺⁻]|[.,]\d)", text))


def told(shown: Sequence[Shown]) -> Iterator[str]:
    """Each text beside a part, up to it, that names its answer; ``shown`` are variants of one template.

    A text that asks to choose may name the options: all that are right in some variant, two at least.
    """
    ever = _ever_right(shown)
    for question, variant, cautions in shown:
        asks = ""
        for place, part in enumerate(question.parts):
            asks = f"{asks} {blocks_text(part.body, variant, width=10_000)}"
            key = merge(part.judge, variant.judge[place])
            if (key["kind"] == "number" and not key.get("unit")) or key.get("signs"):
                continue  # a bare number may stand for anything, and a letter of a drawing is no word
            right, options = plain(spans_text(part.answer, variant.slots)), _options(part, variant)
            likely = {
                options[each] for each in ever[place] if each < len(options)
            }  # some questions have more options in one variant
            for where, text in _texts(part, variant, key, cautions, asks):
                named = {each for each in options if names(plain(text), each)}
                if names(plain(text), right) and not (likely <= named and len(named) > 1):
                    yield f"variant {variant.number} ({part.label}): {right!r} in the {where} {text.strip()!r}"


def _ever_right(shown: Sequence[Shown]) -> Mapping[int, set[int]]:
    """The options of each part that are right in some variant."""
    found: dict[int, set[int]] = defaultdict(set)
    for _, variant, _ in shown:
        for place, key in enumerate(variant.judge):
            found[place].update(each for each in key.get("right", ()) if isinstance(each, int))
    return found


def _options(part: Part, variant: Variant) -> tuple[str, ...]:
    if not isinstance(part.field, ChoiceField):
        return ()
    return tuple(plain(spans_text(each, variant.slots)) for each in part.field.options)


def _texts(
    part: Part, variant: Variant, key: Mapping[str, Any], cautions: tuple[str, ...], asks: str
) -> Iterator[tuple[str, str]]:
    for hint in part.hints:
        yield "hint", spans_text(hint, variant.slots)
    slips = key.get("slips", ())
    for slip in slips if isinstance(slips, list) else ():
        yield "message", str(slip.get("hint", ""))
    for said in key.get("hints", {}).values():
        yield "message", str(said)
    for caution in cautions:
        yield "caution", caution
    yield "question", asks
