"""Quantities without a unit: a pH, a factor, a count to draw."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.forms.fields import Drawn, Measures
from saltbridge.forms.validation_messages import wrong


class PlainNumbers(Measures):
    """Lets a plain number stand alone or in a list, within bounds; "" is no bound."""

    def __init__(self, least: str = "", most: str = "", *, whole: bool = False) -> None:
        super().__init__("")
        self.least, self.most, self.whole = least, most, whole

    def _check(self, drawn: Drawn | None) -> Drawn | None:
        for printed, unit in drawn.values if drawn else ():
            if unit:
                raise wrong("quantity-kind", "a plain number", f"`{printed} {unit}`", "Leave the unit out.")
            if self.whole and not printed.isdigit():
                raise wrong("quantity-kind", "a whole number", f"`{printed}`")
            value = Decimal(printed)
            if (self.least and value < Decimal(self.least)) or (self.most and value > Decimal(self.most)):
                raise wrong("quantity-range", self._range(), f"`{printed}`")
        return drawn

    def _range(self) -> str:
        if self.least and self.most:
            return f"a number from {self.least} to {self.most}"
        return f"a number from {self.least} up" if self.least else f"a number up to {self.most}"
