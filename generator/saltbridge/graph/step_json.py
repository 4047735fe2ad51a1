"""A step as a tree for the page's interpreter, which knows numbers, names, arithmetic and a few rules."""

from __future__ import annotations

from typing import Any

from saltbridge.algebra.expression import Tree, to_json
from saltbridge.graph.laws import Conversion, Instance, Rule
from saltbridge.graph.planner import Step
from saltbridge.graph.rules import to_json as rule_json

SIDES = ("left", "right")


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
        case _:
            return None


def _equation(step: Step, law: Instance, tree: Tree) -> Any:
    """The tree; upside down on the side of a choice that would turn the reaction round."""
    plain = to_json(tree)
    if law.turn is None or step.node != law.subject:
        return plain
    role, right = law.turn
    return ["pick", role, {side: plain if side == right else ["/", 1, plain] for side in SIDES}]
