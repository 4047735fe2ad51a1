"""Scenarios of corrosion: joined metals, scratched coatings, protection, anode blocks, corroding surfaces, rust."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from saltbridge.forms.fields import Drawn, Keys, Measures, Several, Text, known_word
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Metal, listed
from saltbridge.tables.corrosion import seawater

MaterialWord = Annotated[
    Text, listed(lambda word: known_word(word, seawater(), "unknown-material", "a material of the sea-water series"), seawater)
]
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
