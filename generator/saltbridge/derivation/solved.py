"""From a situation to a graph, planned once for each shape and kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.expression import Cells
from saltbridge.derivation.graph import Graph
from saltbridge.derivation.laws import Situation, Undefined, Value
from saltbridge.derivation.planner import plan
from saltbridge.derivation.routes import Accepted, Asked, accepted, form_names, results, step_figures
from saltbridge.derivation.slips import SlipPoint, SlipValue, slip_names, slip_points, slip_values
from saltbridge.faults import fault

_KEPT = 512
_graphs: dict[tuple[Any, ...], Graph] = {}


def graph_of(situation: Situation, targets: Sequence[str], catalogue: Catalogue) -> Graph:
    """The graph of a situation's shape for these targets, with what slips and other forms need beside it.

    Raises ``Faulty`` (code ``not-derivable``) naming what is missing.
    """
    key = (id(catalogue), tuple(targets), situation.key())
    graph = _graphs.get(key)
    if graph is None:
        steps = plan(situation, targets)
        graph = Graph(plan(situation, targets, (*form_names(steps), *slip_names(steps, catalogue))))
        if len(_graphs) >= _KEPT:
            _graphs.clear()
        _graphs[key] = graph
    return graph


def points_of(graph: Graph, target: str, situation: Situation, catalogue: Catalogue) -> tuple[SlipPoint, ...]:
    """The slips that can happen on the way to a target, found once for each graph."""
    known = graph.memo.get(("slips", target))
    if known is None:
        known = slip_points(graph, target, catalogue, situation.flat_quotients)
        graph.memo["slips", target] = known
    found: tuple[SlipPoint, ...] = known
    return found


@dataclass(frozen=True, slots=True)
class Outcome:
    """An answer with its accepted range and the slips of this variant; ``exact`` is at full precision."""

    exact: float
    right: Accepted
    slips: tuple[SlipValue, ...]


def value_of(graph: Graph, cells: Cells, target: str) -> Value:
    """A node's value after the run."""
    return graph.value(cells, target)


def outcome(graph: Graph, start: Cells, target: str, asked: Asked, points: Sequence[SlipPoint]) -> Outcome:
    """Judge data of one number: answer, accepted range, slip values.

    Raises ``Faulty`` (code ``undefined``) where the answer does not exist, or is not positive though judged on a log scale.
    """
    plain = graph.run(start)[graph.index[target]]
    if isinstance(plain, Undefined):
        raise fault("undefined", expected=f"{target} to exist", found=plain.why)
    if not isinstance(plain, float) or (asked.log and plain <= 0):
        raise fault("undefined", expected=f"{target} to be a {'positive ' if asked.log else ''}number", found=str(plain))
    figures = step_figures(asked.printed(plain))
    right = accepted(results(graph, start, target, figures), asked)
    return Outcome(plain, right, slip_values(graph, start, target, points, right, asked))
