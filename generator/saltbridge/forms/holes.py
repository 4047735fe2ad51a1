"""Holes and branches: Jinja2 parses the source, a whitelist keeps names, our filters, comparison and if; nothing is ever run.

The result is text in which each hole or branch is one private-use character, so that Markdown passes over it untouched.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NoReturn

from jinja2 import Environment, TemplateSyntaxError, nodes
from jinja2.parser import Parser

from saltbridge.faults import Fault, Faulty
from saltbridge.forms.conditions import MOST as MOST_COMPARISONS
from saltbridge.forms.conditions import NAME, Amount, Comparison, Condition, Name, Operator, Term, Word
from saltbridge.forms.validation_messages import nearest

FILTERS = {
    "name": "the word for it: zinc",
    "symbol": "its symbol or formula: Zn",
    "number": "the number without its unit",
    "unit": "the unit alone",
    "capital": "with a capital first letter, to begin a sentence",
}
LONGEST = 8_000  # characters of one text
MOST = 200  # holes and branches of one text
MOST_NESTED = 10  # branches inside branches
FIRST_TOKEN = 0xE000  # private use area

_ENVIRONMENT = Environment(autoescape=True, lstrip_blocks=True, keep_trailing_newline=True)
_OPERATORS: dict[str, Operator] = {"eq": "==", "ne": "!=", "gt": ">", "gteq": ">=", "lt": "<", "lteq": "<="}
_NAMES_FOR_TEACHERS = {
    "For": "a loop", "Call": "a call", "Macro": "a macro", "CallBlock": "a call", "Include": "an include", "Import": "an import",
    "FromImport": "an import", "Extends": "an extends", "Block": "a block", "Assign": "a `set`", "AssignBlock": "a `set`", "With": "a `with`",
    "FilterBlock": "a filter block", "Getitem": "an index in square brackets", "Add": "a sum", "Sub": "a difference", "Mul": "a product",
    "Div": "a division", "FloorDiv": "a division", "Mod": "a remainder", "Pow": "a power", "Neg": "a minus sign", "Pos": "a plus sign",
    "Concat": "a `~`", "Test": "an `is`", "Not": "a `not`", "Or": "an `or`", "CondExpr": "an `if` inside a hole", "List": "a list",
    "Dict": "a dict", "Tuple": "a list", "Const": "a fixed value", "NSRef": "a namespace",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Hole:
    """Where a variant's own value goes: its dotted name, and filters in the order written."""

    name: str
    filters: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RawBranch:
    """A condition with the texts of its two sides, still with tokens."""

    condition: Condition
    then: str
    otherwise: str


@dataclass(slots=True)
class Tokens:
    """What the private-use characters of a text stand for."""

    found: list[Hole | RawBranch] = field(default_factory=list)

    def put(self, what: Hole | RawBranch, line: int) -> str:
        """A new token for it."""
        if len(self.found) >= MOST:
            raise prose_fault("prose-too-big", f"at most {MOST} holes and branches", "more", "Split the question.", line)
        self.found.append(what)
        return chr(FIRST_TOKEN + len(self.found) - 1)

    def get(self, character: str) -> Hole | RawBranch | None:
        """What a character stands for; None for a plain one."""
        index = ord(character) - FIRST_TOKEN
        return self.found[index] if 0 <= index < len(self.found) else None


def prose_fault(code: str, expected: str, found: str, hint: str, line: int) -> Faulty:
    """A fault of a text; ``line`` counts from the first line of the text."""
    return Faulty([Fault(code, expected, found, hint, line=line)])


def tokenise(source: str) -> tuple[str, Tokens]:
    """The text with a token for each hole and branch, and what they stand for. Raises ``Faulty`` with all faults."""
    if len(source) > LONGEST:
        raise prose_fault("prose-too-big", f"at most {LONGEST} characters", f"{len(source)}", "Split the question.", 1)
    if found := re.search("[\ue000-\uf8ff]", source):
        line = source.count("\n", 0, found.start()) + 1
        raise prose_fault("prose-character", "ordinary characters", f"U+{ord(found[0]):04X} (private use)", "Delete it.", line)
    for tag in re.finditer(r"\{\{.*?\}\}|\{%.*?%\}", source, re.DOTALL):
        if len(tag[0]) > 240:
            line = source.count("\n", 0, tag.start()) + 1
            raise prose_fault("prose-too-big", "at most 240 characters in a hole", f"{len(tag[0])}", "", line)
    try:
        tree = Parser(_ENVIRONMENT, source).parse()  # not `_ENVIRONMENT.parse`, which runs a line of code to dress its errors
    except TemplateSyntaxError as trouble:
        raise prose_fault(
            "prose-syntax",
            "holes as `{{ left.metal }}` and branches as `{% if a == b %}…{% endif %}`",
            f"something else ({(trouble.message or '').split('. ')[0].lower().rstrip('.')})",
            "",
            trouble.lineno,
        ) from None
    except RecursionError:
        raise prose_fault("prose-too-big", "few brackets and branches inside each other", "too many", "", 1) from None
    except ValueError:  # Python's own limit for the digits of a whole number, hidden behind a `}}` in quotes
        raise prose_fault("prose-syntax", "holes with names in them", "a number of too many digits", "", 1) from None
    reader = _Reader()
    text = reader.body(tree.body, 0)
    if reader.faults:
        raise Faulty(reader.faults)
    return text, reader.tokens


