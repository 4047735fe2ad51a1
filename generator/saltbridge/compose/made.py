"""What a part that is no number is made of, before it gets its letter and marks."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from saltbridge.compose.context import Context
from saltbridge.document import Field, Spans, Step
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.walk import WalkStep


@dataclass(frozen=True)
class Made:
    """What such a part is made of.

    ``share`` gives a variant's share of the key, ``node`` what later parts may follow from, ``points`` the errors on the way to it,
    ``needs`` what else of the graph its key looks at.
    """

    field: Field
    working: tuple[Step, ...]
    answer: Spans
    shape: Mapping[str, Any]
    share: Callable[[Context], Mapping[str, Any]]
    node: str = ""
    walked: tuple[WalkStep, ...] = ()
    hints: tuple[Spans, ...] = ()
    points: tuple[SlipPoint, ...] = ()
    needs: tuple[str, ...] = ()
