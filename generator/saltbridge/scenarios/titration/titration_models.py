"""Scenarios of redox titration: from a titre to a concentration or mass, and the potential along the curve."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty
from saltbridge.forms.fields import Drawn, Keys, Measures, Several, Text, Whole, known_word
from saltbridge.forms.validation_messages import carried, wrong
from saltbridge.forms.value_types import Couple, listed
from saltbridge.scenarios.titration.titration import mole_ratio
from saltbridge.tables.formal_potentials import acids
from saltbridge.tables.indicators import indicators

Volume = Annotated[Drawn | None, Measures("cm3")]
Concentration = Annotated[Drawn | None, Measures("mol/L", bare="mol/L")]
Mass = Annotated[Drawn | None, Measures("g")]
Indicator = Annotated[
    Text,
    listed(
        lambda word: known_word(word, indicators(), "unknown-indicator", "an indicator of the table"), lambda: tuple(indicators())
    ),
]
Acid = Annotated[Text, listed(lambda word: known_word(word, acids(), "unknown-acid", "an acid of formal_potentials.csv"), acids)]
MOST_RUNS = 6


class TitrationScenario(Keys):
    """A redox titration; the titre or the concentration of the analyte is given, the other is left to find."""

    titrant: Text = Field(description="The species in the burette, as `MnO4^-`.")
    analyte: Text = Field(description="The species titrated, as `Fe^2+`.")
    reactions: Several[Text] = Field(
        description="The reaction before balancing; two where the analyte first makes what is titrated, as iodine."
    )
    medium: Literal["acid", "base"] = Field("acid", description="Whether H⁺ (`acid`) or OH⁻ (`base`) is at hand.")
    concentration_of_titrant: Concentration = Field(None, description="The concentration in the burette, in mol/L.")
    titre: Volume = Field(None, description="The titre, as `21.35 cm3`, or several to draw from.")
    runs: Whole = Field(0, description="How many runs are given around the titre, the first of them rough; 0 for the mean alone.")
    aliquot: Volume = Field(None, description="The volume of analyte in the flask, as `25.00 cm3`.")
    made_up_to: Volume = Field(None, description="The volume that the sample was made up to, as `250.0 cm3`.")
    concentration_of_analyte: Concentration = Field(
        None, description="The concentration of the analyte, where the titre is sought."
    )
    weighed: Text | None = Field(None, description="What the mass is about, as `Fe`: one of it for each particle of analyte.")
    mass_of_sample: Mass = Field(None, description="The mass of the sample, for a mass fraction.")

    @model_validator(mode="after")
    def _fits(self) -> Self:
        if (self.titre is None) == (self.concentration_of_analyte is None):
            raise wrong("titration", "either `titre` or `concentration of analyte`", "both or neither")
        if self.runs and (self.titre is None or not 3 <= self.runs <= MOST_RUNS):
            raise wrong("runs", f"3 to {MOST_RUNS} runs beside a `titre`", f"{self.runs}")
        if len(self.reactions) > 2:
            raise wrong("reactions", "one reaction, or two that share a species", f"{len(self.reactions)}")
        try:
            mole_ratio(self.reactions, self.titrant, self.analyte, self.medium)
            if self.weighed:
                parse_species(self.weighed)
        except Faulty as trouble:
            raise carried(trouble) from None
        return self


class CurveScenario(Keys):
    """The potential in the flask during a redox titration of two couples with one particle on each side."""

    titrant: Couple = Field(description="The couple in the burette, by id, as `Ce^4+/Ce^3+`.")
    analyte: Couple = Field(description="The couple titrated, by id, as `Fe^3+/Fe^2+`.")
    acid: Acid | None = Field(
        None,
        description="The acid, 1 mol/L, whose formal potentials are given, as `sulfuric acid`; without it the sheet's count.",
    )
    equivalence: Annotated[Drawn, Measures("cm3")] = Field(description="The titre, as `25.00 cm3`, or several to draw from.")
    before: Volume = Field(None, description="Volumes added before equivalence, to draw from.")
    after: Volume = Field(None, description="Volumes added beyond equivalence, to draw from.")
    pH: Several[Text] | None = Field(None, description="pH in the flask, where the titrant takes hydrogen ions; `0` without it.")
    indicators: Several[Indicator] | None = Field(None, description="Indicators to choose from; one must change within the step.")
    readings: Whole = Field(0, description="How many readings of the curve are given around equivalence; 0 for none.")

    @model_validator(mode="after")
    def _fits(self) -> Self:
        if self.readings and not 5 <= self.readings <= 12:
            raise wrong("readings", "5 to 12 readings", f"{self.readings}")
        for value in self.pH or ():
            if not value.replace(".", "", 1).isdecimal() or float(value) > 7:
                raise wrong("pH", "a pH from 0 to 7", f"`{value}`")
        return self
