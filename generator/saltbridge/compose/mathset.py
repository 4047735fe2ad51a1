"""Expression trees set as formulas: with symbols, or with a variant's numbers in slots."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from saltbridge.algebra.expression import Bin, Fn, Neg, Num, Ref, Tree, precedence
from saltbridge.compose.printing import Printer
from saltbridge.compose.slots import Slots
from saltbridge.document import (
    Call,
    Fenced,
    Fraction,
    Inscription,
    MathNode,
    Piece,
    Power,
    Root,
    Row,
    Sign,
    Slot,
    Speech,
    Symbol,
)  # fmt: skip
from saltbridge.graph.laws import Situation

ATOM = "A."  # before the element, the node of a molar mass of single atoms
_LIKE = re.compile(r"[a-z]+(\d+)\.")
PLUS, MINUS = Sign("+", "plus"), Sign("−", "minus")
TIMES = Sign("×", "times")
_E = Symbol("e", "e", italic=False)
_TEN = Inscription("number", (Piece("base", "10"),), "10")
Leaf = Callable[[str], MathNode]


class MathSetter:
    """Sets trees over the nodes of one shape; values and labels go to slots."""

    def __init__(self, printer: Printer, situation: Situation, slots: Slots) -> None:
        self.printer, self.slots = printer, slots
        self.about = dict(situation.about)

    def symbol(self, node: str) -> MathNode:
        """The symbol of a node, with what it is of in brackets: E°(Zn²⁺/Zn)."""
        if node.startswith(ATOM):
            atom = node.removeprefix(ATOM)
            return Row((self.printer.symbol("M"), Inscription("species", (Piece("base", f"({atom})"),), atom)))
        symbol = self.printer.symbol(node)
        quantity = self.printer.entry(node)
        label = self.about.get(node.split(":", 1)[0])
        if label is None and quantity is not None:
            return _numbered(symbol, node)
        if label is None or quantity is None or not quantity.of:
            return symbol
        return Row(
            (
                symbol,
                self.slots.slot(f"bracketed {label}", lambda context: (self.printer.bracketed(context.situation.labels[label]),)),
            )
        )

    def number(self, node: str) -> Slot:
        """A node's number, bracketed where it has a sign."""
        return self.slots.slot(f"number {node}", lambda context: (context.number(node),))

    def bare_number(self, node: str) -> Slot:
        """A node's number where nothing stands beside it: above or below a line, in an exponent, after a function's name."""
        return self.slots.slot(f"bare number {node}", lambda context: (context.bare_number(node),))

    def inner_quantity(self, node: str) -> Slot:
        """A node's number with its unit, bracketed where it has a sign."""
        return self.slots.slot(f"inner quantity {node}", lambda context: (context.inner_quantity(node),))

    def quantity(self, node: str) -> Slot:
        """A node's number with its unit."""
        return self.slots.slot(f"quantity {node}", lambda context: (context.quantity(node),))

    def result(self, node: str) -> Slot:
        """What a line ends in: the number that is used on, and the answer where that has fewer figures."""
        return self.slots.slot(f"result {node}", lambda context: (context.result(node),))

    def answer(self, node: str) -> Slot:
        """A node's number as it was asked for, with its unit."""
        return self.slots.slot(f"answer {node}", lambda context: (context.answer(node),))

    def symbols(self, tree: Tree) -> MathNode:
        """The tree with symbols."""
        return _set(tree, _Leaves(*[self._symbol_or_slope] * 4), product=None)

    def _symbol_or_slope(self, node: str) -> MathNode:
        """The symbol; RT ln 10/F at 25 °C, which has no symbol of its own in class, as its value from the data sheet."""
        return self.quantity(node) if node == "slope" else self.symbol(node)

    def numbers(self, tree: Tree, *, pure: bool = False) -> MathNode:
        """The tree with numbers, with their units where the bank keeps those; ``pure``: a quotient of activities has none."""
        leaves = _Leaves(self.inner_quantity, self.quantity, self.number, self.bare_number)
        kept = self.printer.settings.units_in_lines and not pure
        return _set(tree, leaves if kept else leaves.pure, product=TIMES)


def _numbered(symbol: Symbol, node: str) -> Symbol:
    """The symbol of one of several like things, with its number: the second run, the third reading."""
    found = _LIKE.match(node)
    if found is None or not isinstance(symbol.sub, str):
        return symbol
    return replace(symbol, spoken=f"{symbol.spoken} {found[1]}", sub=f"{symbol.sub} {found[1]}".strip())


class _Leaves(NamedTuple):
    """How a name is set: among other terms, and alone above or below a line; both also inside a function, which takes pure numbers."""

    inside: Leaf
    alone: Leaf
    pure_inside: Leaf
    pure_alone: Leaf

    @property
    def pure(self) -> _Leaves:
        """The same for pure numbers."""
        return _Leaves(self.pure_inside, self.pure_alone, self.pure_inside, self.pure_alone)


_OF_NUMBERS = frozenset({"ln", "lg", "exp", "exp10"})


