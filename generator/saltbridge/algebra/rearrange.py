"""Solving an equation for any of its names, as a teacher does: undo one operation at a time.

Where the unknown stands twice, SymPy solves it; the tests let SymPy prove every rearrangement.
"""

from __future__ import annotations

import contextlib
import math
from functools import lru_cache

from saltbridge.algebra.expression import Bin, Fn, Neg, Num, Ref, Tree, as_text, count, size
from saltbridge.faults import fault

_MOST_PLACES, _MOST_TERMS = 4, 40  # what SymPy is given: a stranger's equation must not keep it busy
HIGHEST_DEGREE = 4  # of an equation that SymPy is asked to solve; past it a solver may never end
_INVERSE = {"ln": "exp", "exp": "ln", "lg": "exp10", "exp10": "lg"}


@lru_cache(maxsize=4096)
def solve(subject: str, tree: Tree, unknown: str) -> Tree:
    """From ``subject = tree`` the tree that ``unknown`` equals.

    Raises ``Faulty`` (code ``rearrange``) where the equation does not hold the unknown or can't be solved for it.
    """
    if unknown == subject:
        return tree
    if count(tree, unknown) == 1:
        return _unwind(Ref(subject), tree, unknown)
    if count(tree, unknown) == 0:
        raise fault("rearrange", expected=f"an equation that holds {unknown}", found=f"{subject} = {as_text(tree)}")
    return _by_sympy(subject, tree, unknown)


def _unwind(known: Tree, tree: Tree, unknown: str) -> Tree:
    while tree != Ref(unknown):
        match tree:
            case Neg(body):
                known, tree = Neg(known), body
            case Bin(op, left, right):
                on_left = count(left, unknown) == 1
                known, tree = (_undo_left(op, known, right), left) if on_left else (_undo_right(op, known, left), right)
            case Fn(name, (body,)) if name in _INVERSE:
                known, tree = Fn(_INVERSE[name], (known,)), body
            case Fn("sqrt", (body,)):
                known, tree = Bin("^", known, Num("2")), body
            case _:
                raise fault("rearrange", expected="an equation that can be undone step by step", found=as_text(tree))
    return known


def _undo_left(op: str, known: Tree, right: Tree) -> Tree:
    """``x op right = known`` → x."""
    if op == "^":
        return Bin("^", known, Bin("/", Num("1"), right))
    inverse = {"+": "-", "-": "+", "*": "/", "/": "*"}[op]
    return _tidy(Bin(inverse, known, right))


def _undo_right(op: str, known: Tree, left: Tree) -> Tree:
    """``left op x = known`` → x."""
    match op:
        case "+":
            return Bin("-", known, left)
        case "-":
            return Bin("-", left, known)
        case "*":
            return _tidy(Bin("/", known, left))
        case "/":
            return _tidy(Bin("/", left, known))
        case _:
            raise fault("rearrange", expected="no unknown in an exponent", found="a power with the unknown above")


def _tidy(tree: Tree) -> Tree:
    """(a/b)·c and (a − b)/(−c/d) read better as one fraction: a·c/b, (b − a)·d/c."""
    match tree:
        case Bin("/", top, Neg(bottom)):
            return _tidy(Bin("/", _turned(top), bottom))
        case Bin("/", top, Bin("/", num, den)):
            return Bin("/", top if den == Num("1") else Bin("*", top, den), num)
        case Bin("/", Bin("/", top, first), second):
            return Bin("/", top, Bin("*", first, second))
        case Bin("*", Bin("/", top, bottom), factor):
            return Bin("/", Bin("*", top, factor), bottom)
        case _:
            return tree


def _turned(tree: Tree) -> Tree:
    match tree:
        case Bin("-", left, right):
            return Bin("-", right, left)
        case Neg(body):
            return body
        case _:
            return Neg(tree)


def _degree(tree: Tree, unknown: str) -> float:
    """How high a power of the unknown an expanded tree may hold; infinite where that can't be told beforehand."""
    match tree:
        case Ref(name):
            return float(name == unknown)
        case Neg(body):
            return _degree(body, unknown)
        case Bin("+" | "-", left, right):
            return max(_degree(left, unknown), _degree(right, unknown))
        case Bin("^", base, exponent):
            if not (_degree(base, unknown) or _degree(exponent, unknown)):
                return 0.0
            whole = isinstance(exponent, Num) and exponent.value.is_integer()
            return _degree(base, unknown) * abs(exponent.value) if isinstance(exponent, Num) and whole else math.inf
        case Bin(_, left, right):
            return _degree(left, unknown) + _degree(right, unknown)
        case Fn(_, args):
            return 2 * sum(_degree(arg, unknown) for arg in args)
        case Num():
            return 0.0


def _by_sympy(subject: str, tree: Tree, unknown: str) -> Tree:
    if not 0 < _degree(tree, unknown) <= HIGHEST_DEGREE:
        raise fault(
            "rearrange", expected=f"{unknown} in no higher power than {HIGHEST_DEGREE}", found=f"{subject} = {as_text(tree)}"
        )
    import sympy  # noqa: PLC0415 - SymPy is slow to import and rarely needed

    from saltbridge.algebra.sympy_bridge import from_sympy, to_sympy  # noqa: PLC0415 - as above

    symbol = sympy.Symbol(unknown, positive=True)
    solutions = []
    if count(tree, unknown) <= _MOST_PLACES and size(tree) <= _MOST_TERMS:
        with contextlib.suppress(RuntimeError):  # SymPy raises a kind of it for an equation that it has no way to solve
            solutions = sympy.solve(to_sympy(tree, {unknown: symbol}) - sympy.Symbol(subject), symbol)
    for solution in solutions:
        if not solution.has(sympy.I):
            return from_sympy(solution)
    raise fault("rearrange", expected=f"an equation that can be solved for {unknown}", found=f"{subject} = {as_text(tree)}")
