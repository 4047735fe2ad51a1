"""The derivation as a small program: run it, run it with overrides, see which steps lie downstream.

``Graph`` is made once per shape; per variant only the list of values moves.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from math import isfinite
from typing import Any

from saltbridge.algebra.expression import Cells, Tree, to_json
from saltbridge.algebra.programs import NoValue, Program, bare, compiled
from saltbridge.catalogue.catalogue import Quantity, catalogue
from saltbridge.catalogue.rules import RuleEntry
from saltbridge.chemistry.equation_operations import COUNTING
from saltbridge.graph.balances import compiled as compiled_balance
from saltbridge.graph.laws import Balance, Conversion, Given, Instance, Undefined, Value
from saltbridge.graph.planner import Step
from saltbridge.graph.step_json import step_json

Run = Callable[[Cells], Any]
Put = Mapping[int, Any]
"""Overrides by place: a value, or a compiled law to run instead."""
Rounded = Callable[[float], float]
Laws = tuple[tuple[int, Run, bool], ...]
"""Place, law, and whether its result is a number, in step order."""


@dataclass(frozen=True, slots=True)
class Part:
    """What an override changes on the way to one target: ``values`` put at places, and the laws to run again."""

    target: int
    values: tuple[tuple[int, Any], ...]
    program: Laws
    numeric: tuple[int, ...] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "numeric", tuple(place for place, _, numeric in self.program if numeric))


@dataclass(slots=True)
class Graph:
    """Steps in order, with a place for each node; ``rules`` are those that their laws name, ``quantities`` those of the nodes (the shipped ones).

    ``trees`` are the laws as trees of operations, by node; ``memo`` keeps what is found once for each graph.
    """

    steps: tuple[Step, ...]
    rules: Mapping[str, RuleEntry] = field(default_factory=lambda: catalogue().rules)
    quantities: Mapping[str, Quantity] = field(default_factory=lambda: catalogue().quantities)
    index: dict[str, int] = field(init=False)
    trees: dict[str, Program] = field(init=False)
    program: Laws = field(init=False)
    memo: dict[tuple[str, str], Any] = field(default_factory=dict)
    _by_node: dict[str, Step] = field(init=False)
    _quick: tuple[tuple[int, Run], ...] = field(init=False)
    _numeric: tuple[int, ...] = field(init=False)

    def __post_init__(self) -> None:
        self.index = {step.node: place for place, step in enumerate(self.steps)}
        self._by_node = {step.node: step for step in self.steps}
        self.trees = {step.node: tree for step in self.steps if (tree := step_json(step, self.rules)) is not None}
        self.program = tuple(
            (self.index[step.node], self._compile(step), _gives_number(step)) for step in self.steps if step.law is not None
        )
        self._quick = tuple((place, law) for place, law, _ in self.program)
        self._numeric = tuple(place for place, _, numeric in self.program if numeric)

    def step(self, node: str) -> Step:
        """The step that gives a node."""
        return self._by_node[node]

    def compile_tree(self, tree: Tree) -> Run:
        """A tree over this graph's nodes as a function of its values."""
        return self.compile_program(to_json(tree))

    def compile_program(self, tree: Program) -> Run:
        """The same of a tree of operations."""
        return compiled(tree, self.index)

    def _compile(self, step: Step) -> Run:
        """The law as a function of the values: its tree, or for an equation the balancing itself."""
        if step.node in self.trees:
            return compiled(self.trees[step.node], self.index)
        assert isinstance(step.law, Balance)  # noqa: S101 - every other law has a tree
        return compiled_balance(step.law, self.index)

    def page_tree(self, node: str) -> Program | None:
        """The tree of a node's law as the page has it; ``None`` for a given."""
        tree = self.trees.get(node)
        return None if tree is None else bare(tree)

    def start(self, given: Mapping[str, Given]) -> Cells:
        """The values before the run: the givens in their places."""
        cells: Cells = [None] * len(self.steps)
        for place, step in enumerate(self.steps):
            if step.law is None:
                cells[place] = given[step.node].value
        return cells

    def run(self, cells: Cells, put: Put | None = None, rounded: Rounded | None = None, target: str = "") -> Cells:
        """All values, in step order; never raises: what is not defined is ``Undefined`` and flows downstream.

        ``put`` overrides nodes by place; ``rounded`` is applied to every result of a relation or conversion but ``target``.
        """
        if not put and rounded is None:
            out = list(cells)
            try:
                for place, law in self._quick:
                    out[place] = law(out)
                if all(map(isfinite, [out[place] for place in self._numeric])):
                    return out
            except (ArithmeticError, ValueError, TypeError, LookupError):
                pass  # the careful way below finds the step and says why
        out = list(cells)
        program = self.program
        if put:
            values = {place: value for place, value in put.items() if not callable(value)}
            for place, value in values.items():
                out[place] = value
            program = tuple((place, put.get(place, law), numeric) for place, law, numeric in program if place not in values)
        return self._careful(out, program, rounded, self.index.get(target, -1))

    def _careful(self, out: Cells, program: Laws, rounded: Rounded | None, target: int) -> Cells:
        for place, law, numeric in program:
            try:
                value = law(out)
                if numeric:
                    if not isfinite(value):
                        raise OverflowError("not a finite number")
                    if rounded is not None and place != target:
                        value = rounded(value)
            except (ArithmeticError, ValueError, TypeError, LookupError) as error:
                value = _undefined(self.steps[place], out, self.index, error)
            out[place] = value
        return out

    def part(self, put: Put, target: str) -> Part:
        """The overrides and, of the steps between them and ``target``, those that they change."""
        values = tuple((place, value) for place, value in put.items() if not callable(value))
        fixed = {place for place, _ in values}
        touched = {self.steps[place].node for place in put}
        changed = {step.node for step in self.downstream(sorted(touched))} | touched
        wanted = {step.node for step in self.upstream(target)}
        program = tuple(
            (place, put.get(place, law), numeric)
            for place, law, numeric in self.program
            if place not in fixed and self.steps[place].node in changed and (self.steps[place].node in wanted or place in put)
        )
        return Part(self.index[target], values, program)

    def rerun(self, base: Cells, part: Part, rounded: Rounded | None = None) -> Value:
        """The value of a part's target with its overrides; ``base`` is a whole run, with the same rounding."""
        out, target = _put(base, part), part.target
        try:
            for place, law, numeric in part.program:
                value = law(out)
                out[place] = rounded(value) if numeric and rounded is not None and place != target else value
            if isfinite(sum([out[place] for place in part.numeric])):
                quick: Value = out[target]
                return quick
        except (ArithmeticError, ValueError, TypeError, LookupError):
            pass  # the careful way below finds the step and says why
        result: Value = self._careful(_put(base, part), part.program, rounded, target)[target]
        return result

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


def _put(base: Cells, part: Part) -> Cells:
    """The values of a run with those of an override in their places."""
    out = list(base)
    for place, value in part.values:
        out[place] = value
    return out


def _gives_number(step: Step) -> bool:
    """Whether a step calculates a number, so that one that is not finite is none."""
    counts = isinstance(step.law, Balance) and step.law.op in COUNTING
    return counts or isinstance(step.law, Instance | Conversion)


def _undefined(step: Step, cells: Cells, index: Mapping[str, int], error: Exception) -> Undefined:
    for name in step.inputs:
        value = cells[index[name]]
        if isinstance(value, Undefined):
            return value
    if isinstance(error, NoValue):
        return Undefined(str(error))
    return Undefined(f"no value for {step.node}: {_plainly(error)}")


def _plainly(error: Exception) -> str:
    """What went wrong in a calculation, in words for a teacher."""
    if isinstance(error, OverflowError):
        return "a number too large to hold"
    if isinstance(error, ZeroDivisionError):
        return "a division by zero"
    if isinstance(error, LookupError):
        return "a choice that leads nowhere"
    return "the logarithm or root of a number that has none" if "math domain" in str(error) else str(error)
