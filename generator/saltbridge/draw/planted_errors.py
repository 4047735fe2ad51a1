"""Which common error stands in a working that is to be looked through: seeded by name, among those that a variant can tell."""

from __future__ import annotations

from dataclasses import dataclass, replace

from saltbridge.algebra.expression import Cells
from saltbridge.draw.drawn import Drawn, Judged
from saltbridge.draw.seeds import Seed
from saltbridge.graph.graph import Graph
from saltbridge.graph.planted import can_stand_in, with_error, wrong_place
from saltbridge.graph.routes import Asked
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import Outcome, outcome
from saltbridge.graph.unwritten import unwritten
from saltbridge.graph.walk import WalkStep, picked_sides, walk


@dataclass(frozen=True, slots=True)
class Planted:
    """A common error built into a working: the run with it, its steps, and the ``place`` of the wrong one."""

    point: SlipPoint
    graph: Graph
    start: Cells
    cells: Cells
    judged: Judged
    steps: tuple[WalkStep, ...]
    place: int

    @property
    def name(self) -> str:
        """The error and where it is made."""
        return f"{self.point.slip.id} at {self.point.node}"

    def of(self, drawn: Drawn) -> Drawn:
        """The draw as it comes out with the error."""
        return replace(drawn, graph=self.graph, start=self.start, cells=self.cells, judged=self.judged, found={})


def planted(node: str, errors: tuple[str, ...], drawn: Drawn) -> Planted | None:
    """The error in the working of ``node``, drawn from ``could_be_planted``; ``None`` where there is none to build in."""
    among = could_be_planted(node, errors, drawn, drawn.outcomes[node])
    if not among:
        return None
    name = Seed("wrong step", node, drawn.seed).pick("error", sorted(each.name for each in among))
    return next(each for each in among if each.name == name)


def could_be_planted(node: str, errors: tuple[str, ...], drawn: Drawn, right: Outcome) -> tuple[Planted, ...]:
    """The errors that this variant can tell in the working of ``node`` and that can stand in it; ``errors`` are those wanted (none: all)."""
    wanted = [each.point for each in right.slips if not errors or each.point.slip.id in errors]
    points = [point for point in wanted if can_stand_in(point, drawn.graph)]

    def built_in() -> tuple[Planted, ...]:
        return tuple(found for point in points if (found := _built_in(node, point, drawn, right.asked)))

    return drawn.once(built_in, "planted", node, *errors)


def _built_in(node: str, point: SlipPoint, drawn: Drawn, asked: Asked) -> Planted | None:
    """The working with an error, where its wrong line is shown and every other follows from the digits of the one before."""
    graph = with_error(drawn.graph, point)
    start = graph.start(drawn.situation.given)
    cells = graph.run(start)
    picked = picked_sides(graph, cells)
    steps = walk(graph, node, picked=picked)
    place = wrong_place(steps, point)
    if place is None:
        return None
    wrong = outcome(graph, start, node, asked, (), cells)
    judged = Judged({node: wrong}, unwritten(graph, (node,), "steps", picked))
    found = Planted(point, graph, start, cells, judged, steps, place)
    return None if found.of(drawn).unlike_written() else found
