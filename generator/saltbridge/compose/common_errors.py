"""The common errors of a number as a memorandum tells them: how each is made, and the marks that it leaves."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from saltbridge.algebra.expression import Num, Ref
from saltbridge.compose.mathset import MathSetter, spaced, speech
from saltbridge.compose.written_forms import EQUALS
from saltbridge.document import CommonError, Maths, Row, Spans, Text
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.walk import WalkStep
from saltbridge.policy import Policy, marks_lost
from saltbridge.words import Words


def common_errors(
    points: Sequence[SlipPoint],
    steps: Sequence[WalkStep],
    marks: Mapping[tuple[int, int], int],
    worth: int,
    anew: Collection[str],
    found: Policy,
    setter: MathSetter,
    words: Words,
) -> tuple[CommonError, ...]:
    """Each error once that is made in the part itself: those of earlier parts are followed through.

    ``worth``: marks of the part; ``anew``: the nodes that it works out.
    """
    told: dict[str, CommonError] = {}
    for point in points:
        if point.node in anew:
            lost = marks_lost(found, steps, marks, point.node, read=bool(point.slip.read))
            told.setdefault(point.slip.id, CommonError(point.slip.id, _said(point, setter, words), max(0, worth - lost)))
    return tuple(told.values())


def _said(point: SlipPoint, setter: MathSetter, words: Words) -> Spans:
    """The wrong equation, or where there is none the question that helps out of the error."""
    if point.tree is None or isinstance(point.tree, Ref | Num):
        return (Text(words(point.slip.hint)),)
    left, right = setter.symbol(point.node), setter.symbols(point.tree)
    said = spaced((*speech(left, words), words("equals"), *speech(right, words)))
    return (Maths(Row((left, EQUALS, right)), said),)
