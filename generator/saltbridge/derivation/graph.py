"""The derivation as a small program: run it, run it with overrides, see which steps lie downstream.

``Graph`` is made once per shape; per variant only the list of values moves.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from saltbridge.derivation.expression import Cells, Tree, compiled
from saltbridge.derivation.laws import Conversion, Given, Instance, Rule, Undefined, Value
from saltbridge.derivation.planner import Step
from saltbridge.derivation.rules import RULES

Run = Callable[[Cells], Any]
Put = Mapping[int, Any]
"""Overrides by place: a value, or a compiled law to run instead."""


@dataclass(slots=True)
class Graph:
    """Steps in order, with a place for each node; ``memo`` keeps what is found once for each graph."""

    steps: tuple[Step, ...]
    index: dict[str, int] = field(init=False)
    program: tuple[tuple[int, Run, bool], ...] = field(init=False)
    memo: dict[tuple[str, str], Any] = field(default_factory=dict)
    _by_node: dict[str, Step] = field(init=False)

    def __post_init__(self) -> None:
        self.index = {step.node: place for place, step in enumerate(self.steps)}
        self._by_node = {step.node: step for step in self.steps}
        self.program = tuple(
            (self.index[step.node], self._compile(step), step.how in {"relation", "convert"})
            for step in self.steps
            if step.law is not None
        )

    def step(self, node: str) -> Step:
        """The step that gives a node."""
        return self._by_node[node]

    def compile_tree(self, tree: Tree) -> Run:
        """A tree over this graph's nodes as a function of its values."""
        return compiled(tree, self.index)

    def _compile(self, step: Step) -> Run:
        match step.law:
            case Instance():
                assert step.tree is not None  # noqa: S101 - the planner solved it
                return compiled(step.tree, self.index)
            case Conversion():
                return _conversion(self.index[step.law.source], step.law.factor, step.law.offset)
            case Rule():
                return self.compile_rule(step.law.rule, step.law)
            case None:
                raise ValueError(step.node)

    def compile_rule(self, name: str, law: Rule) -> Run:
        """A rule over this graph's nodes; ``name`` may be another rule taken by a slip."""
        places = [self.index[each] for each in law.inputs]
        function, keys = RULES[name], law.keys
        return lambda cells: _ruled(function, [cells[place] for place in places], keys)

    def start(self, given: Mapping[str, Given]) -> Cells:
        """The values before the run: the givens in their places."""
        cells: Cells = [None] * len(self.steps)
        for place, step in enumerate(self.steps):
            if step.law is None:
                cells[place] = given[step.node].value
        return cells

    def run(self, cells: Cells, put: Put | None = None, rounded: Callable[[float], float] | None = None) -> Cells:
        """All values, in step order; never raises: what is not defined is ``Undefined`` and flows downstream.

        ``put`` overrides nodes by place; ``rounded`` is applied to every intermediate result of a relation or conversion.
        """
        out = list(cells)
        last = self.program[-1][0] if self.program else -1
        if put:
            for place, value in put.items():
                if not callable(value):
                    out[place] = value
        for place, law, numeric in self.program:
            if put and place in put:
                if not callable(put[place]):
                    continue
                law = put[place]  # noqa: PLW2901 - the override stands in for the law
            try:
                value = law(out)
            except (ArithmeticError, ValueError, TypeError) as error:
                value = _undefined(self.steps[place], out, self.index, error)
            if rounded is not None and numeric and place != last and isinstance(value, float):
                value = rounded(value)
            out[place] = value
        return out

    def value(self, cells: Cells, node: str) -> Value:
        """A node's value after a run."""
        result: Value = cells[self.index[node]]
        return result

    def downstream(self, nodes: Sequence[str]) -> tuple[Step, ...]:
        """The steps that depend on any of ``nodes`` (without those nodes themselves)."""
        touched = set(nodes)
        found = []
        for step in self.steps:
            if step.law is not None and touched.intersection(step.inputs):
                touched.add(step.node)
                found.append(step)
        return tuple(found)

    def upstream(self, node: str) -> tuple[Step, ...]:
        """The steps that a node needs, itself included, in order."""
        needed = {node}
        for step in reversed(self.steps):
            if step.node in needed:
                needed.update(step.inputs)
        return tuple(step for step in self.steps if step.node in needed)


def _conversion(source: int, factor: float, offset: float) -> Run:
    if offset:
        return lambda cells: cells[source] * factor + offset
    return lambda cells: cells[source] * factor


def _ruled(function: Any, values: list[Any], keys: Sequence[str]) -> Any:
    for value in values:
        if isinstance(value, Undefined):
            return value
    return function(values, keys)


def _undefined(step: Step, cells: Cells, index: Mapping[str, int], error: Exception) -> Undefined:
    for name in step.inputs:
        value = cells[index[name]]
        if isinstance(value, Undefined):
            return value
    return Undefined(f"{step.node} is not defined here ({error})")
