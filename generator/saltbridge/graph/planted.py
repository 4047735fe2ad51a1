"""A derivation with one common error built in: the step where it is made follows the wrong equation, every other follows from it.

The result is a graph like any other, so it is run, written and walked as the right one is.
"""

from __future__ import annotations

from collections.abc import Sequence

from saltbridge.algebra.expression import Ref, names
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Conversion, Instance
from saltbridge.graph.planner import Step
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.walk import WalkStep


def with_error(graph: Graph, point: SlipPoint) -> Graph:
    """The graph with this error in it, made once for each; ``point`` must be ``can_stand_in`` a working."""
    key = ("with error", f"{point.slip.id} at {point.node}")
    found: Graph | None = graph.memo.get(key)
    if found is None:
        found = graph.memo[key] = Graph(_in_order(graph.steps, point), graph.rules, graph.quantities)
    return found


def can_stand_in(point: SlipPoint, graph: Graph) -> bool:
    """Whether an error is one of calculation, so that the line in which it is made can be written down."""
    law = graph.step(point.node).law
    return point.tree is not None and (isinstance(law, Instance) or (isinstance(law, Conversion) and isinstance(point.tree, Ref)))


def wrong_place(steps: Sequence[WalkStep], point: SlipPoint) -> int | None:
    """Which step of a walked working has the error in it; ``None`` where its line is put into another or not shown."""
    return next(
        (place for place, step in enumerate(steps) if step.node == point.node and step.how in {"relation", "convert"}), None
    )


def _in_order(steps: Sequence[Step], point: SlipPoint) -> tuple[Step, ...]:
    """The steps with the wrong one in its place; what it needs and the right one does not comes before it."""
    at = next(place for place, step in enumerate(steps) if step.node == point.node)
    wrong = _wrong(steps[at], point)
    needed = [step for step in steps[at + 1 :] if step.node in wrong.inputs]
    return (*steps[:at], *needed, wrong, *(step for step in steps[at + 1 :] if step not in needed))


def _wrong(step: Step, point: SlipPoint) -> Step:
    """The step as the error makes it; a conversion that was left out gives the number as it stood."""
    tree, law = point.tree, step.law
    if isinstance(law, Conversion):
        return Step(step.node, step.how, step.inputs, Conversion(law.node, law.source, law.unit_from, law.unit_to, 1.0))
    assert tree is not None  # noqa: S101 - what can stand in a working has a tree
    assert isinstance(law, Instance)  # noqa: S101 - or is a conversion
    return Step(step.node, step.how, names(tree), Instance(law.law, step.node, tree, law.say, hint=law.hint), tree)
