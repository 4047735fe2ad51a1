"""The scenario of two readings of a cell under load."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from saltbridge.forms.fields import Drawn, Keys, Measures


class ReadingsScenario(Keys):
    """Two readings of current and terminal voltage of one cell, from which its potential and resistance are found."""

    potential: Annotated[Drawn, Measures("V")] = Field(description="The potential behind the readings.")
    internal_resistance: Annotated[Drawn, Measures("ohm")] = Field(description="The internal resistance behind the readings.")
    first_current: Annotated[Drawn, Measures("A")] = Field(description="The current of the first reading.")
    second_current: Annotated[Drawn, Measures("A")] = Field(description="The current of the second reading.")
    scatter: Annotated[Drawn | None, Measures("V")] = Field(
        None, description="How far both voltages may stray, either way, as `0.01 V`. Without it they lie on the line."
    )
