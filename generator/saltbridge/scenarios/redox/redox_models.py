"""Scenarios of redox foundations: oxidation numbers, changes, equations, the odd one out, displacement."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from saltbridge import units
from saltbridge.catalogue.word_lists import WORD_LISTS
from saltbridge.chemistry.balancing import balance_half, redox_halves
from saltbridge.chemistry.equations import parse_equation, require_balance
from saltbridge.faults import Faulty
from saltbridge.forms.fields import AtLeastTwo, Keys, QuantityText, Several, Text, Whole, YesNo
from saltbridge.forms.validation_messages import carried, wrong
from saltbridge.forms.value_types import Couple, Metal

Medium = Literal["acid", "base"]
MOST_OPTIONS = 6


def _balanced(value: str) -> str:
    try:
        require_balance(parse_equation(value))
    except Faulty as trouble:
        raise carried(trouble) from None
    return value


Balanced = Annotated[Text, AfterValidator(_balanced)]


class ChangeScenario(Keys):
    """Half of a redox reaction: what changes, as oxidation or reduction."""

    changes: Several[Text] = Field(description="Changes to draw from, without water and its ions, as `MnO4^- -> Mn^2+`.")
    medium: Medium = Field("acid", description="Whether H⁺ (`acid`) or OH⁻ (`base`) is at hand.")

    @model_validator(mode="after")
    def _can_be_balanced(self) -> Self:
        for change in self.changes:
            try:
                balance_half(change, self.medium)
            except Faulty as trouble:
                raise carried(trouble) from None
        return self


class RedoxScenario(Keys):
    """A whole redox reaction: skeletons to draw from, or an oxidant and a reductant drawn from couples."""

    reactions: Several[Text] | None = Field(
        None, description="Reactions before balancing, without water and its ions, as `MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+`."
    )
    medium: Medium = Field("acid", description="Whether H⁺ (`acid`) or OH⁻ (`base`) is at hand.")
    oxidants: Several[Couple] | None = Field(None, description="Couples whose oxidised form reacts, by id.")
    reductants: Several[Couple] | None = Field(None, description="Couples whose reduced form reacts, by id.")
    least: QuantityText = Field("0.20 V", description="How far the oxidant's couple lies above the reductant's at least.")

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if (self.reactions is None) == (self.oxidants is None) or (self.oxidants is None) != (self.reductants is None):
            raise wrong("redox", "either `reactions`, or `oxidants` and `reductants`", "another mixture")
        printed, unit = units.parse_quantity(self.least)
        if not unit or not units.same_dimension(unit, "V"):
            raise wrong("quantity-kind", "`least` in V", f"`{printed} {unit}`", "As `least: 0.20 V`.")
        for reaction in self.reactions or ():
            try:
                redox_halves(reaction, self.medium)
            except Faulty as trouble:
                raise carried(trouble) from None
        return self


class OddScenario(Keys):
    """Several equations, of which one is of another kind."""

    wanted: Literal["not redox", "disproportionation"] = Field(description="What the one equation is and the others are not.")
    fitting: Several[Balanced] = Field(description="Balanced equations of the kind wanted; one is drawn.")
    others: AtLeastTwo[Balanced] = Field(description="Balanced equations of another kind; the rest of the options.")
    options: Whole = Field(4, description="How many equations there are to choose from.")

    @model_validator(mode="after")
    def _enough(self) -> Self:
        if not 2 <= self.options <= min(MOST_OPTIONS, len(self.others) + 1):
            expected = f"2 to {min(MOST_OPTIONS, len(self.others) + 1)} options, one more than `others` at most"
            raise wrong("options", expected, f"{self.options}")
        return self


class DisplacementScenario(Keys):
    """Metals put into each other's salt solutions: one test drawn, and the whole grid of results."""

    metals: AtLeastTwo[Metal] = Field(description="The metals; every one is put into the solutions of all others.")
    letters: YesNo = Field(False, description="Whether letters stand for the metals, so that only the grid tells.")

    @model_validator(mode="after")
    def _last_in_water(self) -> Self:
        known = WORD_LISTS["metals that last in water"]
        for symbol in self.metals:
            if not known.has(symbol):
                raise wrong(known.code, known.expected, f"`{symbol}`", "Take it out.")
        return self
