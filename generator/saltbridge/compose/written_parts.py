"""Parts that are answered in words or by a sketch: their points, with what else to accept and what to refuse."""

from __future__ import annotations

from saltbridge.bank.written_part import KeyPoint, WrittenPart
from saltbridge.compose.choices import own_words
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.document import KeyPoint as PrintedPoint
from saltbridge.document import Part, WrittenField


def written_part(label: str, part: WrittenPart, desk: Desk) -> Part:
    """A part marked by its points; nothing of it is worked out, so nothing follows from it."""
    points = tuple(_printed(point, desk) for point in part.points)
    name = desk.words("Your answer")
    field = WrittenField(name, points, part.worth, part.any_ or 0, part.answer_on)
    shape = {"kind": "written", "points": [point.marks for point in points], "any": part.any_ or 0, "most": part.worth}
    made = Made(field, (), (), shape, lambda _: {})
    desk.shares.append(made.share)
    return desk.part(label, part, made, part.worth)


def _printed(point: KeyPoint, desk: Desk) -> PrintedPoint:
    text, *others = (own_words(each, desk.drawn, desk.setter) for each in point.texts.values())
    accepted = len(point.also_accept)
    return PrintedPoint(text, point.marks, tuple(others[:accepted]), tuple(others[accepted:]))
