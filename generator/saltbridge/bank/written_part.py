"""A part that is answered in words or by a sketch, and marked by its points."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, Literal, Self

from pydantic import Field, model_validator
from pydantic_core import core_schema

from saltbridge.bank.part_base import PartKeys
from saltbridge.forms.fields import Counted, Keys, Lettered, OneOrSeveral
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Markdown


class KeyPoint(Keys):
    """One thing that a full answer says or shows."""

    text: Markdown = Field(description="What a full answer says here, or a full sketch shows; Markdown with holes.")
    marks: Counted = Field(1, description="The marks of this point.")
    also_accept: OneOrSeveral[Markdown] = Field((), description="Other wordings or other ideas that earn the point as well.")
    refuse: OneOrSeveral[Markdown] = Field((), description="What does not earn the point, though students write it.")

    @property
    def texts(self) -> dict[str, Prose]:
        """All its texts, by key."""
        lists = (("also accept", self.also_accept), ("refuse", self.refuse))
        return {"text": self.text} | {f"{key}[{at}]": text for key, each in lists for at, text in enumerate(each, 1)}


def _point(value: object) -> object:
    """A point, or its text alone where it is worth one mark and nothing else is to be said of it."""
    return {"text": value} if isinstance(value, str) else value


class _TextAlone:
    """Lets a point stand as its text."""

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        return core_schema.no_info_before_validator_function(_point, handler(source))

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        return {"anyOf": [handler(core), {"type": "string", "description": "The point's text, for one mark."}]}


Point = Annotated[KeyPoint, _TextAlone()]


class WrittenPart(PartKeys):
    """An answer in words, or a sketch, marked by its points."""

    points: Lettered[Point] = Field(
        description="The points that earn the marks, each a text, or its `text` with `marks`, `also accept` and `refuse`."
    )
    any_: Counted | None = Field(
        None, description="How many of the points are wanted, where any of them will do: `2` of four. They are worth the same."
    )
    answer_on: Literal["lines", "squares", "frame"] = Field(
        "lines", description="What a paper gives to answer on: `lines` for words; for a sketch `squares`, or an empty `frame`."
    )

    @property
    def texts(self) -> dict[str, Prose]:
        """The question with its hint, and the texts of the points."""
        points = {f"points[{at}].{key}": text for at, point in enumerate(self.points, 1) for key, text in point.texts.items()}
        return super().texts | points

    @property
    def stands_alone(self) -> bool:
        """Words of one's own need no scenario."""
        return True

    @property
    def worth(self) -> int:
        """The marks of the points, or of as many as are wanted."""
        return sum(sorted(point.marks for point in self.points)[-(self.any_ or len(self.points)) :])

    @model_validator(mode="after")
    def _adds_up(self) -> Self:
        count = len(self.points)
        if self.any_ is not None and self.any_ >= count:
            raise wrong(
                "points", f"`any` of fewer than the {count} points", f"`any: {self.any_}`", "Leave it out where all are wanted."
            )
        if self.any_ is not None and len({point.marks for point in self.points}) > 1:
            raise wrong("points", "points worth the same where any of them will do", "other marks", "Give each the same `marks`.")
        if self.marks is not None and self.marks != self.worth:
            raise wrong(
                "points",
                f"`marks: {self.worth}`, the sum of its points",
                f"`marks: {self.marks}`",
                "Leave `marks` out of the part.",
            )
        return self
