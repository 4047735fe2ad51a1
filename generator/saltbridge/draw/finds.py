"""What a part asks to find: its node, its unit and how it is to be rounded where the template does not say."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from statistics import mode

from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.parts import FindPart
from saltbridge.bank.spare_part import SparePart
from saltbridge.bank.template import Template
from saltbridge.bank.wrong_step_part import WrongStepPart
from saltbridge.catalogue.catalogue import Catalogue, Quantity
from saltbridge.faults import Faulty
from saltbridge.graph.laws import quantity_of
from saltbridge.graph.routes import Asked
from saltbridge.sigfigs import decimals_of
from saltbridge.tables import Sheet

Asking = FindPart | WrongStepPart | EstimatePart | SparePart
"""Parts that are about one number, which they ask for, lead to, let estimate or find data needless for."""


@dataclass(frozen=True, slots=True)
class Find:
    """One number to find: the node asked for (in its unit) and how it is to be given."""

    name: str
    node: str
    unit: str
    asked: Asked


@dataclass
class Finder:
    """Reads the parts of one template, each wording once."""

    template: Template
    sheet: Sheet
    catalogue: Catalogue
    _finds: dict[str, Find] = field(default_factory=dict)

    def find(self, part: Asking) -> Find:
        """What a part asks for. Raises ``Faulty`` (``unknown-quantity``)."""
        key = f"{part.find} in {part.unit} to {part.figures} or {part.decimals}"
        known = self._finds.get(key)
        if known is None:
            known = self._finds[key] = self._found(part)
        return known

    def _found(self, part: Asking) -> Find:
        quantity = quantity_of(part.find, self.catalogue.quantities)
        if quantity is None:
            raise Faulty(
                [self.template.fault("parts", "unknown-quantity", expected="a quantity such as E0_cell", found=part.find)]
            )
        unit = part.unit if part.unit is not None else quantity.show
        node = part.find if unit == quantity.unit else f"{part.find}:{unit}"
        return Find(part.find, node, unit, self.asked(part, quantity, unit))

    def asked(self, part: Asking, quantity: Quantity, unit: str) -> Asked:
        """How a quantity is to be given in a unit."""
        log = quantity.flags.by_logarithm
        if quantity.whole:
            return Asked(decimals=0, whole=True)
        if part.decimals is not None or part.figures is not None:
            return Asked(part.figures, part.decimals, log)
        if quantity.flags.judged == "to one decimal":
            return Asked(decimals=1)
        if unit == "V" and not log:
            return Asked(decimals=self._volt_decimals)
        return Asked(figures=2 if log else 3, log=log)

    @cached_property
    def _volt_decimals(self) -> int:
        """The decimals that most potentials of the sheet have."""
        return mode(decimals_of(row.E0) for row in self.sheet.rows)
