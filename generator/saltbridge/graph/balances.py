"""Balancing as steps of a graph: equations, and diagrams and expressions too, are texts among its values, and what is counted from one follows its factor.

An equation's own value is the factor by which it is a multiple of the right one: 2 doubled, -1 the other way round. It stands at a node
of its own, which the right equation leaves at 1.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from typing import Any

from saltbridge.chemistry.equation_operations import OPERATIONS
from saltbridge.chemistry.equations import Equation, parse_equation
from saltbridge.chemistry.notations import NOTATIONS, written
from saltbridge.chemistry.reshaping import RESHAPES, reshaped
from saltbridge.faults import Faulty
from saltbridge.graph.laws import Balance, Undefined

Run = Callable[[list[Any]], Any]


def compiled(law: Balance, index: Mapping[str, int]) -> Run:
    """The step that makes an equation as a function of a graph's values; one that counts from it is a tree (``to_json``)."""
    places = [index[name] for name in law.inputs]
    return lambda cells: _text(law.op, "", _made_from(law, places, cells))


def reshaped_law(law: Balance, index: Mapping[str, int], name: str) -> Run | None:
    """The step as a student does it who makes the error of this name; ``None`` for a step that gives no equation."""
    known = NOTATIONS[law.op].reshapes if law.op in NOTATIONS else RESHAPES if law.op in OPERATIONS else ()
    if name not in known:
        return None
    places = [index[each] for each in law.inputs]
    return lambda cells: _text(law.op, name, _made_from(law, places, cells))


def _made_from(law: Balance, places: Sequence[int], cells: Sequence[Any]) -> Sequence[Any]:
    """The texts that a step works on: all inputs, or the one that the choice among them means."""
    if not law.keys:
        return [cells[place] for place in places]
    return [cells[places[1 + law.keys.index(cells[places[0]])]]]


def _text(op: str, error: str, texts: Sequence[Any]) -> Any:
    for each in texts:
        if isinstance(each, Undefined):
            return each
    return _written(op, error, tuple(texts))


@lru_cache(maxsize=4096)
def _written(op: str, error: str, texts: tuple[str, ...]) -> str | Undefined:
    """What an operation makes of these, rightly or with the error of that name; kept, since draws meet few of them."""
    try:
        if op in NOTATIONS:
            noted = written(op, error, texts)
            return Undefined("nothing comes of it") if noted is None else noted.text
        made_from = [parse_equation(text) for text in texts]
        found: Equation | None = OPERATIONS[op](made_from)
        if error and found is not None:
            found = reshaped(error, [each.bare for each in made_from], found.bare)
    except Faulty as fault:
        return Undefined(fault.faults[0].expected)
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
