"""Scenarios of electrolysis beyond one metal laid down: baths of a salt, coatings, cells in series, plants, refining, mixed ions."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.forms.fields import Drawn, Keys, Measures, Several, Text, Whole, known_word
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import listed
from saltbridge.scenarios.bath.products import is_lye
from saltbridge.tables import metals
from saltbridge.tables.choices_of_couples import bath_products
from saltbridge.tables.electrolytes import electrolytes

INERT = "inert"

Salt = Annotated[Text, listed(lambda word: known_word(word, electrolytes(), "unknown-salt", "a salt of the table"), electrolytes)]
Electrode = Annotated[
    Text,
    listed(
        lambda word: known_word(word, (INERT, *metals()), "unknown-electrode", "`inert` or the symbol of a metal"),
        lambda: (INERT, *metals()),
    ),
]
Product = Annotated[
    Text,
    listed(
        lambda word: known_word(word, (*bath_products(), *metals()), "unknown-product", "a metal, a gas, a halogen, NaOH or KOH"),
        lambda: (*bath_products(), *metals()),
    ),
]
Current = Annotated[Drawn | None, Measures("A")]
Time = Annotated[Drawn | None, Measures("s")]
Mass = Annotated[Drawn | None, Measures("g")]
Share = Annotated[Drawn | None, Measures("%")]
Volts = Annotated[Drawn | None, Measures("V")]


class SaltBathScenario(Keys):
    """A salt is electrolysed, molten or in water; what forms follows from potentials and the rules of discharge."""

    salts: Several[Salt] = Field(description="Salts to draw from, by formula, such as CuSO4.")
    state: Literal["molten", "aqueous"] = Field(description="Molten, or dissolved in water.")
    electrodes: Several[Electrode] = Field(
        (INERT,), description="`inert`, or metals that an anode of theirs dissolves, such as Cu; several to draw from."
    )
    concentration: Annotated[Drawn | None, Measures("mol/L", bare="mol/L")] = Field(
        None, description="Concentration of the salt; needed for chlorides in water: 1 mol/L and more, or 0.01 mol/L and less."
    )
    amounts_of: Literal["cathode", "anode"] = Field(
        "cathode",
        description="At which electrode the product is that `m`, `n_B` and `V_gas` are about; the other has `m_2`, `V_gas_2`.",
    )
    current: Current = Field(None, description="The current, as `0.50 A`, or several to draw from.")
    time: Time = Field(None, description="The time, as `30 min`, or several to draw from.")
    efficiency: Share = Field(None, description="The current efficiency; without it all the current does its work.")
    temperature: Annotated[Drawn | None, Measures("°C", positive=False)] = Field(None, description="Temperature of the gas.")
    pressure: Annotated[Drawn | None, Measures("kPa")] = Field(
        None, description="Pressure of the gas. Without pressure and temperature: the molar volume that the data sheet prints."
    )
    volume: Annotated[Drawn | None, Measures("dm3")] = Field(None, description="Volume of the solution, for what is left in it.")
    supply: Volts = Field(None, description="Voltage of the supply, to compare with the lowest that can work.")
    voltage_raised: Whole | None = Field(None, description="How many times the voltage is raised while the current is held.")

    @model_validator(mode="after")
    def _in_its_state(self) -> Self:
        for formula in self.salts:
            salt = electrolytes()[formula]
            if not (salt.molten if self.state == "molten" else salt.aqueous):
                raise wrong("salt-state", f"salts that are electrolysed {self.state}", f"`{formula}`", "Take it out.")
            if self.state == "aqueous" and salt.anion == "Cl^-" and INERT in self.electrodes and self.concentration is None:
                hint = "As `concentration: {from: [2.0, 4.0]}`, see rule R-CL."
                raise wrong("R-CL", f"`concentration` beside `{formula}`", "none", hint)
        if self.state == "molten" and self.electrodes != (INERT,):
            raise wrong("electrodes", "`electrodes: [inert]` in a melt", "a metal", "Leave `electrodes` out.")
        for symbol in self.electrodes:
            if symbol != INERT and metals()[symbol].water_reactive:
                raise wrong("R-WATER", "an anode that lasts in water", f"`{symbol}`", "Take it out.")
        return self


class SeriesScenario(Keys):
    """The same electrons make two products: cells in series, the electrodes of one cell, or the products of brine."""

    first: Several[Product] = Field(description="The first product, to draw from; `m`, `z`, `M`, `n_B` are about it.")
    second: Several[Product] = Field(description="The second product, to draw from; `m_2`, `z_2`, `M_2`, `n_2` are about it.")
    joined: Literal["in series", "one cell"] = Field(
        "in series",
        description="`in series`; or `one cell`: the first metal dissolves and the second deposits, so its potential is higher.",
    )
    mass: Mass = Field(None, description="Mass of the first product. Without it, current and time.")
    current: Current = Field(None, description="The current through both.")
    time: Time = Field(None, description="The time.")

    @model_validator(mode="after")
    def _given(self) -> Self:
        if (self.mass is None) == (self.current is None) or (self.current is None) != (self.time is None):
            raise wrong("series-given", "either `mass`, or `current` and `time`", "another mixture")
        if any(is_lye(word) for word in self.first):
            raise wrong("series-first", "a metal, gas or halogen as `first`", "a lye", "Make it `second`.")
        return self
