"""How much room a working and a question need on paper, estimated generously from their encoded nodes.

Paper and memorandum give a part the same room, so that the two lie side by side. Measuring the set working would double
the time of a paper; an estimate that errs on the large side does, and the memorandum still grows where it must.
All heights are in millimetres; character counts hold for 11 pt (9.5 pt in a working) on A4 and Letter.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from saltbridge.render.paper_data import Node

PITCH = 8.5
"""Distance of two answer lines; the layout gets it from here."""

_SENTENCE, _LINE, _TEXT = 33, 46, 78
"""Characters to a line: a step's sentence, a step's line, the text of a question."""

_WHOLE = 225.0
"""A question estimated below this is kept on one page without measuring (A4 leaves 255 mm, Letter 237 mm)."""

_HOPELESS = 300.0
"""A question estimated above this does not fit on one page."""

HEAD = 40.0
"""Height of a paper's head with a short lead."""


def characters(node: Node) -> int:
    """Characters that stand beside one another in a node; a fraction counts as its wider half."""
    if isinstance(node, str):
        return len(node)
    own, inner = _OWN[node[0]](node), [characters(each) for each in _INNER.get(node[0], _nothing)(node)]
    return own + (max(inner) if node[0] == "f" else sum(inner))


def storeys(node: Node) -> int:
    """Lines of print one above another: 1 for plain text, 2 for a fraction, 3 for a fraction within one."""
    if isinstance(node, str):
        return 1
    return _tallest(_INNER.get(node[0], _nothing)(node)) + int(node[0] == "f")


def _length(run: Sequence[Node]) -> int:
    """Characters of a run of nodes. A run is never taken for a node: its first text may be a tag's letter, as in *t* or **p**."""
    return sum(map(characters, run))


def _tallest(run: Sequence[Node]) -> int:
    """Lines of print of the tallest node of a run."""
    return max(map(storeys, run), default=1)


def _nothing(_node: Node) -> Sequence[Node]:
    """The nodes inside one that holds a text only."""
    return ()


_OWN: Mapping[str, Callable[[Node], int]] = {
    **dict.fromkeys(("q", "w", "t"), lambda _: 0),
    **dict.fromkeys(("b", "i", "r", "v", "f", "n"), lambda _: 1),
    **dict.fromkeys(("a", "s"), lambda node: len(node[1])),
    **dict.fromkeys(("u", "d", "=", "o", "fn"), lambda node: len(node[1]) + 1),
    "(": lambda _: 2,
}
"""Characters of a node besides those of the nodes inside it, by its tag."""

_INNER: Mapping[str, Callable[[Node], Sequence[Node]]] = {
    **dict.fromkeys(("q", "w", "fn"), lambda node: node[2:3]),
    "a": lambda node: node[2],
    **dict.fromkeys(("b", "i", "r"), lambda node: node[1]),
    **dict.fromkeys(("v", "("), lambda node: node[1:2]),
    **dict.fromkeys(("f", "t"), lambda node: node[1:3]),
    "s": lambda node: node[4:5],
}
"""The nodes inside a node, by its tag; ``paper_data`` writes them."""


def working_room(steps: Iterable[Mapping[str, Any]]) -> float:
    """Height of a working set in two columns."""
    steps = list(steps)
    formulas = [line for step in steps for line in step["lines"] if "right" in line]
    left = max((characters(line["left"] or "") for line in formulas), default=0)
    if not steps:
        return 0.0
    return 2 + sum(max(_wrapped(step["say"], _SENTENCE) * 4.1 + 2.1, _lines(step["lines"], left)) for step in steps)


def _lines(lines: Iterable[Mapping[str, Any]], left: int) -> float:
    return sum(_line(line, left) for line in lines)


def _line(line: Mapping[str, Any], left: int) -> float:
    if "right" not in line:
        return _wrapped(line["spans"], _LINE) * 4.1 * _tallest(line["spans"]) + 2.1
    rows = math.ceil((left + 3 + characters(line["right"])) / _LINE)
    return rows * 3.8 * max(storeys(line["left"] or ""), storeys(line["right"])) + 2.1


def _wrapped(run: Sequence[Node], measure: int) -> int:
    return max(1, math.ceil(_length(run) / measure)) if run else 0


def room(wanted: int, working: Iterable[Mapping[str, Any]], *, ruled: bool) -> float:
    """Height of a part's answer room: the lines the template asks for, and no less than its working fills."""
    lines, needed = wanted * PITCH, working_room(working)
    return max(lines, math.ceil(needed / PITCH) * PITCH if ruled or wanted else math.ceil(needed))


def keeping(question: Mapping[str, Any], *, above: float) -> dict[str, Any]:
    """How a question may break, ``above`` being the height already used on its page.

    ``keep`` is ``whole`` where it surely fits on one page, ``measure`` where the layout has to see, and ``loose`` where it
    does not fit beneath the head of a paper and keeping it whole would leave a page with a head alone. ``opens`` says
    whether its data and first part fit on one page.
    """
    opening = 9 + _blocks(question["blocks"]) + sum(map(part_height, question["parts"][:1]))
    height = opening + sum(map(part_height, question["parts"][1:]))
    return {"keep": _keep(height, above, parts=len(question["parts"])), "opens": opening <= _WHOLE}


def _keep(height: float, above: float, *, parts: int) -> str:
    if above + height <= _WHOLE or parts == 0:
        return "whole"
    return "loose" if above or height > _HOPELESS else "measure"


def fits(part: Mapping[str, Any]) -> bool:
    """Whether a part surely fits on one page."""
    return part_height(part) <= _WHOLE


def part_height(part: Mapping[str, Any]) -> float:
    """Height of a part with its answer room, in millimetres."""
    field = part["field"]
    choices = field.get("options") or field.get("items") or ()
    answer = 8 + sum(7.5 * max(1, _wrapped(choice, _TEXT)) for choice in choices) if choices else 11
    return 6 + _blocks(part["body"]) + float(part["room"]) + answer


def _blocks(blocks: Iterable[Any]) -> float:
    return sum(_block(block) for block in blocks)


def _block(block: Any) -> float:
    match block:
        case ["p", spans]:
            return 5.5 * max(1, _wrapped(spans, _TEXT)) * _tallest(spans) + 2
        case ["ol" | "ul", items]:
            return sum(_blocks(item) for item in items)
        case ["grid", _, _, rows, *_]:
            return 18 + 8.0 * sum(max(map(_tallest, row), default=1) for row in rows)
        case ["caution", blocks]:
            return 6 + _blocks(blocks)
        case ["fig", _, _, caption, _, height]:
            return 8 + float(height) + 5.5 * _wrapped(caption, _TEXT)
        case _:
            raise ValueError(f"no estimate for the block {block[0]!r}")
