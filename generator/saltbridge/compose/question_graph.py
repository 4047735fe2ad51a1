"""The graph and the givens of a question, once for all its parts: on them the judges run a student's own earlier answers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from saltbridge.draw.drawn import Drawn
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Undefined
from saltbridge.sigfigs import twelve


class QuestionGraph:
    """Collects what the parts that follow from earlier ones need, while a question is composed."""

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self._needed: dict[str, None] = {}
        self._given: tuple[str, ...] | None = None

    def need(self, node: str, puts: Iterable[Mapping[str, Any]]) -> None:
        """Keep what leads to a part's node, and what its routes and slips name beside that."""
        named = (name for put in puts for tree in put.values() for name in _names(tree))
        self._needed.update(dict.fromkeys((node, *(name for name in named if name in self.graph.index))))

    def steps(self) -> tuple[Mapping[str, Any], ...]:
        """The steps in run order, each ``{"node": …, "tree": …}``; what the interpreter can't run is a given instead."""
        wanted, found, given = set(self._needed), [], []
        for step in reversed(self.graph.steps):
            if step.node not in wanted:
                continue
            tree = self.graph.page_tree(step.node)
            if tree is None:
                given.append(step.node)
            else:
                found.append({"node": step.node, "tree": tree})
                wanted.update(step.inputs)
        self._given = tuple(sorted(given))
        return tuple(reversed(found))

    def given(self, drawn: Drawn) -> Mapping[str, Any]:
        """What a variant starts from: the value of every given that ``steps`` met and that exists."""
        values = {name: drawn.cells[self.graph.index[name]] for name in self._given or ()}
        return {
            name: twelve(value) if isinstance(value, float) else value
            for name, value in values.items()
            if not isinstance(value, Undefined)
        }


def _names(tree: Any) -> Iterator[str]:
    """All texts in a tree but the heads of its lists."""
    if isinstance(tree, str):
        yield tree
    elif isinstance(tree, Mapping):
        for each in tree.values():
            yield from _names(each)
    elif isinstance(tree, list):
        for each in tree[1:]:
            yield from _names(each)
