"""The scenario of a galvanic cell: two half-cells joined."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.forms.fields import Drawn, Keys, Measures, Several, YesNo, key_of
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import BridgeSaltName, Couple, Metal


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
    mass_lost: Annotated[Drawn | None, Measures("g")] = Field(
        None, description="Mass lost by the anode, `m_lost`; what the cathode gains follows. Only with two metals."
    )
    mass_gained: Annotated[Drawn | None, Measures("g")] = Field(
        None, description="Mass gained by the cathode, `m_gained`; what the anode loses follows. Only with two metals."
    )
    amount_dissolved: Annotated[Drawn | None, Measures("mol")] = Field(
        None,
        description="Amount of metal dissolved at the anode, `n_lost`; the charge through the bridge follows as `n_e` and `q`.",
    )
    current: Annotated[Drawn | None, Measures("A")] = Field(None, description="A steady current, with `time`; masses follow.")
    time: Annotated[Drawn | None, Measures("s")] = Field(None, description="How long the current flows.")
    bridge_salts: Several[BridgeSaltName] = Field(
        (), description="Salts to choose from for the bridge; a draw is kept where exactly one fits the cell."
    )
    bridge: BridgeSaltName | None = Field(
        None,
        description="The salt in the bridge, told as `bridge.name`; without it potassium nitrate, which falls out with nothing.",
    )
    voltage_wanted: Annotated[Drawn | None, Measures("V")] = Field(
        None, description="A voltage to be reached with several such cells in series."
    )
    wrong_diagrams: YesNo = Field(
        False, description="Also writes the cell diagram in the usual wrong ways, as `diagram.reversed`, to choose from."
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
        given = [name for name in ("mass_lost", "mass_gained", "amount_dissolved", "current") if getattr(self, name) is not None]
        if len(given) > 1 or (self.current is None) != (self.time is None):
            expected = "one of `mass lost`, `mass gained`, `amount dissolved`, or `current` with `time`"
            raise wrong("passed", expected, ", ".join(f"`{key_of(name)}`" for name in given) or "`time` alone")
        return self
