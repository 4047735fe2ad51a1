"""Expression trees to SymPy and back; the only file of the derivation that knows SymPy (imported late by its callers)."""

from __future__ import annotations

from collections.abc import Mapping
from functools import reduce
from typing import Any

import sympy

from saltbridge.algebra.expression import Bin, Fn, Neg, Num, Ref, Tree
from saltbridge.faults import fault

_TO: Mapping[str, Any] = {
    "ln": sympy.log, "lg": lambda x: sympy.log(x) / sympy.log(10), "exp": sympy.exp, "exp10": lambda x: sympy.Integer(10) ** x,
    "sqrt": sympy.sqrt, "abs": sympy.Abs, "min": sympy.Min, "max": sympy.Max,
}  # fmt: skip


def to_sympy(tree: Tree, symbols: Mapping[str, Any] | None = None) -> Any:
    """The tree as a SymPy expression; names become positive symbols unless given in ``symbols``."""
    known = symbols or {}
    match tree:
        case Num(text):
            return sympy.Rational(text)
        case Ref(name):
            return known.get(name, sympy.Symbol(name, positive=True))
        case Neg(body):
            return -to_sympy(body, known)
        case Fn(name, args):
            return _TO[name](*(to_sympy(arg, known) for arg in args))
        case Bin(op, left, right):
            a, b = to_sympy(left, known), to_sympy(right, known)
            return {"+": a + b, "-": a - b, "*": a * b, "/": a / b, "^": a**b}[op] if op != "/" else a / b


def from_sympy(expression: Any) -> Tree:
    """A tree from a SymPy expression made of sums, products, powers, exp and log; raises ``Faulty`` for anything else."""
    if expression.is_Symbol:
        return Ref(str(expression))
    if expression.is_Integer:
        return Num(str(int(expression))) if expression >= 0 else Neg(Num(str(-int(expression))))
    if expression.is_Rational:
        return Bin("/", from_sympy(sympy.Integer(expression.p)), Num(str(expression.q)))
    if expression.is_Float:
        return Num(repr(float(expression)))
    if expression.is_Add:
        return _sum(expression)
    if expression.is_Mul:
        if expression.could_extract_minus_sign():
            return Neg(from_sympy(-expression))
        top, bottom = expression.as_numer_denom()
        if bottom != 1:
            return Bin("/", from_sympy(top), from_sympy(bottom))
        return reduce(
            lambda left, right: Bin("*", left, right), (from_sympy(factor) for factor in expression.as_ordered_factors())
        )
    if expression.is_Pow:
        return Bin("^", from_sympy(expression.base), from_sympy(expression.exp))
    if isinstance(expression, sympy.log):
        return Fn("ln", (from_sympy(expression.args[0]),))
    if isinstance(expression, sympy.exp):
        return Fn("exp", (from_sympy(expression.args[0]),))
    raise fault("rearrange", expected="an expression of sums, products and powers", found=str(expression))


def _sum(expression: Any) -> Tree:
    """A sum with its positive terms first, so that it never opens with a minus where it need not."""
    terms = sorted(expression.as_ordered_terms(), key=lambda term: bool(term.could_extract_minus_sign()))
    tree = from_sympy(terms[0])
    for term in terms[1:]:
        negative = term.could_extract_minus_sign()
        tree = Bin("-" if negative else "+", tree, from_sympy(-term if negative else term))
    return tree
