"""Scenarios of standard potentials: rows of the table, a reaction to judge, a reagent, steps of reduction, another reference."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.forms.fields import AtLeastTwo, Keys, Several, Text, Whole, known_word
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Couple, Metal, listed
from saltbridge.tables import metals
from saltbridge.tables.benches import reference_electrodes

FEWEST, MOST = 3, 8  # rows of a short list

ReferenceName = Annotated[
    Text,
    listed(
        lambda word: known_word(
            word, (*reference_electrodes(), *metals()), "unknown-reference", "a reference electrode or the symbol of a metal"
        ),
        lambda: (*reference_electrodes(), *metals()),
    ),
]


class TableScenario(Keys):
    """A short table of potentials, to be compared and ranked."""

    metals: AtLeastTwo[Metal] | None = Field(None, description="Metals to draw from; each brings the couple of its usual ion.")
    couples: AtLeastTwo[Couple] | None = Field(None, description="Couples to draw from, by their id in the table of potentials.")
    rows: Whole = Field(4, description=f"How many of them make the table, {FEWEST} to {MOST}.")
    print_order: Literal["upward", "downward", "either", "shuffled"] = Field(
        "shuffled", description="How the rows stand on the page: potentials rising, falling, one or the other, or mixed."
    )

    @model_validator(mode="after")
    def _enough(self) -> Self:
        chosen = _one_list(self.metals, self.couples)
        if not FEWEST <= self.rows <= min(MOST, len(chosen)):
            raise wrong("rows", f"`rows` from {FEWEST} to {min(MOST, len(chosen))}", f"{self.rows}")
        return self


class ReagentScenario(Keys):
    """A reagent that oxidises one thing and spares another."""

    couples: AtLeastTwo[Couple] = Field(description="Couples to draw the two things and the reagents from.")
    reagents: Whole = Field(4, description=f"How many reagents to choose from, {FEWEST} to {MOST}.")

    @model_validator(mode="after")
    def _enough(self) -> Self:
        most = min(MOST, len(self.couples) - 2)
        if not FEWEST <= self.reagents <= most:
            raise wrong("rows", f"`reagents` from {FEWEST} to {most}, two couples fewer than `couples`", f"{self.reagents}")
        return self


class StepsScenario(Keys):
    """Two reductions one after the other, such as Cu²⁺ to Cu⁺ to Cu."""

    steps: Several[AtLeastTwo[Couple]] = Field(
        description="Pairs of couples to draw from, as `[[Cu^2+/Cu^+, Cu^+/Cu], [Fe^3+/Fe^2+, Fe^2+/Fe]]`; the second starts where the first ends."
    )

    @model_validator(mode="after")
    def _pairs(self) -> Self:
        long = next((pair for pair in self.steps if len(pair) != 2), None)
        if long:
            raise wrong("steps", "pairs of two couples", f"{len(long)} couples", "As `[Cu^2+/Cu^+, Cu^+/Cu]`.")
        return self


class ReferenceScenario(Keys):
    """Potentials moved to another reference: hydrogen, silver chloride, calomel, or any metal as zero."""

    references: Several[ReferenceName] = Field(
        description="References to draw from: `hydrogen`, `silver chloride`, `calomel` and the like, or symbols of metals."
    )
    metals: AtLeastTwo[Metal] | None = Field(None, description="Metals to draw from; each brings the couple of its usual ion.")
    couples: AtLeastTwo[Couple] | None = Field(None, description="Couples to draw from, by their id in the table of potentials.")
    rows: Whole = Field(2, description=f"How many of them are shown, 1 to {MOST}.")

    @model_validator(mode="after")
    def _enough(self) -> Self:
        chosen = _one_list(self.metals, self.couples)
        if not 1 <= self.rows <= min(MOST, len(chosen)):
            raise wrong("rows", f"`rows` from 1 to {min(MOST, len(chosen))}", f"{self.rows}")
        return self


def _one_list(metals_named: tuple[str, ...] | None, couples: tuple[str, ...] | None) -> tuple[str, ...]:
    """The one list that is there; a complaint where there is none or both."""
    if (metals_named is None) == (couples is None):
        found = "neither" if couples is None else "both"
        raise wrong("couples-or-metals", "either `metals` or `couples`", found, "As `metals: [Zn, Cu, Ag]`.")
    return metals_named or couples or ()
