"""One variant while it is composed: how each of its names reads in print."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from saltbridge.chemistry.inscriptions import inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.compose.printing import Printer
from saltbridge.document import Inline, Inscription, Maths, Row, Sign, Text
from saltbridge.draw.drawn import Drawn
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Situation, Undefined
from saltbridge.units import quantity_in

STANDARD_CONCENTRATION = "standard_concentration"
ROUNDED = "rounded"
ABOUT = Sign("≈", ROUNDED)


@dataclass
class Context:
    """A drawn variant and the bank's way of printing."""

    printer: Printer
    drawn: Drawn

    @property
    def situation(self) -> Situation:
        """What the variant knows."""
        return self.drawn.situation

    def given(self, node: str) -> Given | None:
        """The given of a node, in whatever unit it was given."""
        return self.drawn.given(node)

    def printed(self, node: str) -> str | Decimal:
        """The digits of a node's value: as given, or as the working writes it and uses it on."""
        found = self.drawn.written.get(node)
        if found is None:
            value = self.drawn.cells[self.drawn.graph.index[node]]
            why = value.why if isinstance(value, Undefined) else str(value)
            raise fault("undefined", expected=f"{node} to be a number", found=why)
        return found

    def answered(self, node: str) -> str | Decimal:
        """The digits of an answer as it was asked for; of any other node as printed."""
        found = self.drawn.outcomes.get(node)
        return self.printed(node) if found is None else found.right.printed

    def unit(self, node: str) -> str:
        """The unit of a node."""
        return self.drawn.unit(node)

    def bare_number(self, node: str) -> Inscription:
        """The value as a number."""
        return self.printer.number(self.printed(node), signed=self.printer.signed(node))

    def number(self, node: str) -> Inscription:
        """The value as a number; one with a sign stands in brackets, for use inside formulas."""
        return self._inside(self.bare_number(node), node)

    def inner_quantity(self, node: str) -> Inscription:
        """The value with its unit, bracketed as in ``number``."""
        return self._inside(self.quantity(node), node)

    def _inside(self, inscription: Inscription, node: str) -> Inscription:
        digits = Decimal(self.printed(node))
        return self.printer.bracketed(inscription) if digits < 0 or (digits and self.printer.signed(node)) else inscription

    def quantity(self, node: str) -> Inscription:
        """The value with its unit."""
        return self.printer.quantity(self.printed(node), self.unit(node), signed=self.printer.signed(node))

    def answer(self, node: str) -> Inscription:
        """The value as it was asked for, with its unit."""
        return self.printer.quantity(self.answered(node), self.unit(node), signed=self.printer.signed(node))

    def result(self, node: str) -> Inline:
        """What a line ends in: the value that is used on and, where that has more figures than asked for, the answer."""
        written, answer = self.quantity(node), self.answer(node)
        if written == answer:
            return written
        said = (written.spoken, f" {self.printer.words(ROUNDED)} ", answer.spoken)
        return Maths(Row((written, ABOUT, answer)), said)

    def told(self, text: str) -> Inscription | Text:
        """A drawn word, or a value that a case tells: a species in code signs, a number with its unit, or words."""
        if text.startswith("`"):
            return inscribe_species(parse_species(text.strip("`")), phase=True, say=self.printer.words)
        quantity = quantity_in(text)
        if quantity is None:
            return Text(self.printer.words(text))
        return self.printer.quantity(quantity.printed, quantity.unit, signed=text.startswith("+"))

    def shown(self, name: str) -> Inscription | Text:
        """What a name of the template prints as: a word, a species, or a quantity as the student was given it."""
        if name == STANDARD_CONCENTRATION:
            return self.printer.quantity("1.0", "mol/L")
        if name in self.drawn.extra:
            return self.told(self.drawn.extra[name])
        if name in self.situation.labels:
            return self.situation.labels[name]
        if name in self.situation.words:
            return Text(self.printer.words(self.situation.words[name]))
        known = self.given(name)
        if known is not None:
            return self.printer.quantity(known.printed, known.unit, signed=self.printer.signed(name))
        if name in self.drawn.graph.index:
            return self.answer(name)
        raise self.drawn.unknown(name)
