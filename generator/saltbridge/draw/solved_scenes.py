"""Scenes solved before: draws under the same laws share a graph; those that know the same numbers too, all that follows from them.

A template meets few sets of laws, and one that draws from few values meets most of its scenes again, those that it turns down too.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import count
from typing import Any

from saltbridge.algebra.expression import Cells
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Given, Law
from saltbridge.scenarios.joining import looked_at
from saltbridge.scenarios.scene import Scene

MOST_KEPT = 512
Solve = Callable[[Scene], Graph]


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
    """Those of one template, a few hundred; ``told``: its laws hang on numbers, since it tells what it works out."""

    def __init__(self, catalogue: Catalogue, *, told: bool) -> None:
        self._looked_at = looked_at(catalogue)
        self._told = told
        self._numbers = count()
        self._kinds: dict[tuple[object, ...], tuple[int, SolvedScene]] = {}
        self._kept: dict[tuple[object, ...], SolvedScene] = {}

    def solved(self, scene: Scene, solve: Solve) -> SolvedScene:
        """The scene solved, its situation with all laws and givens; ``solve`` adds them to one of a kind not met before."""
        situation, kind = scene.situation, self._kind(scene)
        number, like = self._kinds.get(kind) or (next(self._numbers), None)
        key = (number, *situation.given.values())
        known = self._kept.get(key)
        if known is None:
            if like is None or self._told:
                graph = solve(scene)
            else:
                graph, situation.laws = like.graph, like.laws
            start = graph.start(situation.given)
            known = SolvedScene(situation.given, situation.laws, graph, start, graph.run(start))
            self._keep(kind, number, key, known)
        situation.given, situation.laws = dict(known.given), list(known.laws)
        return known

    def _keep(self, kind: tuple[object, ...], number: int, key: tuple[object, ...], solved: SolvedScene) -> None:
        if len(self._kept) >= MOST_KEPT:
            self._kept.clear()
            self._kinds.clear()
        self._kept[key] = solved
        self._kinds.setdefault(kind, (number, solved))

    def _kind(self, scene: Scene) -> tuple[object, ...]:
        """All that solving looks at but numbers: what is given and holds, and which names are said and printed.

        The words themselves count where they decide what joins, and all of them for a question turned round.
        """
        situation = scene.situation
        looked_at = self._looked_at
        return (
            tuple((name, known.how, known.printed if name in looked_at else "") for name, known in situation.given.items()),
            tuple(situation.laws), tuple((name, word if self._told or name in looked_at else "") for name, word in situation.words.items()), tuple(situation.labels), situation.shape, situation.own_laws,
            tuple(scene.lists.items()),
        )  # fmt: skip
