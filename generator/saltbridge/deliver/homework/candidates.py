"""What a drawn variant is for the allocation: its key, its situation, and how hard it is."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.document import Question, Variant
from saltbridge.draw.allocation import Candidate, Form, Layout
from saltbridge.render.text import spans_text

_CHARGES = ("n", "z", "n_anode", "n_cathode", "nu_anode", "nu_cathode")


def candidate(seen: Seen, seed: str) -> Candidate:
    """The candidate of a drawn variant."""
    question, variant = seen.question, seen.variant
    numbers = [number for part in keys_of(question, variant) for number in numbers_in(part)]
    form = Form(
        steps=tuple(len(part.working) for part in question.parts),
        signs=tuple((value > 0) - (value < 0) for value, _ in numbers),
        charges=_charges(seen),
    )
    return Candidate(
        seen.template.id, seed, key_of(question, variant), _situation(seen), layout_of(question), form, tuple(map(_size, numbers))
    )


def keys_of(question: Question, variant: Variant) -> list[dict[str, Any]]:
    """The key of each part, with the variant's share."""
    shares = (*variant.judge, *({} for _ in question.parts))
    return [{**part.judge, **share} for part, share in zip(question.parts, shares, strict=False)]


def key_of(question: Question, variant: Variant) -> str:
    """Every answer as a short digest: numbers whatever their decimal mark; stories and sides that leave them alone make no other key."""
    told = []
    for part, key in zip(question.parts, keys_of(question, variant), strict=False):
        numbers = [str(value) for value, _ in numbers_in(key)]
        told.append(" ".join(numbers) or spans_text(part.answer, variant.slots))
    return _digest([question.id, *told])


def layout_of(question: Question) -> Layout:
    """Label, marks and kind of each part: what must be one for all copies of a question."""
    return tuple((part.label, part.marks, str(part.judge.get("kind", ""))) for part in question.parts)


def numbers_in(key: Any) -> Iterator[tuple[Decimal, bool]]:
    """The numbers that a part's key asks for, each with whether it is judged by its logarithm; a part may ask for several."""
    if isinstance(key, Mapping):
        if key.get("kind") == "number" and "value" in key:
            yield Decimal(str(key["value"]).replace("\u2212", "-")), key.get("scale") == "log"
            return
        for each in key.values():
            yield from numbers_in(each)
    elif isinstance(key, list | tuple):
        for each in key:
            yield from numbers_in(each)


def _size(number: tuple[Decimal, bool]) -> float:
    """The common logarithm of a number's size; one that is judged by its logarithm counts by that."""
    value, by_logarithm = number
    if not value:
        return 0.0
    size = math.log10(abs(float(value)))
    return math.log10(max(abs(size), 1.0)) if by_logarithm else size


def _charges(seen: Seen) -> tuple[tuple[str, int], ...]:
    graph, cells = seen.drawn.graph, seen.drawn.cells
    values = [(name, graph.value(cells, name)) for name in _CHARGES if name in graph.index]
    return tuple((name, round(value)) for name, value in values if isinstance(value, float) and math.isfinite(value))


def _situation(seen: Seen) -> str:
    """What the question is about without its numbers: the metals and drawn words, whatever side they stand on."""
    words = [*seen.drawn.situation.words.items(), *seen.drawn.extra.items()]
    told = sorted({text for name, text in words if name.endswith(("metal", "name", "context", "couple"))})
    return _digest(["situation", seen.template.scenario.kind, *told])


def _digest(texts: list[str]) -> str:
    return hashlib.blake2b("\n".join(texts).encode(), digest_size=8).hexdigest()
