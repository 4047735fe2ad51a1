"""One variant while it is composed: its situation, its run, and how each name of it reads in print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from saltbridge.bank.conditions import Measured
from saltbridge.compose.printing import Printer
from saltbridge.derivation import precision
from saltbridge.derivation.expression import Cells
from saltbridge.derivation.graph import Graph
from saltbridge.derivation.laws import Given, Situation, Undefined
from saltbridge.derivation.precision import figures
from saltbridge.derivation.solved import Outcome
from saltbridge.document import Inscription, Text
from saltbridge.faults import fault
from saltbridge.sigfigs import to_decimals, to_figures

_GUARD = 1  # figures printed beyond those that an intermediate result deserves


@dataclass
class Context:
    """A variant's values. ``start`` are its givens, ``cells`` its run, ``outcomes`` the judged answers by node."""

    printer: Printer
    situation: Situation
    graph: Graph
    start: Cells
    cells: Cells
    outcomes: Mapping[str, Outcome] = field(default_factory=dict)
    extra: Mapping[str, str] = field(default_factory=dict)
    _digits: dict[str, precision.Measured] | None = None

    def given(self, node: str) -> Given | None:
        """The given of a node, in whatever unit it was given."""
        known = self.situation.given.get(node)
        if known is None:
            known = next((each for name, each in self.situation.given.items() if name.startswith(f"{node}:")), None)
        return known

    def printed(self, node: str) -> str | Decimal:
        """The digits of a node's value: as given, as asked for, or with one figure more than it deserves."""
        if node in self.situation.given:
            return self.situation.given[node].printed
        if node in self.outcomes:
            return self.outcomes[node].right.printed
        value = self.cells[self.graph.index[node]]
        if isinstance(value, Undefined) or not isinstance(value, float):
            raise fault(
                "undefined", expected=f"{node} to be a number", found=value.why if isinstance(value, Undefined) else str(value)
            )
        return self._derived(node, value)

    def _derived(self, node: str, value: float) -> Decimal:
        if self._digits is None:
            self._digits = precision.measured(self.graph, self.cells, self.situation.given)
        known = self._digits[node]
        count = figures(known)
        if known.place is None or count is None:
            return to_figures(value, 4) if value != round(value) else Decimal(round(value))
        if known.place <= 0 and abs(to_decimals(value, -known.place) - Decimal(repr(value))) < Decimal("1e-9"):
            return to_decimals(value, -known.place)
        return to_figures(value, max(3, count + _GUARD))

    def unit(self, node: str) -> str:
        """The unit of a node: the one in its name, of its given, or the coherent one."""
        if ":" in node:
            return node.split(":", 1)[1]
        known = self.situation.given.get(node)
        quantity = self.printer.entry(node)
        return known.unit if known else quantity.unit if quantity else ""

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
        if name in self.extra:
            return Text(self.extra[name])
        if name in self.situation.labels:
            return self.situation.labels[name]
        if name in self.situation.words:
            return Text(self.printer.words(self.situation.words[name]))
        known = self.given(name)
        if known is not None:
            return self.printer.quantity(known.printed, known.unit, signed=self.printer.signed(name))
        if name in self.graph.index:
            return self.quantity(name)
        raise fault(
            "unknown-name", expected="a name of this scenario", found=name, hint="Known: " + ", ".join(self.names()) + "."
        )

    def names(self) -> list[str]:
        """All names that a template may use."""
        given = {node.split(":", 1)[0] for node in self.situation.given}
        return sorted({*self.extra, *self.situation.labels, *self.situation.words, *given, *self.graph.index})

    def lookup(self, name: str) -> object:
        """A name's value for a condition: a measured quantity, a word, or ``None`` where it is undefined."""
        if name in self.extra:
            return self.extra[name]
        if name in self.graph.index:
            value = self.cells[self.graph.index[name]]
            if isinstance(value, Undefined):
                return None
            return Measured(value, self.unit(name)) if isinstance(value, float) else value
        if name in self.situation.words:
            return self.situation.words[name]
        if name in self.situation.labels:
            return self.situation.labels[name].plain
        known = self.given(name)
        if known is None:
            raise fault(
                "unknown-name", expected="a name of this scenario", found=name, hint="Known: " + ", ".join(self.names()) + "."
            )
        return Measured(known.value, known.unit) if isinstance(known.value, float) else known.value
