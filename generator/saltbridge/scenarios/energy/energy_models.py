"""Scenarios of energy and equilibrium: the energy of a cell, formation energies, and constants from two potentials."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.forms.fields import Drawn, Keys, Measures, Several, Text, YesNo, known_word
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Couple, Metal, listed
from saltbridge.scenarios.concentration.concentration_models import WARM, PlainNumbers
from saltbridge.tables.choices_of_couples import bound_couples


def _of(kind: Literal["salt", "complex", "water"]) -> tuple[str, ...]:
    """The couples of a kind."""
    return tuple(couple for couple, each in bound_couples().items() if each.kind == kind)


Salt = Annotated[
    Text,
    listed(lambda word: known_word(word, _of("salt"), "unknown-couple", "the couple of a salt"), lambda: _of("salt")),
]
Complex = Annotated[
    Text,
    listed(lambda word: known_word(word, _of("complex"), "unknown-couple", "the couple of a complex"), lambda: _of("complex")),
]
Water = Annotated[
    Text,
    listed(lambda word: known_word(word, _of("water"), "unknown-couple", "a couple of water"), lambda: _of("water")),
]


class EnergyScenario(Keys):
    """A working cell at standard concentrations and its energy: signs, entropy, multiples, work, and how sure K is."""

    metals: Several[Metal] | None = Field(None, description="Metals to draw from, each in a solution of its own ions.")
    couples: Several[Couple] | None = Field(None, description="Couples to draw from, by their id in the table of potentials.")
    swap_sides: Literal["sometimes", "never", "always"] = Field("sometimes", description="As in a `galvanic cell`.")
    heat: YesNo = Field(False, description="Bring in the temperature coefficients: gives `dEdT_cell`, `dS0` and `dH0`.")
    temperature: Annotated[Drawn | None, Measures("°C", positive=False)] = Field(
        None, description=WARM + " With `heat` the potentials of 25 °C are moved to it."
    )
    times: Annotated[Drawn | None, PlainNumbers(1, 20)] = Field(
        None, description="Factor by which the equation is multiplied, as `2`: gives `dG0_times`, `lgK_times`, `E0_times`."
    )
    anode_mass: Annotated[Drawn | None, Measures("g")] = Field(
        None, description="Mass of the anode's metal that is used up, as `5.0 g`: gives `w_max`."
    )

    @model_validator(mode="after")
    def _one_choice(self) -> Self:
        if (self.metals is None) == (self.couples is None):
            found = "neither" if self.metals is None else "both"
            raise wrong("half-cells", "either `metals` or `couples`", found, "As `metals: [Zn, Cu, Ag]`.")
        chosen = self.metals or self.couples or ()
        if len(chosen) < 2:
            raise wrong("half-cells", "two or more to draw from", f"only `{chosen[0]}`")
        if self.anode_mass is not None and self.metals is None:
            raise wrong("anode-mass", "`metals` beside `anode mass`", "`couples`")
        return self


class ConstantScenario(Keys):
    """An equilibrium constant from two potentials of the sheet: of a salt, of a complex, or of water."""

    salts: Several[Salt] | None = Field(None, description="Couples of salts to draw from, such as AgCl/Ag: gives `Ksp`.")
    complexes: Several[Complex] | None = Field(None, description="Couples of complexes, such as [Ag(NH3)2]^+/Ag: gives `Kf`.")
    water: Several[Water] | None = Field(None, description="H2O/H2 or O2/OH^-: gives `Kw`.")
    anion: Annotated[Drawn | None, Measures("mol/L", bare="mol/L")] = Field(
        None, description="Concentration of the anion over a salt of one cation and one anion: gives `c_over`."
    )

    @model_validator(mode="after")
    def _one_kind(self) -> Self:
        told = [each for each in (self.salts, self.complexes, self.water) if each is not None]
        if len(told) != 1:
            raise wrong("constant-kind", "one of `salts`, `complexes` and `water`", f"{len(told)} of them")
        if self.anion is not None and self.salts is None:
            raise wrong("constant-kind", "`salts` beside `anion`", "another kind")
        return self
