"""Scenarios of corrosion: joined metals, scratched coatings, protection, anode blocks, corroding surfaces, rust."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.forms.fields import AtLeastTwo, Drawn, Keys, Measures, Several, Text, known_word
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Metal, listed
from saltbridge.tables import metals
from saltbridge.tables.corrosion import rust_tubes, seawater

MaterialWord = Annotated[
    Text, listed(lambda word: known_word(word, seawater(), "unknown-material", "a material of the sea-water series"), seawater)
]
TubeWord = Annotated[Text, listed(lambda word: known_word(word, rust_tubes(), "unknown-tube", "a tube of the table"), rust_tubes)]
Current = Annotated[Drawn | None, Measures("A")]
Time = Annotated[Drawn | None, Measures("s")]
Gap = Annotated[Drawn | None, Measures("V")]


class JoinedMetalsScenario(Keys):
    """Two metals that touch in a wet place: which of them corrodes."""

    metals: Several[Metal] | None = Field(None, description="Metals to draw two from, compared by the data sheet.")
    materials: Several[MaterialWord] | None = Field(
        None, description="Materials of the sea-water series to draw two from, such as carbon-steel."
    )
    compare: Literal["one table", "both tables"] = Field(
        "one table", description="`both tables`: metals that stand in the data sheet and the sea-water series, compared by both."
    )
    gap: Gap = Field(None, description="The least gap between the two, as `0.10 V`.")

    @model_validator(mode="after")
    def _one_list(self) -> Self:
        if (self.metals is None) == (self.materials is None):
            raise wrong("joined-metals", "either `metals` or `materials`", "both" if self.metals else "neither")
        if len(self.metals or self.materials or ()) < 2:
            raise wrong("joined-metals", "two or more to draw from", "only one")
        if self.compare == "both tables":
            known = {each.metal for each in seawater().values() if each.metal}
            missing = [symbol for symbol in self.metals or () if symbol not in known]
            if self.metals is None or missing:
                found = f"`{missing[0]}`" if missing else "`materials`"
                raise wrong("joined-metals", f"`metals` among {', '.join(sorted(known))}", found)
        return self


class ScratchedCoatingScenario(Keys):
    """A metal with a coating of another, scratched down to the metal underneath."""

    base: Metal = Field("Fe", description="The metal underneath.")
    coatings: Several[Metal] = Field(description="Metals of the coating to draw one from; `coatings` can be put in order.")

    @model_validator(mode="after")
    def _no_film(self) -> Self:
        for symbol in self.coatings:
            if symbol == self.base:
                raise wrong("coatings", "coatings of another metal", f"`{symbol}`", "Take it out.")
            if metals()[symbol].film == "yes":
                raise wrong(
                    "R-FILM", "metals without an oxide film, whose place in the table decides", f"`{symbol}`", "Take it out."
                )
        return self


class ProtectionScenario(Keys):
    """A structure, metals that may be fixed to it, one of which protects it, and a supply as the other way."""

    structure: Metal = Field("Fe", description="The metal of the structure.")
    protecting_metals: AtLeastTwo[Metal] = Field(
        description="Metals to draw from; only one of those drawn lies below the structure."
    )
    shown: Literal["2", "3", "4"] = Field("3", description="How many of them the question shows.")

    @model_validator(mode="after")
    def _enough(self) -> Self:
        if len(self.protecting_metals) < int(self.shown) or self.structure in self.protecting_metals:
            raise wrong(
                "protecting-metals", f"{self.shown} or more metals other than the structure", f"{len(self.protecting_metals)}"
            )
        return self


class AnodeBlockScenario(Keys):
    """A block of sacrificial metal. Two of current, time and block are given; the third is left to find."""

    metals: Several[Metal] = Field(description="Metals of the block to draw from, such as Zn, Mg, Al.")
    current: Current = Field(None, description="The protecting current, as `0.50 A`.")
    time: Time = Field(None, description="How long it protects, as `10 y`.")
    block: Annotated[Drawn | None, Measures("g")] = Field(None, description="Mass of the block, as `12 kg`.")
    usable: Annotated[Drawn, Measures("%")] = Field(description="The share of the block that can be used, as `90 %`.")

    @model_validator(mode="after")
    def _two_given(self) -> Self:
        given = [name for name in ("current", "time", "block") if getattr(self, name) is not None]
        if len(given) != 2:
            found = "all three" if given[2:] else f"only `{given[0]}`" if given else "none"
            raise wrong("block-given", "two of `current`, `time` and `block`", found, "The third is what is left to find.")
        return self


class CorrodingSurfaceScenario(Keys):
    """A surface that corrodes evenly at a known current density."""

    metals: Several[Metal] = Field(description="Metals to draw from, such as Fe.")
    current_density: Annotated[Drawn, Measures("A/cm2")] = Field(description="The corrosion current density, as `10 uA/cm2`.")
    area: Annotated[Drawn, Measures("cm2")] = Field(description="The area that corrodes, as `2.0 m2`.")
    time: Annotated[Drawn, Measures("s")] = Field(description="How long, as `1 y`.")


class RustingScenario(Keys):
    """Iron in water with air: equations of rusting, and potentials at a pH."""

    pH: Drawn | None = Field(None, description="The pH, a number without unit, as `from: [5.0, 7.0, 9.0]`.")
    iron_ions: Annotated[Drawn | None, Measures("mol/L", bare="mol/L")] = Field(
        None, description="Concentration of iron(II) ions."
    )
    oxygen: Annotated[Drawn | None, Measures("bar")] = Field(None, description="Pressure of oxygen, as `0.21 bar`.")
    equations: Literal["neutral", "acid"] = Field("neutral", description="In which water the half-equation of oxygen is written.")

    @model_validator(mode="after")
    def _plain_ph(self) -> Self:
        for printed, unit in self.pH.values if self.pH else ():
            if unit or not 0 <= float(printed) <= 14:
                raise wrong("pH", "`pH` from 0 to 14, without unit", f"`{printed} {unit}`".replace(" `", "`"))
        return self


class RustingTubesScenario(Keys):
    """Iron in a tube: with or without air and water."""

    tubes: Several[TubeWord] = Field(description="Tubes to draw one from, by their id in rust_tubes.csv, such as boiled-water.")
