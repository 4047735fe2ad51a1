"""How much room the pieces of a paper need, estimated a little generously from their encoded nodes.

Measuring what has been set would double the time of a paper; an estimate that errs on the large side does, since the layout
keeps parts whole by itself and needs the heights only to choose between breaks. All lengths are in millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.records import Settings
from saltbridge.render.paper_data import Node

PITCH = 7.0
"""Distance of two answer lines."""

SQUARE = 5.0
"""Side of a square of squared paper."""

_SKETCH, _SKETCH_A_MARK, _HIGHEST_SKETCH = 5, 2, 16
"""Squares in the height of a frame for a sketch: to begin with, for each mark, and at most."""
CELL = 9.0
"""Height of a cell to write in."""

SIZES = {"a4": (210.0, 297.0), "us-letter": (215.9, 279.4), "a3": (297.0, 420.0)}
"""Width and height of a sheet by its name."""

_ACROSS, _DOWN = 46.0, 27.0
"""Margins of a page together, the one for numbers of questions included."""

NORMAL = 11
"""Size of print in points; whatever is larger is large print, without a margin for numbers and with options one beneath another."""

_MARK_BOX, _BOXES = 10.5, 8
"""Side of the box for a question's mark, and how many stand in a row."""

_MARGIN = 12.0
_LETTER = 1.6
"""Mean width of a letter of 11 pt."""

_LINE = 4.6
"""Height of a line of 11 pt with the space to the next."""


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


def length(run: Sequence[Node]) -> int:
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
    "a": lambda node: len(node[1]),
    "s": lambda node: sum(len(run[0]) for run in node[1]),
    "c": lambda node: round(0.82 * len(node[1])),
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
    "s": lambda node: node[3:4],
}
"""The nodes inside a node, by its tag; ``paper_data`` writes them."""


def answer_room(settings: Settings, marks: int) -> float:
    """Height of the room for a working of so many marks, as the bank wants it, above the line for the answer (the last of the lines)."""
    scale = settings.print_size / NORMAL
    match settings.answers:
        case "lines":
            return (2 * marks - 1) * PITCH * scale
        case "short":
            return (marks - 1) * PITCH * scale
        case "squares":
            return 3 * marks * SQUARE * scale
        case _:
            return 0.0


def words_room(settings: Settings, marks: int) -> float:
    """Height of the lines for an answer in words: two a mark, or one where room is short."""
    return (1 if settings.answers == "short" else 2) * marks * PITCH * settings.print_size / NORMAL


def sketch_room(settings: Settings, marks: int) -> float:
    """Height of the frame for a sketch, in whole squares."""
    return min(_HIGHEST_SKETCH, _SKETCH + _SKETCH_A_MARK * marks) * SQUARE * settings.print_size / NORMAL