class _Reader:
    """Walks Jinja2's tree; anything not on the list is a fault, and the walk goes on."""

    def __init__(self) -> None:
        self.tokens = Tokens()
        self.faults: list[Fault] = []

    def body(self, statements: list[nodes.Node], depth: int) -> str:
        return "".join(self._guarded(self._statement, each, depth) for each in statements)

    def _guarded(self, read: Callable[[nodes.Node, int], str], node: nodes.Node, depth: int) -> str:
        try:
            return read(node, depth)
        except Faulty as trouble:
            self.faults.extend(trouble.faults)
            return ""

    def _statement(self, node: nodes.Node, depth: int) -> str:
        if isinstance(node, nodes.Output):
            return "".join(self._guarded(self._output, each, depth) for each in node.nodes)
        if isinstance(node, nodes.If):
            if depth >= MOST_NESTED:
                raise prose_fault("prose-too-big", f"at most {MOST_NESTED} branches inside each other", "more", "", node.lineno)
            return self._branch(node.test, node.body, [*node.elif_], node.else_, depth)
        return _refused(node)

    def _branch(
        self, test: nodes.Node, then: list[nodes.Node], others: list[nodes.If], otherwise: list[nodes.Node], depth: int
    ) -> str:
        condition = Condition(tuple(self._alternatives(test)), "")
        then_text = self.body(then, depth + 1)
        if others:
            first, *rest = others
            otherwise_text = self._branch(first.test, first.body, rest, otherwise, depth)
        else:
            otherwise_text = self.body(otherwise, depth + 1)
        return self.tokens.put(RawBranch(condition, then_text, otherwise_text), test.lineno)

    def _output(self, node: nodes.Node, _depth: int) -> str:
        if isinstance(node, nodes.TemplateData):
            return str(node.data)
        filters: list[str] = []
        while isinstance(node, nodes.Filter):
            if node.args or node.kwargs or node.dyn_args or node.dyn_kwargs or node.node is None:
                raise prose_fault(
                    "prose-filter", "a filter without brackets", f"`{node.name}(…)`", f"Write `| {node.name}`.", node.lineno
                )
            if node.name not in FILTERS:
                expected = "one of the filters " + ", ".join(f"`{each}`" for each in FILTERS)
                raise prose_fault("unknown-filter", expected, f"`{node.name}`", nearest(node.name, FILTERS), node.lineno)
            filters.insert(0, node.name)
            node = node.node
        return self.tokens.put(Hole(_dotted(node), tuple(filters)), node.lineno)

    def _alternatives(self, node: nodes.Node) -> list[tuple[Comparison, ...]]:
        """What joins comparisons by ``and`` and ``or``, as alternatives of which one must hold."""
        if isinstance(node, nodes.Or):
            found = [*self._alternatives(node.left), *self._alternatives(node.right)]
        elif isinstance(node, nodes.And):
            right = self._alternatives(node.right)
            found = [(*one, *other) for one in self._alternatives(node.left) for other in right]
        else:
            found = [(self._comparison(node),)]
        if (number := sum(map(len, found))) > MOST_COMPARISONS:
            hint = "Write several texts, each with a branch of its own."
            raise prose_fault("prose-condition", f"at most {MOST_COMPARISONS} comparisons", f"{number}", hint, node.lineno)
        return found

    def _comparison(self, node: nodes.Node) -> Comparison:
        if not isinstance(node, nodes.Compare) or len(node.ops) != 1 or node.ops[0].op not in _OPERATORS:
            found = _NAMES_FOR_TEACHERS.get(type(node).__name__, "something else")
            hint = 'As `{% if anode == "left" %}`; several are joined by `and` or `or`.'
            raise prose_fault("prose-condition", "a comparison", found, hint, node.lineno)
        operand = node.ops[0]
        return Comparison(_term(node.expr), _OPERATORS[operand.op], _term(operand.expr))


def _term(node: nodes.Node) -> Term:
    if isinstance(node, nodes.Const) and isinstance(node.value, str):
        return Word(node.value)
    if isinstance(node, nodes.Const) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        return Amount(str(node.value), "")
    match node:
        case nodes.Call(node=nodes.Name(name="abs"), args=[argument], kwargs=[], dyn_args=None, dyn_kwargs=None):
            return Name(_dotted(argument), magnitude=True)
        case _:
            return Name(_dotted(node))


def _dotted(node: nodes.Node) -> str:
    words: list[str] = []
    at = node
    while isinstance(at, nodes.Getattr):
        words.insert(0, at.attr)
        at = at.node
    if not isinstance(at, nodes.Name):
        _refused(at)
    else:
        words.insert(0, at.name)
    path = ".".join(words)
    if not NAME.fullmatch(path):
        raise prose_fault("name", "a name such as `E0_cell` or `left.metal`", f"`{path}`", "", node.lineno)
    return path


def _refused(node: nodes.Node) -> NoReturn:
    found = _NAMES_FOR_TEACHERS.get(type(node).__name__, "something else")
    hint = "A hole prints a value the scenario already has; nothing can be worked out in a text."
    raise prose_fault("prose-forbidden", "names, our filters, comparison and `if` only", found, hint, node.lineno)
