"""Scenes of a kind with everything worked out that can be: drawn from what its entry, or a bank, writes under it as examples."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from pydantic import ValidationError

from saltbridge.algebra.expression import Cells
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import Faulty, fault
from saltbridge.forms.fields import Drawn as Range
from saltbridge.forms.validation_messages import Reading
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Situation
from saltbridge.graph.planner import reachable
from saltbridge.graph.solved import graph_of
from saltbridge.scenarios.drawing import draw_scene
from saltbridge.scenarios.joining import defer_to_rules, join
from saltbridge.scenarios.kinds.example_source import Turn
from saltbridge.scenarios.scenario import Scenario, kinds_of
from saltbridge.scenarios.scene import Means, pick_quantity
from saltbridge.scenarios.situations import add_given
from saltbridge.tables import Sheet

DRAWS = 12
"""Of each example; enough for every word of lists as long as those of the examples."""
MOST_TURNS = 120
"""Of each example, those that can't be drawn among them."""


@dataclass(frozen=True, slots=True)
class Written:
    """What a template writes under a kind, and the further quantities that it draws beside."""

    scenario: Scenario
    further: Mapping[str, Range] = field(default_factory=dict)


@dataclass(slots=True)
class Whole:
    """A drawn scene with the graph of all that can be worked out in it, and the values of a run."""

    situation: Situation
    graph: Graph
    cells: Cells
    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    has_cell: bool = False


def examples_of(kind: str, catalogue: Catalogue, sheet: Sheet) -> tuple[Written, ...]:
    """The examples in the entry of a kind. Raises ``Faulty`` (``bad-example``) where one is not what a template may write."""
    entry = catalogue.scenarios[kind]
    return tuple(_read(kind, place, body, catalogue, sheet) for place, body in enumerate(entry.examples, 1))


def _read(kind: str, place: int, body: Mapping[str, Any], catalogue: Catalogue, sheet: Sheet) -> Written:
    model = kinds_of(catalogue.scenarios.values())
    try:
        read = model.model_validate({kind: body}, context=Reading(couples=frozenset(row.couple for row in sheet.rows)))
    except ValidationError as error:
        found = "; ".join(
            str(each["ctx"]["faults"][0]) if "faults" in each.get("ctx", {}) else each["msg"] for each in error.errors()
        )
        raise fault(
            "bad-example", expected=f"an example of {kind} that a template may write", found=f"example {place}: {found}"
        ) from error
    return Written(read.scenario)


def whole_scenes(written: Sequence[Written], means: Means, catalogue: Catalogue) -> Iterator[Whole]:
    """Scenes of what is written, one after the other; a draw that can't be is left out."""
    for each in written:
        left = DRAWS
        for turn in range(MOST_TURNS):
            try:
                yield _whole(each, Turn(turn), means, catalogue)
            except Faulty:
                continue
            left -= 1
            if not left:
                break


def _whole(written: Written, turn: Turn, means: Means, catalogue: Catalogue) -> Whole:
    kind = written.scenario.kind
    scene = draw_scene(written.scenario, turn, means, catalogue)
    situation = scene.situation
    for name, values in written.further.items():
        quantity = pick_quantity(values, turn, name)
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    defer_to_rules(situation, kind)
    join(situation, catalogue, kind, means.settings.nernst)
    graph = graph_of(situation, reachable(situation), catalogue)
    return Whole(situation, graph, graph.run(graph.start(situation.given)), scene.lists, has_cell=scene.cell is not None)