@dataclass(frozen=True, slots=True)
class Measure:
    """A page's room for text: its width and height, and how large the letters are against 11 pt."""

    width: float
    height: float
    scale: float = 1.0

    @classmethod
    def of(cls, settings: Settings) -> Measure:
        """The measure of a bank's papers."""
        width, height = SIZES[settings.paper]
        if settings.print_size > NORMAL:
            return cls(width - _ACROSS + _MARGIN, height - _DOWN, settings.print_size / NORMAL)
        return cls(width - _ACROSS, height - _DOWN)

    @property
    def half(self) -> float:
        """Half a page; A4 counts as Letter, so that a paper breaks alike on both."""
        letter, a4 = (SIZES[name][1] - _DOWN for name in ("us-letter", "a4"))
        return (letter if letter < self.height <= a4 else self.height) / 2

    @property
    def letter(self) -> float:
        """Mean width of a letter; bold ones without serifs are wider."""
        return _LETTER * self.scale * (1.3 if self.scale > 1 else 1.0)

    def across(self, runs: Sequence[Sequence[Node]]) -> int:
        """How many columns short options stand in: as many as their widest allows, up to four, in rows of one length."""
        if self.scale > 1:
            return 1
        widest = (max(map(length, runs), default=1) + 7) * _LETTER * self.scale
        most = max(1, min(4, len(runs), int((self.width - 7) / widest)))
        return math.ceil(len(runs) / math.ceil(len(runs) / most)) if runs else 1

    def head(self, copy: Mapping[str, Any]) -> float:
        """Height of the head of a paper."""
        more = _MARK_BOX * self.scale * max(0, math.ceil(len(copy["questions"]) / _BOXES) - 1)
        return more + 26.8 * self.scale * (2 if self.scale > 1 else 1) + self.blocks(copy["lead"])

    def opening(self, question: Mapping[str, Any]) -> float:
        """Height of a question's title and text."""
        return 1.4 + self.scale * _LINE + self.blocks(question["blocks"])

    def part(self, part: Mapping[str, Any]) -> float:
        """Height of a part with its room for the answer."""
        beside = (9 + 0.82 * length([node for run in part["beside"] for node in run]) * _LETTER) * self.scale
        text = self.blocks(part["body"], self.width - 7 - beside)
        return 2.0 + text + self._answer(part)

    def _answer(self, part: Mapping[str, Any]) -> float:
        field = part["field"]
        if groups := field.get("groups"):
            return sum(self._group(group) for group in groups)
        if field.get("kind") == "table":
            return self._table(field)
        if choices := field.get("options") or field.get("items"):
            room = (self.width - 7) / field["across"] - 10
            rows = [choices[at : at + field["across"]] for at in range(0, len(choices), field["across"])]
            spare, start = (2.5, 0.0) if "items" in field else (0.4, -2.0)
            return start + sum(max(self._wrapped(cell, room) for cell in row) * _LINE * self.scale + spare for row in rows)
        if not part["ruled"]:
            return 0.0
        return 0.4 + float(part["room"]) + (3.0 if field["kind"] == "written" else PITCH * self.scale)

    def _group(self, group: Mapping[str, Any]) -> float:
        """Height of a group of options with what stands above it."""
        head = self._wrapped(group["head"], self.width - 23) * _LINE * self.scale + 5.0 if group["head"] else 0.0
        return head + (self._answer({"field": group}) + 3.0 if group["options"] else 0.0)

    def _table(self, field: Mapping[str, Any]) -> float:
        """Height of a table to complete: headings with their notes, and rows with room to write."""
        whole, line = sum(field["widths"]), _LINE * self.scale
        rooms = [(self.width - 7) * share / whole - 4 for share in field["widths"]]
        heads = zip(field["head"], field["notes"], rooms, strict=True)
        height = 3.0 + max(self._wrapped(title, room) + self._wrapped(note, room) for title, note, room in heads) * line
        for row in field["rows"]:
            lines = [
                max(self._wrapped(cell["given"], room), sum(self._wrapped(option, room) for option in cell["options"]))
                for cell, room in zip(row, rooms, strict=True)
            ]
            height += max(max(lines) * line + 3.0, CELL * self.scale)
        return height + 1.6

    def blocks(self, blocks: Iterable[Any], width: float = 0.0) -> float:
        """Height of a run of blocks."""
        return sum(self._block(block, width or self.width) for block in blocks)

    def _wrapped(self, run: Sequence[Node], width: float) -> int:
        return max(1, math.ceil(length(run) * self.letter / max(width, 20))) if run else 0

    def _block(self, block: Any, width: float) -> float:
        line = _LINE * self.scale
        match block:
            case ["p", spans]:
                return line * max(1, self._wrapped(spans, width)) * _tallest(spans) + 0.6
            case ["ol" | "ul", items]:
                return 0.6 + sum(self.blocks(item, width - 8) - 0.6 for item in items)
            case ["grid", _, head, rows, *_]:
                rows = [head, *rows] if head else rows
                return 2.2 + sum((line * 0.6 * max(map(_tallest, row), default=1)) + 2.2 for row in rows)
            case ["caution", blocks]:
                return 2.4 + self.blocks(blocks, width - 4)
            case ["fig", _, _, caption, _, height]:
                return 2.2 + float(height) + line * self._wrapped(caption, width)
            case _:
                raise ValueError(f"no estimate for the block {block[0]!r}")
