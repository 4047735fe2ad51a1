"""Parts that are typed in the notation of chemistry: a species, a cell diagram, the expression for Q or K."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from saltbridge.bank.answer_keys import STATES, SpeciesKeys
from saltbridge.bank.part_base import PartKeys
from saltbridge.forms.fields import YesNo


class SpeciesPart(SpeciesKeys, PartKeys):
    """A formula to type, with its charge."""


class DiagramPart(PartKeys):
    """A cell diagram to type, anode on the left."""

    diagram: Literal["cell"] = Field(description="Whose diagram: that of the `cell`.")
    states: YesNo = Field(False, description=STATES)
    concentrations: YesNo = Field(
        False, description="Whether concentrations and pressures are asked for; of one couple in two solutions they always are."
    )


class ExpressionPart(PartKeys):
    """The expression for the reaction quotient or the equilibrium constant of the scenario's equation, to type."""

    expression: Literal["Q", "K"] = Field(
        description="`Q`, or `K` for concentrations and pressures at equilibrium, of the scenario's equation."
    )
