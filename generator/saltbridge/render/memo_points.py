"""The points of a written answer in a memorandum: each with its marks, what else is accepted for it and what is refused."""

from __future__ import annotations

from collections.abc import Callable
from itertools import accumulate
from typing import Any

from saltbridge import document as doc
from saltbridge.render.paper_data import Encoder, Node
from saltbridge.words import Words


def memo_points(field: doc.Field, encoder: Encoder, words: Words, numbers: Callable[[int, int], str]) -> list[dict[str, Any]]:
    """The points in their order; where any of them will do, the first says so. None for another kind of answer.

    ``numbers`` tells those of so many marks from a first one on, where the policy numbers them; points of which any will do have none.
    """
    if not isinstance(field, doc.WrittenField):
        return []
    lead = words("Any {wanted} of these {count}:", wanted=field.wanted, count=len(field.points)) if field.wanted else ""
    first = accumulate((point.marks for point in field.points), initial=1)
    return [
        {
            "lead": "" if at else lead,
            "said": encoder.spans(point.text),
            "marks": point.marks,
            "points": "" if field.wanted else numbers(number, point.marks),
            "notes": _notes(point, encoder, words),
        }
        for at, (point, number) in enumerate(zip(field.points, first, strict=False))
    ]


def _notes(point: doc.KeyPoint, encoder: Encoder, words: Words) -> list[list[Node]]:
    told = [(words("Also accept:"), each) for each in point.accept] + [(words("Do not accept:"), each) for each in point.refuse]
    return [[["b", [lead]], " ", *encoder.spans(spans)] for lead, spans in told]
