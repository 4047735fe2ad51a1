"""Scenarios of concentration, pH and gases: one electrode, lines of potentials, cells that run down or are changed, quotients."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.forms.fields import Drawn, Keys, Measures, Several, Text, YesNo, known_word
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Couple, Metal, listed
from saltbridge.scenarios.concentration.changes import CHANGES


class PlainNumbers(Measures):
    """Lets a plain number stand alone or in a list, such as a pH or a factor, within bounds."""

    def __init__(self, low: float, high: float) -> None:
        super().__init__("")
        self.low, self.high = low, high

    def _check(self, drawn: Drawn | None) -> Drawn | None:
        for printed, unit in drawn.values if drawn else ():
            if unit:
                raise wrong("quantity-kind", "a plain number", f"`{printed} {unit}`", "Leave the unit out.")
            if not self.low <= float(printed) <= self.high:
                raise wrong("quantity-range", f"a number from {self.low:g} to {self.high:g}", f"`{printed}`")
        return drawn


Concentrations = Annotated[Drawn, Measures("mol/L", bare="mol/L")]
Change = Annotated[
    Text, listed(lambda word: known_word(word, CHANGES, "unknown-change", "a change that the tool knows"), lambda: CHANGES)
]
WARM = "The temperature, as `40 °C`, or several to draw from. Without it: the data sheet's, 25 °C."


class ElectrodeScenario(Keys):
    """One electrode and its potential against the hydrogen electrode."""

    metals: Several[Metal] | None = Field(None, description="Metals to draw from, each in a solution of its own ions.")
    couples: Several[Couple] | None = Field(None, description="Couples to draw from, by their id in the table of potentials.")
    concentrations: Annotated[Drawn | None, Measures("mol/L", bare="mol/L", standard=True)] = Field(
        None, description="Concentrations to draw from; each dissolved species but H^+ and OH^- with a pH draws its own."
    )
    pressures: Annotated[Drawn | None, Measures("bar", standard=True)] = Field(
        None, description="Pressures of gases to draw from, as `from: [50 kPa, 200 kPa]` or in bar."
    )
    pH: Annotated[Drawn | None, PlainNumbers(-1, 15)] = Field(None, description="The pH, or several to draw from.")
    temperature: Annotated[Drawn | None, Measures("°C", positive=False)] = Field(None, description=WARM)
    shift_with_temperature: YesNo = Field(
        False, description="Move the standard potential to the temperature by its temperature coefficient."
    )

    @model_validator(mode="after")
    def _one_choice(self) -> Self:
        if (self.metals is None) == (self.couples is None):
            found = "neither" if self.metals is None else "both"
            raise wrong("half-cells", "either `metals` or `couples`", found, "As `couples: [H^+/H2]`.")
        return self


class LineScenario(Keys):
    """Two points of the straight line of one electrode's potential."""

    couples: Several[Couple] = Field(description="Couples to draw from.")
    against: Literal["lg c", "pH"] = Field(description="What the potential is drawn against.")
    concentrations: Annotated[Drawn | None, Measures("mol/L", bare="mol/L")] = Field(
        None, description="Concentrations of the oxidised ion; two are drawn. For `against: lg c`."
    )
    pH: Annotated[Drawn | None, PlainNumbers(-1, 15)] = Field(None, description="Values of pH; two are drawn. For `against: pH`.")

    @model_validator(mode="after")
    def _its_axis(self) -> Self:
        drawn = self.concentrations if self.against == "lg c" else self.pH
        key = "concentrations" if self.against == "lg c" else "pH"
        if drawn is None or len(drawn.values) < 2:
            raise wrong("line-points", f"`{key}` with two values or more", "fewer", f"As `{key}: {{from: [0.010, 1.0]}}`.")
        return self


class RunningScenario(Keys):
    """A cell of two metals that has delivered current for a while, with equal volumes on both sides."""

    metals: Several[Metal] = Field(description="Two or more metals to draw from.")
    start_at_cathode: Concentrations = Field(description="Concentration of the ion that is used up, at the start.")
    start_at_anode: Concentrations = Field(description="Concentration of the ion that is made, at the start.")
    reacted: Annotated[Drawn, Measures("%")] = Field(description="How much of the ion is used up, as `90 %`, below 100 %.")
    swap_sides: Literal["sometimes", "never", "always"] = Field("sometimes", description="As in a `galvanic cell`.")

    @model_validator(mode="after")
    def _below_all(self) -> Self:
        if len(self.metals) < 2:
            raise wrong("half-cells", "two metals or more", f"only `{self.metals[0]}`")
        for printed, unit in self.reacted.values:
            if float(printed) >= 100:
                raise wrong("quantity-range", "`reacted` below 100 %", f"`{printed} {unit}`", "As `99.9 %`.")
        return self


class ChangedScenario(Keys):
    """One change made to a working cell of two metals, and which way its potential goes."""

    metals: Several[Metal] = Field(description="Two or more metals to draw from.")
    changes: Several[Change] = Field(description="Changes to draw from, such as `dilute the cathode` or `larger plates`.")
    factor: Annotated[Drawn | None, PlainNumbers(1.001, 10_000)] = Field(
        None, description="How many times the solution is diluted, as `10`; gives `dE_shift`. Only with changes that dilute."
    )
    concentrations: Annotated[Drawn | None, Measures("mol/L", bare="mol/L", standard=True)] = Field(
        None, description="Concentrations before the change; without them standard."
    )
    swap_sides: Literal["sometimes", "never", "always"] = Field("sometimes", description="As in a `galvanic cell`.")

    @model_validator(mode="after")
    def _dilutes(self) -> Self:
        if len(self.metals) < 2:
            raise wrong("half-cells", "two metals or more", f"only `{self.metals[0]}`")
        if self.factor is not None and (others := [each for each in self.changes if not each.startswith("dilute")]):
            raise wrong("change-factor", "only changes that dilute beside `factor`", f"`{others[0]}`", "Leave one of them out.")
        return self


class QuotientScenario(Keys):
    """A working cell whose reaction quotient is to be written."""

    couples: Several[Couple] = Field(description="Two or more couples to draw from.")
    swap_sides: Literal["sometimes", "never", "always"] = Field("sometimes", description="As in a `galvanic cell`.")

    @model_validator(mode="after")
    def _two(self) -> Self:
        if len(self.couples) < 2:
            raise wrong("half-cells", "two couples or more", f"only `{self.couples[0]}`")
        return self
