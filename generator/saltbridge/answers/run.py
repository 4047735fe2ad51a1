"""The steps of a key run again with a student's own value or a slip: the programs of the graph, on values by name.

Nothing raises: what can't be computed is None (undefined) and stays so downstream. The page's ``trees.js`` is the twin.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.algebra.programs import ARITHMETIC, NUMERAL, ByName, Compiled, Program, compiled
from saltbridge.sigfigs import to_decimals, to_figures

Value = float | str | None
Steps = Sequence[Mapping[str, Any]]
_KEPT = 64
_BY_NAME = ByName()
_programs: dict[int, tuple[Steps, tuple[tuple[str, Compiled], ...]]] = {}
"""The programs of the graphs seen last; each holds its graph, so that no other can have its id."""


def run(
    graph: Steps,
    given: Mapping[str, Any],
    put: Mapping[str, Any] | None = None,
    rounding: Mapping[str, int] | None = None,
    target: str = "",
) -> dict[str, Value]:
    """Walk the steps in order and give the value of every node; with a ``target``, of the nodes up to it.

    ``put`` replaces nodes by a number, a side or a tree; a tree may name its own node, which then has its right value.
    ``rounding`` (``{"figures": 3}`` or ``{"decimals": 2}``) rounds every computed value but the target (else the
    last), as a student does who writes each step down. A text that looks like a number is a number.
    """
    put = put or {}
    values: dict[str, Value] = {name: plain(value) for name, value in given.items()}
    program = _program(graph)
    steps = {node for node, _ in program}
    before = {node: _of(tree, values) for node, tree in put.items() if node not in steps}
    values.update(before)
    last = target or (program[-1][0] if program else "")
    for node, law in program:
        values[node] = _value(law, values)
        if node in put:
            values[node] = _of(put[node], values)
        elif rounding and node != last:
            values[node] = _rounded(values[node], rounding)
        if node == last:
            break
    return values


def plain(value: Any) -> Value:
    """A JSON value as number, side or undefined."""
    if isinstance(value, str):
        return float(value) if NUMERAL.fullmatch(value) else value
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    return None


def evaluate(tree: Program, values: Mapping[str, Value]) -> Value:
    """The value of a tree; None where it is undefined."""
    return None if tree is None or isinstance(tree, bool) else _value(_checked(tree), values)


def _program(graph: Steps) -> tuple[tuple[str, Compiled], ...]:
    known = _programs.get(id(graph))
    if known is None or known[0] is not graph:
        if len(_programs) >= _KEPT:
            _programs.clear()
        known = _programs[id(graph)] = (graph, tuple((step["node"], _checked(step["tree"])) for step in graph))
    return known[1]


def _checked(tree: Program) -> Compiled:
    """The tree's program; arithmetic gives a finite number or nothing."""
    law = compiled(tree, _BY_NAME)
    if not isinstance(tree, list) or tree[0] not in ARITHMETIC:
        return law

    def finite(values: Mapping[str, Value]) -> float:
        found = law(values)
        if not math.isfinite(found):
            raise OverflowError("not a finite number")
        return float(found)

    return finite


def _value(law: Compiled, values: Mapping[str, Value]) -> Value:
    try:
        found: Value = law(values)
    except (ArithmeticError, LookupError, TypeError, ValueError):
        return None
    return found


def _of(tree: Program, values: Mapping[str, Value]) -> Value:
    """What is put at a node: a text that names nothing is a side."""
    if isinstance(tree, list):
        return evaluate(tree, values)
    value = plain(tree)
    return values[value] if isinstance(value, str) and value in values else value


def _rounded(value: Value, rounding: Mapping[str, int]) -> Value:
    if not isinstance(value, float):
        return value
    if "figures" in rounding:
        return float(to_figures(value, rounding["figures"]))
    return float(to_decimals(value, rounding["decimals"]))
