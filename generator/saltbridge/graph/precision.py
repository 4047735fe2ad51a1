"""How many digits a result deserves, carried through a derivation by the rules taught in school.

Sums keep the coarsest last place, products the fewest figures, a logarithm has as many decimals as its argument has figures,
and a power of ten as many figures as its exponent has decimals (common practice; Harris, Quantitative Chemical Analysis,
chapter 3, from memory).
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from saltbridge.algebra.expression import Bin, Cells, Fn, Neg, Num, Ref, Tree
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Conversion, Given, Instance
from saltbridge.sigfigs import decimals_of, figures_of


class Measured(NamedTuple):
    """A value with the power of ten of its last known place; ``None``: exact."""

    value: float
    place: int | None


_PRODUCTS: Mapping[str, Callable[[float, float], float]] = {"*": operator.mul, "/": operator.truediv, "^": operator.pow}

Look = Callable[[str], Measured]


def exponent(value: float) -> int:
    """The power of ten of the first figure (0 for zero)."""
    return math.floor(math.log10(abs(value)) + 1e-12) if value else 0


def figures(measured: Measured) -> int | None:
    """How many figures a measured value has; ``None``: exact."""
    return None if measured.place is None else max(1, exponent(measured.value) - measured.place + 1)


@lru_cache(maxsize=4096)
def of_printed(printed: str, *, exact: bool) -> Measured:
    """A printed number; a whole count is exact."""
    value = float(Decimal(printed))
    if exact:
        return Measured(value, None)
    if "e" in printed.lower():
        return Measured(value, exponent(value) - figures_of(printed) + 1)
    return Measured(value, -decimals_of(printed))


def of_tree(tree: Tree, look: Look) -> Measured:
    """The value of a tree and its last place. Raises what the arithmetic raises."""
    match tree:
        case Num():
            return Measured(tree.value, None)
        case Ref(name):
            return look(name)
        case Neg(body):
            inner = of_tree(body, look)
            return Measured(-inner.value, inner.place)
        case Bin(op, left, right):
            return _of_pair(op, of_tree(left, look), of_tree(right, look))
        case Fn(name, args):
            return _of_function(name, [of_tree(arg, look) for arg in args])


def _of_pair(op: str, left: Measured, right: Measured) -> Measured:
    if op in {"+", "-"}:
        value = left.value + right.value if op == "+" else left.value - right.value
        places = [each.place for each in (left, right) if each.place is not None]
        return Measured(value, max(places) if places else None)
    value = float(_PRODUCTS[op](left.value, right.value))
    counted = [count for each in (left, right) if (count := figures(each)) is not None]
    return Measured(value, _place(value, min(counted)) if counted else None)


def _of_function(name: str, args: list[Measured]) -> Measured:
    first = args[0]
    count = figures(first)
    match name:
        case "ln" | "lg":
            value = math.log(first.value) if name == "ln" else math.log10(first.value)
            return Measured(value, None if count is None else -count)
        case "exp" | "exp10":
            value = math.exp(first.value) if name == "exp" else 10.0**first.value
            return Measured(value, None if first.place is None else _place(value, max(1, -first.place)))
        case "sqrt":
            value = math.sqrt(first.value)
            return Measured(value, None if count is None else _place(value, count))
        case "abs":
            return Measured(abs(first.value), first.place)
        case _:
            return min(args) if name == "min" else max(args)


def _place(value: float, count: int) -> int:
    return exponent(value) - count + 1


def measured(graph: Graph, cells: Cells, given: Mapping[str, Given]) -> dict[str, Measured]:
    """Every numeric node with its last place, after a run."""
    found: dict[str, Measured] = {}
    for step in graph.steps:
        value = cells[graph.index[step.node]]
        if not isinstance(value, float):
            continue
        match step.law:
            case Instance() if step.tree is not None:
                found[step.node] = Measured(value, of_tree(step.tree, found.__getitem__).place)
            case Conversion():
                found[step.node] = _converted(value, found[step.law.source], step.law)
            case None:
                known = given[step.node]
                found[step.node] = of_printed(known.printed, exact=known.how == "balance")
            case _:
                found[step.node] = next(
                    (found[name] for name in step.inputs[1:] if found.get(name, (None,))[0] == value), Measured(value, None)
                )
    return found


def _converted(value: float, source: Measured, law: Conversion) -> Measured:
    if law.offset > 0 and source.place is not None:  # 25 °C is taken for 298.15 K, not for 298 K
        return Measured(value, min(source.place, -2))
    if law.offset:
        return Measured(value, source.place)
    count = figures(source)
    return Measured(value, None if count is None else _place(value, count))
