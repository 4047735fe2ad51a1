"""The neutral document: what a page, a paper and a terminal all print.

Writers see only this room (and the words), so a number or formula can't differ between screen and paper. A question is composed
once per shape, and a variant is only the tuple of its slot values.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from saltbridge.document.answer_fields import CommonError, Field
from saltbridge.document.inline import Block, Figure, Spans, Step


@dataclass(frozen=True, slots=True)
class Part:
    """Part (a), (b)… of a question. ``judge`` is the answer key (see answers/), opaque to writers.

    ``errors``: usual wrong answers; ``accept``: what else a marker accepts. ``needs_text``: whether it is worked from the question's text, and not from earlier parts alone.
    """

    label: str
    marks: int
    body: tuple[Block, ...]
    field: Field
    hints: tuple[Spans, ...]
    working: tuple[Step, ...]
    answer: Spans
    judge: Mapping[str, Any]
    errors: tuple[CommonError, ...] = ()
    accept: Spans = ()
    needs_text: bool = True


@dataclass(frozen=True, slots=True)
class Question:
    """A question of one shape; a writer looks its slots up in a ``Variant``. ``graph``: what its judges run (see answers/)."""

    id: str
    title: str
    marks: int
    minutes: int
    blocks: tuple[Block, ...]
    parts: tuple[Part, ...]
    provenance: Mapping[str, str]
    graph: tuple[Mapping[str, Any], ...] = ()


@dataclass(frozen=True, slots=True)
class Variant:
    """What a variant puts into its question: slot values, figures, a share of each part's key; the graph's ``given`` values."""

    number: int
    shape: int
    slots: tuple[Spans, ...]
    figures: tuple[Figure, ...]
    judge: tuple[Mapping[str, Any], ...]
    given: Mapping[str, Any] = field(default_factory=dict)
