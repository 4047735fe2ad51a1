"""The small interpreter of a key's graph: later steps as JSON trees, run again with a student's own value or a slip.

A tree is a number, a name, or a list whose head is an operation. Nothing raises: what can't be computed is None
(undefined) and stays so downstream. The script's ``run`` is its twin.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from saltbridge.sigfigs import to_decimals, to_figures

Value = float | str | None
Tree = Any
"""A JSON tree; checked when it is made, so this file trusts its shape."""

_NUMERAL = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")


def run(
    graph: Sequence[Mapping[str, Any]],
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
    steps = {step["node"] for step in graph}
    before = {node: _of(tree, values) for node, tree in put.items() if node not in steps}
    values.update(before)
    last = target or (graph[-1]["node"] if graph else "")
    for step in graph:
        node = step["node"]
        values[node] = evaluate(step["tree"], values)
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
        return float(value) if _NUMERAL.fullmatch(value) else value
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value)
    return None


def _of(tree: Tree, values: Mapping[str, Value]) -> Value:
    """What is put at a node: a text that names nothing is a side."""
    if isinstance(tree, list):
        return evaluate(tree, values)
    value = plain(tree)
    return values[value] if isinstance(value, str) and value in values else value


def evaluate(tree: Tree, values: Mapping[str, Value]) -> Value:
    """The value of a tree; None where it is undefined."""
    if isinstance(tree, str):
        return plain(tree) if _NUMERAL.fullmatch(tree) else values.get(tree)
    if not isinstance(tree, list):
        return plain(tree)
    head, *rest = tree
    if head in _CHOOSING:
        return _CHOOSING[head](rest, values)
    numbers = [evaluate(part, values) for part in rest]
    terms = [number for number in numbers if isinstance(number, float)]
    if len(terms) != len(rest):
        return None
    try:
        result = _ARITHMETIC[head](*terms)
    except (ArithmeticError, ValueError):
        return None
    return result if math.isfinite(result) else None


_ARITHMETIC: Mapping[str, Callable[..., float]] = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "*": lambda a, b: a * b,
    "/": lambda a, b: a / b,
    "^": math.pow,
    "neg": lambda a: -a,
    "ln": math.log,
    "lg": math.log10,
    "exp": math.exp,
    "exp10": lambda a: math.pow(10.0, a),
    "sqrt": math.sqrt,
    "abs": abs,
    "min": min,
    "max": max,
}


def _pick(rest: list[Any], values: Mapping[str, Value]) -> Value:
    """["pick", side, {"left": a, "right": b}]."""
    side, options = evaluate(rest[0], values), rest[1]
    return evaluate(options[side], values) if isinstance(side, str) and side in options else None


def _extreme(options: Mapping[str, Tree], values: Mapping[str, Value], sign: int) -> Value:
    """The key of the greatest value (times ``sign``); undefined on a tie."""
    numbers = {key: evaluate(tree, values) for key, tree in options.items()}
    sizes = {key: sign * number for key, number in numbers.items() if isinstance(number, float)}
    if len(sizes) != len(options) or not sizes:
        return None
    top = max(sizes.values())
    found = [key for key, size in sizes.items() if size == top]
    return found[0] if len(found) == 1 else None


def _other(rest: list[Any], values: Mapping[str, Value]) -> Value:
    """["other", side, ["left", "right"]]."""
    side, sides = evaluate(rest[0], values), rest[1]
    left_over = [each for each in sides if each != side]
    return left_over[0] if side in sides and len(left_over) == 1 else None


_CHOOSING: Mapping[str, Callable[[list[Any], Mapping[str, Value]], Value]] = {
    "pick": _pick,
    "highest": lambda rest, values: _extreme(rest[0], values, 1),
    "lowest": lambda rest, values: _extreme(rest[0], values, -1),
    "other": _other,
}


def _rounded(value: Value, rounding: Mapping[str, int]) -> Value:
    if not isinstance(value, float):
        return value
    if "figures" in rounding:
        return float(to_figures(value, rounding["figures"]))
    return float(to_decimals(value, rounding["decimals"]))
