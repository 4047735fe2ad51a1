"""Expression trees in the author's order, read from a small safe language.

The language is Python's own expression syntax through a whitelist of its syntax tree: numbers, names, ``+ - * / **``,
unary minus and a few functions. A tree keeps the order in which the author wrote it, so that a working reads
E_cathode - E_anode and not -E_anode + E_cathode. Nothing is ever evaluated as code.
"""

from __future__ import annotations

import ast
import keyword
import re
import warnings
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from saltbridge.algebra.programs import MAX_EXPONENT, Cells, Compiled
from saltbridge.algebra.programs import compiled as program
from saltbridge.faults import Faulty, fault

MAX_LENGTH = 400
MAX_NODES = 120
MAX_DEPTH = 24
MAX_NUMBER = 1e100
_ALPHABET = re.compile(r"[A-Za-z0-9_.,+\-*/^() ]+")


@dataclass(frozen=True, slots=True)
class Num:
    """A plain number; ``text`` is how the author wrote it."""

    text: str

    @property
    def value(self) -> float:
        """The number as a float."""
        return float(self.text)


@dataclass(frozen=True, slots=True)
class Ref:
    """A quantity, by name."""

    name: str


@dataclass(frozen=True, slots=True)
class Bin:
    """Two terms and one of ``+ - * / ^``."""

    op: str
    left: Tree
    right: Tree


@dataclass(frozen=True, slots=True)
class Neg:
    """A term with its sign turned."""

    body: Tree


@dataclass(frozen=True, slots=True)
class Fn:
    """A function of one term: ln, lg, exp, exp10, sqrt, abs; or of two: min, max."""

    name: str
    args: tuple[Tree, ...]


Tree = Num | Ref | Bin | Neg | Fn

FUNCTIONS: Mapping[str, int] = {"ln": 1, "lg": 1, "exp": 1, "exp10": 1, "sqrt": 1, "abs": 1, "min": 2, "max": 2}
_OPERATORS: Mapping[type[ast.operator], str] = {
    ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "^",
}  # fmt: skip


# ------------------------------------------------------------------ reading


