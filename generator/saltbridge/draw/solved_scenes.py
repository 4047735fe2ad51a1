"""Scenes solved before: draws that know the same things under the same laws share graph, run and all that follows from them alone.

A template that draws from few values meets most of its scenes again and again, those that it turns down too.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from saltbridge.algebra.expression import Cells
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Given, Law, Situation
from saltbridge.scenarios.scene import Scene

MOST_KEPT = 512


@dataclass(frozen=True, slots=True)
class SolvedScene:
    """What is known once everything is derived; ``found`` keeps what is worked out from it, by name."""

    given: dict[str, Given]
    laws: list[Law]
    graph: Graph
    start: Cells
    cells: Cells
    found: dict[tuple[str, ...], Any] = field(default_factory=dict)


class SolvedScenes:
    """Those of one template, the latest few hundred."""

    def __init__(self) -> None:
        self._kept: dict[tuple[object, ...], SolvedScene] = {}

    def solved(self, scene: Scene, solve: Callable[[Scene], tuple[Graph, Cells, Cells]]) -> SolvedScene:
        """The scene solved, its situation with all laws and givens; ``solve`` is called for one not met before."""
        situation = scene.situation
        key = _key(scene)
        known = self._kept.get(key)
        if known is None:
            graph, start, cells = solve(scene)
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            known = self._kept[key] = SolvedScene(situation.given, situation.laws, graph, start, cells)
        situation.given, situation.laws = dict(known.given), list(known.laws)
        return known


def _key(scene: Scene) -> tuple[object, ...]:
    """All that solving looks at: what is given and holds, the words, and which names are printed."""
    situation: Situation = scene.situation
    return (
        tuple(situation.given.items()),
        tuple(situation.laws),
        tuple(situation.words.items()),
        tuple(situation.labels),
        situation.shape,
        situation.own_laws,
        tuple(scene.lists.items()),
    )
