"""Results that a teacher writes in the line that uses them: the sum in a mean, the slope in a Nernst line with pH."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from saltbridge.algebra.expression import Bin, Fn, Neg, Num, Ref, Tree, substitute
from saltbridge.catalogue.catalogue import Quantity
from saltbridge.graph.laws import Instance, flags_of
from saltbridge.graph.planner import Step


def put_in(
    steps: Sequence[Step], target: str, quantities: Mapping[str, Quantity], put: Mapping[str, Tree] | None = None
) -> list[Step]:
    """The steps of a working, each result that is flagged so put into the relations that use it.

    What is asked for, converted or chosen by keeps its line. ``put``: laws overridden by a slip.
    """
    trees: dict[str, Tree] = {}
    found: list[Step] = []
    apart = {name for step in steps if not isinstance(step.law, Instance) for name in step.inputs} | {target}
    for step in steps:
        if not isinstance(step.law, Instance) or step.tree is None:
            found.append(step)
            continue
        tree, law_tree = (plain_signs(substitute(each, trees)) for each in ((put or {}).get(step.node, step.tree), step.law.tree))
        if step.node not in apart and step.node == step.law.subject and flags_of(step.node, quantities).put_in:
            trees[step.node] = tree
        elif trees:
            found.append(Step(step.node, step.how, step.inputs, replace(step.law, tree=law_tree), tree))
        else:
            found.append(step)
    return found


def flagged(steps: Iterable[Step], quantities: Mapping[str, Quantity]) -> frozenset[str]:
    """The results among the steps that may be put into others."""
    return frozenset(step.node for step in steps if isinstance(step.law, Instance) and flags_of(step.node, quantities).put_in)


def plain_signs(tree: Tree) -> Tree:
    """The tree without a plus before a minus: a + (−b) c as a − b c."""
    match tree:
        case Bin(op, left, right):
            return _signed(op, plain_signs(left), plain_signs(right))
        case Neg(body):
            return Neg(plain_signs(body))
        case Fn(name, args):
            return Fn(name, tuple(plain_signs(each) for each in args))
        case Num() | Ref():
            return tree


def _signed(op: str, left: Tree, right: Tree) -> Tree:
    if op == "*" and isinstance(left, Neg):
        return Neg(Bin("*", left.body, right))
    if op in {"+", "-"} and isinstance(right, Neg):
        return Bin("-" if op == "+" else "+", left, right.body)
    return Bin(op, left, right)
