"""One variant while it is composed: how each of its names reads in print."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from saltbridge.compose.printing import Printer
from saltbridge.document import Inscription, Text
from saltbridge.draw.drawn import Drawn
from saltbridge.faults import fault
from saltbridge.graph import precision
from saltbridge.graph.laws import Given, Rule, Situation, Undefined
from saltbridge.graph.precision import figures
from saltbridge.sigfigs import to_decimals, to_figures

STANDARD_CONCENTRATION = "standard_concentration"
_GUARD = 1  # figures printed beyond those that an intermediate result deserves


@dataclass
class Context:
    """A drawn variant and the bank's way of printing."""

    printer: Printer
    drawn: Drawn
    _digits: dict[str, precision.Measured] = field(default_factory=dict)
    _printed: dict[str, str | Decimal] = field(default_factory=dict)

    @property
    def situation(self) -> Situation:
        """What the variant knows."""
        return self.drawn.situation

    def given(self, node: str) -> Given | None:
        """The given of a node, in whatever unit it was given."""
        return self.drawn.given(node)

    def printed(self, node: str) -> str | Decimal:
        """The digits of a node's value: as given, as asked for, or with one figure more than it deserves."""
        known = self._printed.get(node)
        if known is None:
            known = self._printed[node] = self._print(node)
        return known

    def _print(self, node: str) -> str | Decimal:
        drawn = self.drawn
        if node in drawn.situation.given:
            return drawn.situation.given[node].printed
        if node in drawn.outcomes:
            return drawn.outcomes[node].right.printed
        law = drawn.graph.step(node).law
        if isinstance(law, Rule) and law.rule == "same":
            return self.printed(law.inputs[0])
        value = drawn.cells[drawn.graph.index[node]]
        if isinstance(value, Undefined) or not isinstance(value, float):
            raise fault(
                "undefined", expected=f"{node} to be a number", found=value.why if isinstance(value, Undefined) else str(value)
            )
        return self._derived(node, value)

    def _derived(self, node: str, value: float) -> Decimal:
        if not self._digits:
            self._digits = precision.measured(self.drawn.graph, self.drawn.cells, self.drawn.situation.given)
        known = self._digits[node]
        count = figures(known)
        if known.place is None or count is None:
            return to_figures(value, 4) if value != round(value) else Decimal(round(value))
        if known.place <= 0 and abs(to_decimals(value, -known.place) - Decimal(repr(value))) < Decimal("1e-9"):
            return to_decimals(value, -known.place)
        return to_figures(value, max(3, count + _GUARD))

    def unit(self, node: str) -> str:
        """The unit of a node."""
        return self.drawn.unit(node)

    def number(self, node: str) -> Inscription:
        """The value as a number; a negative or always signed one stands in brackets, for use inside formulas."""
        return self._inside(self.printer.number(self.printed(node), signed=self.printer.signed(node)), node)

    def inner_quantity(self, node: str) -> Inscription:
        """The value with its unit, bracketed as in ``number``."""
        return self._inside(self.quantity(node), node)

    def _inside(self, inscription: Inscription, node: str) -> Inscription:
        negative = str(self.printed(node)).startswith("-")
        return self.printer.bracketed(inscription) if negative or self.printer.signed(node) else inscription

    def quantity(self, node: str) -> Inscription:
        """The value with its unit."""
        return self.printer.quantity(self.printed(node), self.unit(node), signed=self.printer.signed(node))

    def shown(self, name: str) -> Inscription | Text:
        """What a name of the template prints as: a word, a species, or a quantity as the student was given it."""
        if name == STANDARD_CONCENTRATION:
            return self.printer.quantity("1.0", "mol/L")
        if name in self.drawn.extra:
            return Text(self.printer.words(self.drawn.extra[name]))
        if name in self.situation.labels:
            return self.situation.labels[name]
        if name in self.situation.words:
            return Text(self.printer.words(self.situation.words[name]))
        known = self.given(name)
        if known is not None:
            return self.printer.quantity(known.printed, known.unit, signed=self.printer.signed(name))
        if name in self.drawn.graph.index:
            return self.quantity(name)
        raise self.drawn.unknown(name)
