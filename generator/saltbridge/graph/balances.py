"""Balancing as steps of a graph: equations are texts among its values, and what is counted from one follows its factor.

An equation's own value is the factor by which it is a multiple of the right one: 2 doubled, -1 the other way round. It stands at a node
of its own, which the right equation leaves at 1.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from saltbridge.chemistry.equation_operations import OPERATIONS
from saltbridge.chemistry.equations import Equation, parse_equation
from saltbridge.chemistry.reshaping import reshaped
from saltbridge.faults import Faulty
from saltbridge.graph.laws import Balance, Undefined

Run = Callable[[list[Any]], Any]


def compiled(law: Balance, index: Mapping[str, int]) -> Run:
    """The step that makes an equation as a function of a graph's values; one that counts from it is a tree (``to_json``)."""
    places = [index[name] for name in law.inputs]
    return lambda cells: _text(_right, _made_from(law, places, cells), law.op)


def reshaped_law(law: Balance, index: Mapping[str, int], name: str) -> Run | None:
    """The step as a student does it who makes the error of this name; ``None`` for a step that gives no equation."""
    if law.op not in OPERATIONS:
        return None
    places = [index[each] for each in law.inputs]

    def wrong(made_from: Sequence[Equation], op: str) -> Equation | None:
        bare = [each.bare for each in made_from]
        return reshaped(name, bare, _right(made_from, op).bare)

    return lambda cells: _text(wrong, _made_from(law, places, cells), law.op)


def _right(made_from: Sequence[Equation], op: str) -> Equation:
    return OPERATIONS[op](made_from)


def _made_from(law: Balance, places: Sequence[int], cells: Sequence[Any]) -> Sequence[Any]:
    """The texts that a step works on: all inputs, or the one that the choice among them means."""
    if not law.keys:
        return [cells[place] for place in places]
    return [cells[places[1 + law.keys.index(cells[places[0]])]]]


def _text(make: Callable[[Sequence[Equation], str], Equation | None], texts: Sequence[Any], op: str) -> Any:
    for each in texts:
        if isinstance(each, Undefined):
            return each
    try:
        found = make([parse_equation(text) for text in texts], op)
    except Faulty as error:
        return Undefined(error.faults[0].expected)
    return Undefined("no equation comes of it") if found is None else found.text


def to_json(law: Balance) -> Any | None:
    """A number counted from an equation as a tree for the page; ``None`` for an equation, since nothing is balanced there."""
    if law.op == "counted":
        return ["*", law.inputs[0], ["abs", law.inputs[1]]]
    if law.op == "direction":
        choice, factor = law.inputs
        right, other = law.keys
        return ["pick", choice, {right: factor, other: ["neg", factor]}]
    return None
