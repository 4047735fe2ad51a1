"""How much room a working and a question need on paper, estimated generously from their encoded nodes.

Paper and memorandum give a part the same room, so that the two lie side by side. Measuring the set working would double
the time of a paper; an estimate that errs on the large side does, and the memorandum still grows where it must.
All heights are in millimetres; character counts hold for 11 pt (9.5 pt in a working) on A4 and Letter.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Any

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


def characters(node: Any) -> int:
    """Characters that stand beside one another in a node; a fraction counts as its wider half."""
    if isinstance(node, str):
        return len(node)
    if not isinstance(node, list) or not node:
        return 0
    if not isinstance(node[0], str) or node[0] not in _WIDTHS:
        return sum(characters(child) for child in node)
    return int(_WIDTHS[node[0]](node))


_WIDTHS: Mapping[str, Any] = {
    **dict.fromkeys(("q", "w"), lambda node: characters(node[2])),
    "a": lambda node: characters(node[2]) + len(node[1]),
    "f": lambda node: max(characters(node[1]), characters(node[2])) + 1,
    "s": lambda node: len(node[1]) + characters(node[4]),
    "fn": lambda node: len(node[1]) + 1 + characters(node[2]),
    "p": lambda node: characters(node[1]),
    **dict.fromkeys(("b", "i", "r", "u", "d", "=", "o", "v"), lambda node: characters(node[1]) + 1),
    "(": lambda node: characters(node[1]) + 2,
    "t": lambda node: characters(node[1]) + characters(node[2]),
    "n": len,
}


def storeys(node: Any) -> int:
    """Lines of print one above another: 1 for plain text, 2 for a fraction, 3 for a fraction within one."""
    if not isinstance(node, list):
        return 1
    tallest = max((storeys(child) for child in node), default=1)
    return tallest + 1 if node and node[0] == "f" else tallest


def working_room(steps: Iterable[Mapping[str, Any]]) -> float:
    """Height of a working set in two columns."""
    steps = list(steps)
    formulas = [line for step in steps for line in step["lines"] if "right" in line]
    left = max((characters(line["left"]) for line in formulas), default=0)
    if not steps:
        return 0.0
    return 2 + sum(max(_wrapped(step["say"], _SENTENCE) * 4.1 + 2.1, _lines(step["lines"], left)) for step in steps)


def _lines(lines: Iterable[Mapping[str, Any]], left: int) -> float:
    return sum(_line(line, left) for line in lines)


def _line(line: Mapping[str, Any], left: int) -> float:
    if "right" not in line:
        return _wrapped(line["spans"], _LINE) * 4.1 * storeys(line["spans"]) + 2.1
    rows = math.ceil((left + 3 + characters(line["right"])) / _LINE)
    return rows * 3.8 * max(storeys(line["left"]), storeys(line["right"])) + 2.1


def _wrapped(spans: Any, measure: int) -> int:
    return max(1, math.ceil(characters(spans) / measure)) if spans else 0


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
            return 5.5 * max(1, _wrapped(spans, _TEXT)) * storeys(spans) + 2
        case ["ol" | "ul", items]:
            return sum(_blocks(item) for item in items)
        case ["grid", _, _, rows, *_]:
            return 18 + 8.0 * sum(max((storeys(cell) for cell in row), default=1) for row in rows)
        case ["caution", blocks]:
            return 6 + _blocks(blocks)
        case ["fig", _, _, caption, _, height]:
            return 8 + float(height) + 5.5 * _wrapped(caption, _TEXT)
        case _:
            raise ValueError(f"no estimate for the block {block[0]!r}")
