"""The equations that a student's own earlier answers lead to, worked out where they can be: nothing is balanced in the page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

from saltbridge.catalogue.catalogue import Catalogue, Fact
from saltbridge.chemistry.equation_operations import OPERATIONS
from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.reshaping import electrons_of
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.equation_forms import differs, wrong_forms
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Balance, Rule
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import points_of

MOST_PATHS = 32
"""Ways through the answers before an equation for which its own form is kept."""
Path = dict[str, str]
"""What each answer before comes out as on one way; an answer that is not named is as right as it can be."""


@dataclass(frozen=True, slots=True)
class Before:
    """What an equation hangs on: choices with what each may come out as, and equations of earlier parts with the errors on their way."""

    choices: Mapping[str, tuple[str, ...]]
    equations: Mapping[str, tuple[SlipPoint, ...]]


def before(drawn: Drawn, node: str, asked: Sequence[str], catalogue: Catalogue) -> Before:
    """What the equation at a node hangs on, of equations those that parts before it ``asked`` for."""
    graph = drawn.graph
    steps = [step for step in graph.upstream(node) if isinstance(step.law, Balance)]
    made = [step.node for step in steps if isinstance(step.law, Balance) and step.law.op in OPERATIONS and step.node != node]
    points = {name: points_of(graph, name, drawn.situation, catalogue) for name in made if name in asked}
    return Before(_choices(graph, node), points)


def _choices(graph: Graph, node: str) -> dict[str, tuple[str, ...]]:
    """The choices that balancing reads on the way to an equation."""
    found: dict[str, tuple[str, ...]] = {}
    for step in graph.upstream(node):
        if isinstance(step.law, Balance) and step.law.keys:
            decider = graph.step(step.law.inputs[0])
            found[decider.node] = decider.law.keys if isinstance(decider.law, Rule | Fact) else step.law.keys
    return {name: keys for name, keys in found.items() if len(keys) > 1}


def led_to(drawn: Drawn, node: str, hung_on: Before, points: Sequence[SlipPoint]) -> list[list[Any]]:
    """For each way through the answers before, but the right one: [[{node: outcome}, equation, {wrong equation: [error, …]}], …].

    What names most comes first. The wrong equations are those of the errors in making this very equation.
    """
    graph, place = drawn.graph, drawn.graph.index[node]
    right = drawn.cells[place]
    own = [point for point in points if point.node == node]
    found: list[list[Any]] = []
    for outcomes in _paths(drawn, hung_on):
        put = {graph.index[name]: outcome for name, outcome in outcomes.items()}
        cells = graph.run(drawn.start, put)
        text = cells[place]
        if isinstance(text, str) and differs(graph, node, text, right):
            found.append([outcomes, text, wrong_forms(drawn, node, own, cells)])
    return sorted(found, key=lambda each: -len(each[0]))


def _paths(drawn: Drawn, hung_on: Before) -> Iterator[Path]:
    ways = product(
        *([{name: key} for key in keys] for name, keys in hung_on.choices.items()),
        *([{}, *_own_forms(drawn, name, points)] for name, points in hung_on.equations.items()),
    )
    kept = (dict(pair for each in way for pair in each.items()) for way in ways)
    for _, path in zip(range(MOST_PATHS), (path for path in kept if path), strict=False):
        yield path


def _own_forms(drawn: Drawn, name: str, points: Sequence[SlipPoint]) -> list[Path]:
    """The forms in which a student may have written an equation before: by the usual errors, as far as there are still electrons to cancel."""
    forms = [text for text in wrong_forms(drawn, name, points) if electrons_of(parse_equation(text))]
    return [{name: text} for text in forms]