@lru_cache(maxsize=2048)
def parse(text: str) -> Tree:
    """Read an expression such as ``E0_cell - R*T/(n*F)*ln(Q)``.

    Raises ``Faulty`` (code ``expression``) naming what is not allowed.
    """
    if len(text) > MAX_LENGTH:
        raise fault("expression", expected=f"at most {MAX_LENGTH} characters", found=f"{len(text)} characters")
    if _ALPHABET.fullmatch(text) is None:
        odd = next((each for each in text if _ALPHABET.fullmatch(each) is None), "")
        raise fault(
            "expression",
            expected="unaccented letters, digits, spaces and _ . , + - * / ^ ( )",
            found=f"{odd!r} (U+{ord(odd):04X}) in {text[:60]!r}" if odd else "nothing",
            hint="Some letters and signs only look alike; type them anew.",
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")  # Python only warns of 1if, which is no number of ours
            body = ast.parse(text.strip().replace("^", "**"), mode="eval").body
    except (SyntaxError, ValueError, MemoryError, RecursionError) as error:
        raise fault(
            "expression",
            expected="an expression such as E0_cathode - E0_anode",
            found=repr(text),
            hint="Check brackets and signs.",
        ) from error
    counter = [0]
    return _read(body, text, counter, 0)


def parse_equation(text: str) -> tuple[str, Tree]:
    """Read ``name = expression``; raises ``Faulty`` where the left side is not one name."""
    left, sign, right = text.partition("=")
    name = left.strip()
    if not sign or not name.isidentifier() or not name.isascii() or keyword.iskeyword(name):
        raise fault(
            "expression", expected="an equation such as q = I*t", found=repr(text), hint="Write one name, =, an expression."
        )
    return name, parse(right.strip())


def _read(node: ast.expr, text: str, counter: list[int], depth: int) -> Tree:
    counter[0] += 1
    if counter[0] > MAX_NODES or depth > MAX_DEPTH:
        raise fault("expression", expected=f"at most {MAX_NODES} terms nested {MAX_DEPTH} deep", found=repr(text[:60]))
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        return _number(node.value, text)
    if isinstance(node, ast.Name):
        return Ref(node.id)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return Neg(_read(node.operand, text, counter, depth + 1))
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATORS:
        left = _read(node.left, text, counter, depth + 1)
        right = _read(node.right, text, counter, depth + 1)
        return _signed(_OPERATORS[type(node.op)], left, right)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in FUNCTIONS and not node.keywords:
        if len(node.args) == FUNCTIONS[node.func.id]:
            return Fn(node.func.id, tuple(_read(arg, text, counter, depth + 1) for arg in node.args))
        raise fault("expression", expected=f"{FUNCTIONS[node.func.id]} term(s) in {node.func.id}()", found=f"{len(node.args)}")
    raise fault(
        "expression",
        expected="numbers, names, + - * / **, brackets and " + ", ".join(FUNCTIONS),
        found=f"{type(node).__name__} in {text[:60]!r}",
        hint="Nothing else is read, so that a shared bank can't run anything.",
    )


def _signed(op: str, left: Tree, right: Tree) -> Tree:
    """-n*F*E is the negative of a product, as it is spoken."""
    if op in {"*", "/"} and isinstance(left, Neg):
        return Neg(Bin(op, left.body, right))
    return Bin(op, left, right)


def _number(value: float, text: str) -> Num:
    if not abs(value) < MAX_NUMBER:
        raise fault("expression", expected=f"a number below {MAX_NUMBER:.0e}", found=repr(text[:60]))
    return Num(repr(value))


# ------------------------------------------------------------------ looking


def names(tree: Tree) -> tuple[str, ...]:
    """The names in a tree in reading order, each once."""
    return tuple(dict.fromkeys(_names(tree)))


def count(tree: Tree, name: str) -> int:
    """How often a name stands in a tree."""
    return sum(1 for each in _names(tree) if each == name)


def size(tree: Tree) -> int:
    """How many numbers, names, signs and operations a tree has."""
    match tree:
        case Bin(_, left, right):
            return 1 + size(left) + size(right)
        case Neg(body):
            return 1 + size(body)
        case Fn(_, args):
            return 1 + sum(size(arg) for arg in args)
        case _:
            return 1


def _names(tree: Tree) -> Iterator[str]:
    match tree:
        case Ref(name):
            yield name
        case Bin(_, left, right):
            yield from _names(left)
            yield from _names(right)
        case Neg(body):
            yield from _names(body)
        case Fn(_, args):
            for arg in args:
                yield from _names(arg)
        case Num():
            return


def substitute(tree: Tree, put: Mapping[str, Tree]) -> Tree:
    """The tree with names replaced by trees."""
    match tree:
        case Ref(name):
            return put.get(name, tree)
        case Bin(op, left, right):
            return Bin(op, substitute(left, put), substitute(right, put))
        case Neg(body):
            return Neg(substitute(body, put))
        case Fn(name, args):
            return Fn(name, tuple(substitute(arg, put) for arg in args))
        case Num():
            return tree


def as_text(tree: Tree) -> str:
    """The tree in the language it was read from (reads back to the same tree)."""
    match tree:
        case Num(text) | Ref(text):
            return text
        case Neg(body):
            return f"-{_wrapped(body, 3)}"
        case Fn(name, args):
            return f"{name}({', '.join(as_text(arg) for arg in args)})"
        case Bin("^", left, right):
            return f"{_wrapped(left, 5)}**{_wrapped(right, 3)}"
        case Bin(op, left, right):
            level = precedence(tree)
            return f"{_wrapped(left, level)}{' ' + op + ' ' if level == 1 else op}{_wrapped(right, level + 1)}"


def precedence(tree: Tree) -> int:
    """How tightly a tree binds: 1 sums, 2 products, 3 signs, 4 powers, 5 single terms."""
    match tree:
        case Bin("+" | "-", _, _):
            return 1
        case Bin("*" | "/", _, _):
            return 2
        case Neg(_):
            return 3
        case Bin("^", _, _):
            return 4
        case _:
            return 5


def _wrapped(tree: Tree, least: int) -> str:
    text = as_text(tree)
    return text if precedence(tree) >= least else f"({text})"


def to_json(tree: Tree) -> Any:
    """The tree as nested lists for the page's interpreter."""
    match tree:
        case Num(_):
            return tree.value
        case Ref(name):
            return name
        case Neg(body):
            return ["neg", to_json(body)]
        case Fn(name, args):
            return [name, *(to_json(arg) for arg in args)]
        case Bin(op, left, right):
            return [op, to_json(left), to_json(right)]


# ------------------------------------------------------------------ running


def compiled(tree: Tree, index: Mapping[str, int]) -> Compiled:
    """A closure that runs the tree on a list of values, ``index`` saying which place each name has.

    The closure raises ``ArithmeticError`` or ``ValueError`` where the tree is not defined and ``TypeError`` where an input
    is not a number.
    """
    return program(to_json(tree), index)


def evaluate(tree: Tree, values: Mapping[str, float]) -> float:
    """The value of a tree; raises ``ArithmeticError``/``ValueError`` where it is not defined, ``Faulty`` for an unknown name."""
    order = names(tree)
    unknown = [name for name in order if name not in values]
    if unknown:
        raise fault("unknown-name", expected="one of " + ", ".join(sorted(values)), found=", ".join(unknown))
    index = {name: place for place, name in enumerate(order)}
    return float(compiled(tree, index)([values[name] for name in order]))


__all__ = [
    "MAX_EXPONENT", "Bin", "Cells", "Compiled", "Faulty", "Fn", "Neg", "Num", "Ref", "Tree", "as_text", "compiled", "count", "evaluate", "names",
    "parse", "parse_equation", "precedence", "size", "substitute", "to_json",
]  # fmt: skip
