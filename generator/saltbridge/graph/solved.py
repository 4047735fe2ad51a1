"""From a situation to a graph, planned once for each shape and kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.algebra.expression import Cells
from saltbridge.algebra.rounding import rounder
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import fault
from saltbridge.graph.graph import Graph, Rounded
from saltbridge.graph.laws import Situation, Undefined
from saltbridge.graph.planner import Step, plan
from saltbridge.graph.routes import Accepted, Asked, accepted, form_names, results, step_figures
from saltbridge.graph.slips import Runs, SlipPoint, SlipValue, slip_names, slip_points, slip_values
from saltbridge.graph.trade_units import in_trade_units

_KEPT = 512
_graphs: dict[tuple[Any, ...], Graph] = {}


TIE = 1e-9  # of the last place: what floating point leaves of a tie


def graph_of(situation: Situation, targets: Sequence[str], catalogue: Catalogue) -> Graph:
    """The graph of a situation's shape for these targets, with what slips and other forms need beside it.

    Raises ``Faulty`` (code ``not-derivable``) naming what is missing.
    """
    key = (id(catalogue), tuple(targets), situation.key())
    graph = _graphs.get(key)
    if graph is None:
        steps = plan(situation, targets, (), catalogue.quantities)
        extras = (*form_names(steps), *slip_names(steps, catalogue))
        everything = _in_time(steps, plan(situation, targets, extras, catalogue.quantities))
        graph = Graph(in_trade_units(everything, catalogue.quantities), catalogue.rules, catalogue.quantities)
        if len(_graphs) >= _KEPT:
            _graphs.clear()
        graph.memo["catalogue", ""] = catalogue  # kept alive with its graph, so that its id is not used again
        _graphs[key] = graph
    return graph


def _in_time(main: Sequence[Step], everything: Sequence[Step]) -> tuple[Step, ...]:
    """The steps of the answer in the order of its working, all others as early as their inputs allow.

    A slip or another form at a step may need them there.
    """
    ordered = list(main)
    known = {step.node for step in main}
    for step in everything:
        if step.node not in known:
            places = {each.node: place for place, each in enumerate(ordered)}
            ordered.insert(1 + max((places[name] for name in step.inputs), default=-1), step)
    return tuple(ordered)


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
    """An answer, how it was asked for, its accepted range and the slips of this variant.

    ``exact`` is at full precision, ``rounded`` what a student gets who rounds every result.
    """

    exact: float
    asked: Asked
    right: Accepted
    slips: tuple[SlipValue, ...]
    rounded: float

    @property
    def on_edge(self) -> bool:
        """Whether the answer lies so near a five at its last place that some round it up and others down."""
        scaled = abs(self.exact) / float(self.right.place)
        return not self.asked.log and abs(scaled % 1 - 0.5) <= TIE * max(1.0, scaled)


def outcome(
    graph: Graph,
    start: Cells,
    target: str,
    asked: Asked,
    points: Sequence[SlipPoint],
    run: Cells | None = None,
    before: Mapping[str, Outcome] | None = None,
) -> Outcome:
    """Judge data of one number: answer, accepted range, slip values; ``run`` are the values after a run, where there was one.

    ``before`` are the answers of earlier parts, which a student may have rounded otherwise than this one is to be.
    Raises ``Faulty`` (code ``undefined``) where the answer does not exist, or is not positive though judged on a log scale.
    """
    base = graph.run(start) if run is None else run
    plain = base[graph.index[target]]
    if isinstance(plain, Undefined):
        raise fault("undefined", expected=f"{target} to exist", found=plain.why)
    if not isinstance(plain, float) or (asked.log and plain <= 0):
        raise fault("undefined", expected=f"{target} to be a {'positive ' if asked.log else ''}number", found=str(plain))
    figures = step_figures(asked.printed(plain))
    rounded = rounder(figures)
    rough = graph.run(start, None, rounded, target)
    found = results(graph, base, rough, target, figures)
    rougher = _carried_on(graph, start, target, before or {}, rough, rounded)
    if rougher is not None:
        found.append(rougher)
    right = accepted(found, asked)
    last = rough[graph.index[target]] if rougher is None else rougher
    return Outcome(plain, asked, right, slip_values(graph, Runs(base, rough, rounded), points, right, asked), rounded(last))


def _carried_on(
    graph: Graph, start: Cells, target: str, before: Mapping[str, Outcome], rough: Cells, rounded: Rounded
) -> float | None:
    """The result of a student who rounds every result and has rounded the answers ``before`` otherwise; ``None``: not so."""
    put = {place: each.rounded for node, each in before.items() if each.rounded != rough[place := graph.index[node]]}
    value = graph.run(start, put, rounded, target)[graph.index[target]] if put else None
    return value if isinstance(value, float) else None
