"""A step as a tree for the page's interpreter, which knows numbers, names, arithmetic and a few rules."""

from __future__ import annotations

from typing import Any

from saltbridge.algebra.expression import Tree, to_json
from saltbridge.graph.balances import to_json as balance_json
from saltbridge.graph.laws import Balance, Conversion, Instance, Rule
from saltbridge.graph.planner import Step
from saltbridge.graph.rules import to_json as rule_json


def step_json(step: Step) -> Any | None:
    """The step's law as nested lists, or ``None`` for a given and for what the page can't run."""
    match step.law:
        case Instance() if step.tree is not None:
            return _equation(step, step.law, step.tree)
        case Conversion(source=source, factor=factor, offset=offset):
            scaled = ["*", source, factor]
            return ["+", scaled, offset] if offset else scaled
        case Rule():
            return rule_json(step.law)
        case Balance():
            return balance_json(step.law)
        case _:
            return None


def _equation(step: Step, law: Instance, tree: Tree) -> Any:
    """The tree; to the power of the factor by which its equation is taken, where it has one."""
    plain = to_json(tree)
    return ["^", plain, law.power] if law.power and step.node == law.subject else plain
