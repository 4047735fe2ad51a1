"""The scenario of one metal deposited by a steady current."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from saltbridge.forms.fields import Drawn, Keys, Measures, Several
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Metal


class ElectrolysisScenario(Keys):
    """A metal is deposited by a steady current. Two of current, time and mass are given; the third is left to find."""

    metals: Several[Metal] = Field(description="Metals to draw from; the bath holds ions of the one drawn.")
    current: Annotated[Drawn | None, Measures("A")] = Field(
        None,
        description="The current, as `0.50 A`, `from: [0.50 A, 1.00 A]`, or `between: [0.20 A, 1.00 A]` with `step: 0.05 A`.",
    )
    time: Annotated[Drawn | None, Measures("s")] = Field(None, description="The time, as `30 min`, or several to draw from.")
    mass: Annotated[Drawn | None, Measures("g")] = Field(
        None, description="The mass deposited, as `1.20 g`, or several to draw from."
    )
    efficiency: Annotated[Drawn | None, Measures("%")] = Field(
        None,
        description="The current efficiency, as `95 %`, or several to draw from. Without it: all the current deposits metal.",
    )

    @model_validator(mode="after")
    def _two_given(self) -> Self:
        given = [name for name in ("current", "time", "mass") if getattr(self, name) is not None]
        if len(given) != 2:
            found = "all three" if given[2:] else f"only `{given[0]}`" if given else "none"
            raise wrong("electrolysis-given", "two of `current`, `time` and `mass`", found, "The third is what is left to find.")
        return self
