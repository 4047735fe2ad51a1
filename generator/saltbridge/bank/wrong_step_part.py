"""Parts on a working with one wrong step in it: which step it is, and what it should give."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from saltbridge.bank.part_base import PartKeys, one_rounding
from saltbridge.forms.fields import Identifier, Name, Several, Whole
from saltbridge.forms.value_types import UnitText


class WrongStepPart(PartKeys):
    """A working to look through: one common error stands in it, and every other step follows from it."""

    wrong_step_in: Name = Field(
        description="The quantity that the working leads to, such as `m`. The steps are shown, and the wrong one is picked."
    )
    unit: UnitText | None = Field(None, alias="in", description="The unit in which the working ends, such as `mg`.")
    figures: Whole | None = Field(None, description="Significant figures of its result.")
    decimals: Whole | None = Field(None, description="Decimals of its result, instead of figures.")
    errors: Several[Identifier] = Field(
        (), description="Common errors to build one of in; without them, any error of calculation that the draw can tell."
    )

    @property
    def find(self) -> str:
        """The quantity that the working leads to."""
        return self.wrong_step_in

    @model_validator(mode="after")
    def _one_rounding(self) -> Self:
        one_rounding(self.figures, self.decimals)
        return self


class CorrectPart(PartKeys):
    """What the wrong step of the working before should give: a number."""

    correct: Literal["the wrong step"] = Field(
        description="`the wrong step`: what it should give, in the working of the part before. For the result at the end write `find`."
    )
    figures: Whole | None = Field(None, description="Significant figures of the answer.")
    decimals: Whole | None = Field(None, description="Decimals of the answer, instead of figures.")

    @model_validator(mode="after")
    def _one_rounding(self) -> Self:
        one_rounding(self.figures, self.decimals)
        return self
