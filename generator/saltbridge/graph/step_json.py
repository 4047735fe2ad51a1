"""A step as one tree of operations: what the graph compiles, and what a key carries to the judges."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from saltbridge.algebra.expression import Tree, to_json
from saltbridge.algebra.programs import Program
from saltbridge.catalogue.catalogue import Fact
from saltbridge.catalogue.rules import RuleEntry
from saltbridge.graph.balances import to_json as balance_json
from saltbridge.graph.laws import Balance, Conversion, Instance
from saltbridge.graph.planner import Step


def step_json(step: Step, rules: Mapping[str, RuleEntry]) -> Program | None:
    """The step's law as nested lists, with the reasons why there may be no value; ``None`` for a given and for an equation, which is balanced, not calculated."""
    match step.law:
        case None:
            return None
        case Instance() as law:
            assert step.tree is not None  # noqa: S101 - the planner solved it
            return _equation(step, law, step.tree)
        case Conversion(source=source, factor=factor, offset=offset):
            scaled = ["*", source, factor]
            return ["+", scaled, offset] if offset else scaled
        case Fact(right=right):
            return ["text", right]
        case Balance() as law:
            return balance_json(law)
        case law:
            return rules[law.rule].program(law.inputs, law.keys)


def _equation(step: Step, law: Instance, tree: Tree) -> Any:
    """The tree; to the power of the factor by which its equation is taken, where it has one."""
    plain = to_json(tree)
    return ["^", plain, law.power] if law.power and step.node == law.subject else plain
