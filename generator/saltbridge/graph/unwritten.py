"""Results that no line of a working shows, so that nobody rounds them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Instance
from saltbridge.graph.put_in import flagged
from saltbridge.graph.walk import shown_nodes, walk


def unwritten(graph: Graph, answers: Sequence[str], method: str, picked: Mapping[str, str]) -> frozenset[str]:
    """What the workings of ``answers`` pass over or put into another line; ``method`` and ``picked`` as for ``walk``."""
    if method == "formula":
        passed = frozenset(step.node for step in graph.steps if isinstance(step.law, Instance))
    else:
        passed = flagged(graph.steps, graph.quantities)
    if not passed:
        return passed
    known: set[str] = set()
    for node in answers:
        known |= {*shown_nodes(walk(graph, node, frozenset(known), method=method, picked=picked)), node}
    return passed - known
