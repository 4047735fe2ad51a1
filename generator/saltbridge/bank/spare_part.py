"""A part that asks which of the data an answer does not need."""

from __future__ import annotations

from typing import ClassVar

from pydantic import Field

from saltbridge.bank.part_base import PartKeys
from saltbridge.forms.fields import AtLeastTwo, Name


class SparePart(PartKeys):
    """The datum to pick that nothing on the way to an answer uses."""

    not_needed_for: Name = Field(description="The quantity whose derivation decides, such as `m`.")
    data: AtLeastTwo[Name] = Field(
        alias="from", description="Data of the text, as `[I, t, T]`; exactly one of them is not needed."
    )
    unit: ClassVar[None] = None
    figures: ClassVar[None] = None
    decimals: ClassVar[None] = None

    @property
    def find(self) -> str:
        """The quantity whose derivation decides."""
        return self.not_needed_for
