"""Scenarios: what is drawn. Kinds are told apart by the key that is present."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal, Self

from pydantic import ConfigDict, Field, model_validator

from saltbridge import units
from saltbridge.bank.electrolysis_scenario import (
    CoatingScenario,
    MixedIonsScenario,
    PlantScenario,
    RefiningScenario,
    SaltBathScenario,
    SeriesScenario,
)
from saltbridge.bank.fields import AtLeastTwo, Drawn, Keys, Measures, QuantityText, Several, key_of
from saltbridge.bank.kinds import Couple, Metal
from saltbridge.bank.told import wrong

METER_STEP = Decimal("0.01")  # V, as a school meter shows
WIDEST_SCATTER = Decimal("0.50")  # V


class GalvanicScenario(Keys):
    """Two half-cells joined to a galvanic cell."""

    metals: Several[Metal] | None = Field(None, description="Metals to draw from, each in a solution of its own ions.")
    couples: Several[Couple] | None = Field(None, description="Couples to draw from, by their id in the table of potentials.")
    half_cells: Literal["different", "same"] = Field(
        "different", description="`same` makes a concentration cell: one metal or couple on both sides."
    )
    concentrations: Annotated[Drawn | None, Measures("mol/L", bare="mol/L", standard=True)] = Field(
        None,
        description="`standard`, or the concentrations to draw from, in mol/L where no unit stands; each dissolved species draws its own.",
    )
    pressures: Annotated[Drawn | None, Measures("bar", standard=True)] = Field(
        None, description="`standard`, or the pressures of gases to draw from, as `from: [0.50 bar, 2.0 bar]`."
    )
    temperature: Annotated[Drawn | None, Measures("°C", positive=False)] = Field(
        None, description="The temperature, as `25 °C`, or several to draw from. Without it: the data sheet's, 25 °C."
    )
    swap_sides: Literal["sometimes", "never", "always"] = Field(
        "sometimes",
        description="Whether the couple with the higher potential also stands on the left: `never`, `always` or `sometimes`.",
    )
    written: Literal["as drawn", "anode left"] = Field(
        "as drawn", description="How the cell diagram is written: as the cell is drawn, or with the anode on the left."
    )

    @model_validator(mode="after")
    def _two_half_cells(self) -> Self:
        chosen = self.metals if self.metals is not None else self.couples
        if chosen is None or (self.metals is not None and self.couples is not None):
            found = "neither" if chosen is None else "both"
            raise wrong("half-cells", "either `metals` or `couples`", found, "As `metals: [Zn, Cu, Ag]`.")
        if self.half_cells == "different" and len(chosen) < 2:
            hint = "For a concentration cell write `half cells: same`."
            raise wrong("half-cells", "two or more to draw from", f"only `{chosen[0]}`", hint)
        if self.half_cells == "same" and (self.concentrations is None or len(self.concentrations.values) < 2):
            hint = "As `concentrations: {from: [0.010, 0.10, 1.0]}`."
            raise wrong("half-cells", "two or more concentrations for a concentration cell", "fewer", hint)
        return self


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


class BenchScenario(Keys):
    """Readings of several metals against one reference metal, as on salt-moistened paper."""

    reference: Metal = Field(description="The metal on the black lead of the meter.")
    metals: AtLeastTwo[Metal] = Field(description="The metals tested against it.")
    scatter: QuantityText = Field("0.02 V", description="How far readings may stray from the model, either way, as `0.02 V`.")
    model: Literal["own ions"] = Field(
        "own ions",
        description="Each metal on paper soaked with a solution of its own ions, so that differences follow the data sheet.",
    )

    @model_validator(mode="after")
    def _sensible(self) -> Self:
        if self.reference in self.metals:
            raise wrong(
                "bench-reference", "test metals other than the reference", f"`{self.reference}` in `metals`", "Take it out."
            )
        printed, unit = units.parse_quantity(self.scatter)
        if not unit or not units.same_dimension(unit, "V"):
            raise wrong("quantity-kind", "`scatter` in V or mV", f"`{self.scatter}`", "As `scatter: 0.02 V`.")
        volts = units.convert(printed, unit, "V")
        if not 0 <= volts <= WIDEST_SCATTER or volts % METER_STEP:
            expected = f"a whole number of steps of {METER_STEP} V, at most {WIDEST_SCATTER} V"
            raise wrong("bench-scatter", expected, f"`{self.scatter}`", "As `scatter: 0.02 V`.")
        return self


class Scenario(Keys):
    """What the question is about: exactly one kind."""

    model_config = ConfigDict(json_schema_extra={"minProperties": 1, "maxProperties": 1})

    galvanic_cell: GalvanicScenario | None = Field(None, description="Two half-cells joined to a cell that gives a current.")
    electrolysis: ElectrolysisScenario | None = Field(None, description="A metal deposited by a current.")
    bench: BenchScenario | None = Field(None, description="Readings of metals against a reference metal on the bench.")
    salt_bath: SaltBathScenario | None = Field(None, description="A salt electrolysed, molten or in water.")
    coating: CoatingScenario | None = Field(None, description="An object coated with a metal.")
    cells_in_series: SeriesScenario | None = Field(None, description="Two products of the same electrons.")
    works: PlantScenario | None = Field(None, description="A works that makes a product: energy and cost.")
    refining: RefiningScenario | None = Field(None, description="An impure anode refined.")
    mixed_ions: MixedIonsScenario | None = Field(None, description="Ions of two metals in one solution.")

    @model_validator(mode="after")
    def _one_kind(self) -> Self:
        if len(self._present) != 1:
            expected = "exactly one kind of scenario, such as `galvanic cell`, `electrolysis` or `bench`"
            raise wrong("scenario-kind", expected, f"{len(self._present)} of them" if self._present else "none of them")
        return self

    @property
    def _present(self) -> list[str]:
        return [name for name in type(self).model_fields if getattr(self, name) is not None]

    @property
    def kind(self) -> str:
        """The key that is present, such as ``galvanic cell``."""
        return key_of(self._present[0])

    @property
    def body(self) -> Keys:
        """What stands under that key."""
        body: Keys = getattr(self, self._present[0])
        return body