def _set(tree: Tree, leaves: _Leaves, product: Sign | None, *, alone: bool = False) -> MathNode:
    match tree:
        case Num(text):
            return Inscription("number", (Piece("base", text.removesuffix(".0")),), text.removesuffix(".0"))
        case Ref(name):
            return (leaves.alone if alone else leaves.inside)(name)
        case Neg(body):
            return Row((MINUS, _held(body, 2, leaves, product)))
        case Bin("+" | "-" as op, left, right):
            first = _held(left, 1, leaves, product, alone=not isinstance(right, Ref))
            return _joined(first, PLUS if op == "+" else MINUS, _held(right, 2, leaves, product))
        case Bin("*", left, right):
            held = _held(right, 2 if _is_product(right) else 3, leaves, product)
            return _joined(_held(left, 2, leaves, product), product, held)
        case Bin("/", left, right):
            return Fraction(_set(left, leaves, product, alone=True), _set(right, leaves, product, alone=True))
        case Bin(_, left, right):
            return Power(_held(left, 5, leaves, product), _set(right, leaves, product, alone=True))
        case Fn(name, args):
            inner = leaves.pure if name in _OF_NUMBERS else leaves
            return _set_call(name, [_set(arg, inner, product, alone=True) for arg in args])


def _is_product(tree: Tree) -> bool:
    return isinstance(tree, Bin) and tree.op == "/"


def _held(tree: Tree, least: int, leaves: _Leaves, product: Sign | None, *, alone: bool = False) -> MathNode:
    node = _set(tree, leaves, product, alone=alone)
    return node if precedence(tree) >= least or (isinstance(tree, Bin) and tree.op == "/") else Fenced(node)


def _joined(left: MathNode, sign: Sign | None, right: MathNode) -> Row:
    first = left.items if isinstance(left, Row) and any(isinstance(item, Sign) for item in left.items) else (left,)
    return Row((*first, *((sign,) if sign else ()), right))


def _set_call(name: str, args: list[MathNode]) -> MathNode:
    body = args[0]
    match name:
        case "ln" | "lg":
            return Call(
                name,
                SAID[name],
                Fenced(body) if isinstance(body, Row | Inscription | Slot) else body,
            )
        case "exp":
            return Power(_E, body)
        case "exp10":
            return Power(_TEN, body)
        case "sqrt":
            return Root(body)
        case "abs":
            return Row((Sign("|", "size of"), body, Sign("|", "")))
        case _:
            return Call(name, name, Fenced(Row((args[0], Sign(",", "and"), args[1]))))


# ------------------------------------------------------------------ speech


SAID = {
    "+": "plus", "−": "minus", "×": "times", "=": "equals", "|": "size of", ",": "and", "(": "bracket", ")": "close bracket",
    "ln": "natural log of", "lg": "log of", "/": "over", "^": "to the power", "√": "square root of", "{": "all of", "}": "end",
}  # fmt: skip
"""What the signs of a formula are said as."""


def speech(node: MathNode, say: Callable[[str], str]) -> Speech:
    """Words for a formula, put into the bank's language by ``say``, with whole numbers for slots."""
    match node:
        case Symbol():
            return (node.spoken,)
        case Inscription():
            return (node.spoken,)
        case Sign():
            return (say(node.spoken),) if node.spoken else ()
        case Slot(index):
            return (index,)
        case Fraction(top, bottom):
            return (*_grouped(top, say), say(SAID["/"]), *_grouped(bottom, say))
        case Power(base, exponent):
            return (*_grouped(base, say), say(SAID["^"]), *_grouped(exponent, say))
        case Fenced(body):
            return (say(SAID["("]), *speech(body, say), say(SAID[")"]))
        case Call(_, said, body):
            return (say(said), *speech(body, say))
        case Root(body):
            return (say(SAID["√"]), *_grouped(body, say))
        case Row(items):
            return tuple(word for item in items for word in speech(item, say))


def _grouped(node: MathNode, say: Callable[[str], str]) -> Speech:
    """Several terms are said as one group, so that a listener hears where a fraction ends."""
    said = speech(node, say)
    return (say(SAID["{"]), *said, say(SAID["}"])) if isinstance(node, Row) and len(node.items) > 2 else said


def spaced(parts: Speech) -> Speech:
    """Speech with a space between its parts, neighbouring words joined."""
    out: list[str | int] = []
    for part in parts:
        if out and isinstance(part, str) and isinstance(out[-1], str):
            out[-1] = f"{out[-1]} {part}"
        else:
            if out:
                out.append(" ") if isinstance(out[-1], int) and isinstance(part, int) else None
            out.append(part)
    return tuple(_with_spaces(out))


def _with_spaces(parts: list[str | int]) -> list[str | int]:
    return [
        f"{' ' if place and isinstance(parts[place - 1], int) else ''}{part}{' ' if place + 1 < len(parts) else ''}"
        if isinstance(part, str) and part.strip()
        else part
        for place, part in enumerate(parts)
    ]
