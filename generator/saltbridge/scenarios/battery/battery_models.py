"""Scenarios of batteries, cells under load, electrode materials and fuel cells."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty
from saltbridge.forms.fields import Drawn, Keys, Measures, Several, Text, known_word
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import listed
from saltbridge.tables import elements
from saltbridge.tables.batteries import batteries, fuels

BatteryKind = Annotated[
    Text, listed(lambda word: known_word(word, batteries(), "unknown-battery", "a battery of the table"), batteries)
]
FuelWord = Annotated[Text, listed(lambda word: known_word(word, fuels(), "unknown-fuel", "a fuel of the table"), fuels)]
Current = Annotated[Drawn | None, Measures("A")]
Ohms = Annotated[Drawn | None, Measures("ohm")]
Volts = Annotated[Drawn | None, Measures("V")]
Charge = Annotated[Drawn | None, Measures("C")]
Mass = Annotated[Drawn | None, Measures("g")]
MOST_CELLS = 1000


class BatteryScenario(Keys):
    """One kind of battery with its printed figures: what it is, its plates, its charge and energy, packs of such cells."""

    batteries: Several[BatteryKind] = Field(description="Kinds of battery to draw from, such as lead-acid.")
    capacity: Charge = Field(None, description="Capacity of one cell, as `2400 mAh`, or several to draw from.")
    current: Current = Field(None, description="The current that it gives, or is charged with, as `120 mA`.")
    usable: Annotated[Drawn | None, Measures("%")] = Field(
        None, description="The share of the capacity that can be used, as `85 %`. Without it: all of it."
    )
    mass: Mass = Field(None, description="Mass of the whole cell.")
    internal_resistance: Ohms = Field(None, description="Internal resistance of one cell, as `0.15 ohm`.")
    cells_in_series: Drawn | None = Field(None, description="Cells in series in a pack, as `from: [2, 4, 6]`.")
    parallel_strings: Drawn | None = Field(None, description="Strings of cells side by side in a pack, as `from: [1, 2, 3]`.")

    @model_validator(mode="after")
    def _whole_cells(self) -> Self:
        for name, drawn in (("cells in series", self.cells_in_series), ("parallel strings", self.parallel_strings)):
            for printed, unit in drawn.values if drawn else ():
                if unit or not printed.isdigit() or not 1 <= int(printed) <= MOST_CELLS:
                    raise wrong(
                        "cells", f"`{name}` as whole numbers from 1 to {MOST_CELLS}", f"`{printed} {unit}`".replace(" `", "`")
                    )
        return self


class LoadedCellScenario(Keys):
    """A cell with internal resistance: under a load, at a given current, on charge, or measured open and loaded."""

    potential: Annotated[Drawn, Measures("V")] = Field(description="The cell potential, as the meter shows it without a load.")
    internal_resistance: Ohms = Field(None, description="The internal resistance. Without it: found from `loaded voltage`.")
    load: Ohms = Field(None, description="Resistance of the load.")
    current: Current = Field(None, description="The current, where no load is given.")
    loaded_voltage: Volts = Field(
        None, description="The terminal voltage with the load, where the internal resistance is to be found."
    )

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if self.loaded_voltage is not None:
            if self.internal_resistance is not None or self.current is not None or self.load is None:
                raise wrong("loaded-cell", "`loaded voltage` with `load` alone", "another mixture")
        elif self.internal_resistance is None or (self.load is None) == (self.current is None):
            raise wrong("loaded-cell", "`internal resistance` with either `load` or `current`", "another mixture")
        return self


class ReadingsScenario(Keys):
    """Two readings of current and terminal voltage of one cell, from which its potential and resistance are found."""

    potential: Annotated[Drawn, Measures("V")] = Field(description="The potential behind the readings.")
    internal_resistance: Annotated[Drawn, Measures("ohm")] = Field(description="The internal resistance behind the readings.")
    first_current: Annotated[Drawn, Measures("A")] = Field(description="The current of the first reading.")
    second_current: Annotated[Drawn, Measures("A")] = Field(description="The current of the second reading.")
    scatter: Annotated[Drawn | None, Measures("V")] = Field(
        None, description="How far both voltages may stray, either way, as `0.01 V`. Without it they lie on the line."
    )


def _formula(word: str) -> str:
    """The formula of a material whose atoms are all in the table of elements."""
    try:
        unknown = [symbol for symbol, _ in parse_species(word).atoms if symbol not in elements()]
    except Faulty:
        unknown = [word]
    if unknown:
        raise wrong("unknown-material", "a formula such as Zn, PbO2 or LiC6", f"`{word}`")
    return word


class MaterialScenario(Keys):
    """An electrode material and its theoretical capacity."""

    materials: Several[Text] = Field(
        description="Materials with the electrons of one formula unit, as `Zn 2`, `PbO2 2`, `LiC6 1`."
    )
    mass: Mass = Field(None, description="Mass of the material in the electrode.")

    @model_validator(mode="after")
    def _with_electrons(self) -> Self:
        for each in self.materials:
            formula, _, electrons = each.partition(" ")
            _formula(formula)
            if not electrons.strip().isdigit() or not 1 <= int(electrons) <= 12:
                raise wrong("material-electrons", "a formula and its electrons, 1 to 12", f"`{each}`", "As `Zn 2`.")
        return self

    @property
    def pairs(self) -> tuple[tuple[str, int], ...]:
        """Each material with its electrons."""
        return tuple((formula, int(count)) for formula, _, count in (each.partition(" ") for each in self.materials))


class FuelCellScenario(Keys):
    """A fuel cell with oxygen: its equations, the fuel it uses, its efficiencies."""

    fuels: Several[FuelWord] = Field(description="Fuels to draw from, such as H2 or CH3OH.")
    medium: Literal["acid", "base", "either"] = Field(
        "acid", description="The electrolyte; energies and efficiencies are those of the cell in acid. `either`: drawn."
    )
    current: Current = Field(None, description="The current.")
    time: Annotated[Drawn | None, Measures("s")] = Field(None, description="How long it runs, as `1 h`.")
    voltage: Volts = Field(None, description="The working voltage of one cell, as `0.70 V`.")

    @model_validator(mode="after")
    def _energies_in_acid(self) -> Self:
        if self.voltage is not None and self.medium != "acid":
            raise wrong("fuel-cell", "`voltage` with `medium: acid`", f"`medium: {self.medium}`")
        return self
