"""Points of a curve: the graph of the question run with one of its quantities moved."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from saltbridge.compose.context import Context
from saltbridge.compose.plots.axes import printed_unit
from saltbridge.document import Point
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Given, Situation, quantity_of
from saltbridge.graph.solved import graph_of
from saltbridge.units import convert


def sampled(wanted: str, moved: str, values: Iterable[float], context: Context) -> tuple[Point, ...]:
    """``wanted`` at each of the values of ``moved``, both in the units of their axes, where it exists; all else as drawn.

    Raises ``Faulty`` (code ``not-derivable``) where the one does not follow from the other.
    """
    situation, graph = _moved(wanted, moved, context)
    return tuple(_points(situation, graph, (wanted, moved), values, context))


def _moved(wanted: str, moved: str, context: Context) -> tuple[Situation, Graph]:
    situation, catalogue = context.situation.copy(), context.drawn.catalogue
    quantity = quantity_of(moved, catalogue.quantities)
    for node in [node for node in situation.given if node.split(":", 1)[0] == moved]:
        del situation.given[node]
    situation.given[moved] = Given(0.5, quantity.unit if quantity else "", "0.5")
    return situation, graph_of(situation, (wanted,), catalogue)


def _points(
    situation: Situation, graph: Graph, names: tuple[str, str], values: Iterable[float], context: Context
) -> Iterator[Point]:
    wanted, moved = names
    inner = _turned(printed_unit(moved, context), situation.given[moved].unit)
    shown = _turned(context.unit(wanted), printed_unit(wanted, context))
    for value in values:
        moved_to = inner(value)
        situation.given[moved] = Given(moved_to, situation.given[moved].unit, repr(moved_to))
        found = graph.value(graph.run(graph.start(situation.given)), wanted)
        if isinstance(found, float):
            yield value, shown(found)


def _turned(unit: str, to: str) -> Callable[[float], float]:
    """How a number in one unit reads in another, which is a line."""
    start = float(convert("0", unit, to))
    slope = float(convert("1", unit, to)) - start
    return lambda value: value * slope + start
