"""One worked example of every name that the command line can be given or find."""

from __future__ import annotations

from decimal import Decimal

from saltbridge import units
from saltbridge.catalogue.catalogue_records import Catalogue, Example, Quantity, Relation
from saltbridge.catalogue.entries import Entry
from saltbridge.sigfigs import to_figures

_FIGURES = 5
"""As many as outside cases are printed with; more would only be long."""


def example(entry: Entry) -> Example | None:
    """The example that an entry gives, with `diagram`, `given` and `find`, or none."""
    inner = entry.inner("example")
    if inner is None:
        return None
    inner.allow(("diagram", "given", "find"), ())
    return Example(inner.text("find", entry.path), inner.texts("given"), inner.text("diagram"))


def example_of(quantity: Quantity, catalogue: Catalogue) -> Example | None:
    """The quantity's own example, the fact that is true of anything, or the first outside case of a relation that holds it."""
    if quantity.example is not None:
        return quantity.example
    if any(fact.family and fact.node == quantity.symbol for fact in catalogue.facts.values()):
        return Example(quantity.symbol)
    relation = next((each for each in catalogue.relations.values() if quantity.symbol in each.symbols), None)
    return _of_case(quantity.symbol, relation, catalogue) if relation else None


def _of_case(symbol: str, relation: Relation, catalogue: Catalogue) -> Example:
    """The relation turned round to the symbol, with the values of its first outside case."""
    told = {name: value for name, value in relation.cases[0].values.items() if name != symbol}
    known = catalogue.quantities
    return Example(symbol, tuple(_given(known[name], value) for name, value in told.items() if not known[name].constant))


def _given(quantity: Quantity, value: float) -> str:
    shown = value * units.factor(quantity.unit, quantity.show)
    number = to_figures(shown, _FIGURES).normalize() if shown else Decimal(0)
    return f"{quantity.symbol} = {number:f} {quantity.show}".rstrip()
