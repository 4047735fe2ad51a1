"""A part that asks for a rough value before the number is worked out."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from saltbridge.bank.part_base import PartKeys
from saltbridge.forms.fields import Name
from saltbridge.forms.value_types import UnitText


class EstimatePart(PartKeys):
    """The size or the sign of a number to choose, before it is worked out."""

    estimate: Name = Field(description="The quantity to estimate, such as `m`; its number may be asked for in a later part.")
    unit: UnitText | None = Field(None, alias="in", description="The unit of the options, such as `mg`.")
    by: Literal["size", "sign"] = Field(
        "size", description="What is chosen: the `size`, between two powers of ten, with its sign; or the `sign` alone."
    )
    figures: ClassVar[None] = None
    decimals: ClassVar[None] = None

    @property
    def find(self) -> str:
        """The quantity that is estimated."""
        return self.estimate
