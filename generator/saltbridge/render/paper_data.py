"""Document → plain data for the paper layouts.

The layouts in ``site/papers`` get JSON and set it as text: no string of a bank or a class list ever becomes markup. A
node is a string (text) or a list whose first entry is a short tag; ``site/papers/setting.typ`` reads the same tags.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from saltbridge import document as doc
from saltbridge.document.letters import letters

Node = str | list[Any]
Drawer = Callable[[doc.Figure], str]

_SIGNS = re.compile(r"[ \u00a0\u2009\u202f]+(→|⇌|=|\+|\||¦¦|‖)[ \u00a0\u2009\u202f]+")
_RELATIONS = frozenset(["=", "≈", "≠", "<", ">", "≤", "≥", "→", "⇌", "|", "¦¦", "‖", "⇒", "∝"])
_OPERATORS = frozenset(["+", "−", "-", "×", "·", "±", "/", "÷"])
_KEPT = 60
"""Characters up to which an inscription stays on one line; a longer one may break at its signs."""

_SIZE = {side: re.compile(rf"""\b{side}=["']([\d.]+)pt["']""") for side in ("width", "height")}
_BARS = frozenset({"|", "¦¦", "‖"})
"""Phase boundaries in a diagram; in a formula a bar is the bar of an absolute value."""

_HIDDEN = frozenset({"Cc", "Cs", "Cf"})


def drawing_size(svg: str) -> tuple[float, float]:
    """Width and height in millimetres, as the drawing states them in pt.

    Raises ``ValueError`` for a drawing that states no size.
    """
    opening = svg[: svg.index(">")]
    found = [_SIZE[side].search(opening) for side in ("width", "height")]
    sizes = [float(match[1]) / 72 * 25.4 for match in found if match]
    if len(sizes) < 2 or not all(sizes):
        raise ValueError(f"a drawing for paper needs its width and height in pt: {opening}")
    return round(sizes[0], 2), round(sizes[1], 2)


def clean(text: str) -> str:
    """The text with line ends as spaces, and characters that hide or reorder others shown as U+FFFD."""
    if text.isprintable():
        return text
    kept = (" " if mark in "\n\r\t" else "\ufffd" if _hides(mark) else mark for mark in text)
    return "".join(kept)


def _hides(mark: str) -> bool:
    return unicodedata.category(mark) in _HIDDEN and mark not in "\u00ad\u200c\u200d\u2060"


class Encoder:
    """Encodes the nodes of one question, with the values of one variant in its slots."""

    def __init__(self, variant: doc.Variant | None, draw: Drawer) -> None:
        self._slots: Sequence[doc.Spans] = variant.slots if variant else ()
        self._figures: Sequence[doc.Figure] = variant.figures if variant else ()
        self._draw = draw

    # -------------------------------------------------------------- inline

    def spans(self, spans: doc.Spans) -> list[Node]:
        """A run of inline nodes."""
        return [node for span in spans for node in self._inline(span)]

    def _inline(self, span: doc.Inline) -> list[Node]:
        match span:
            case doc.Text(text):
                return [clean(text)]
            case doc.Inscription():
                return [self._inscription(span)]
            case doc.Maths(body, speech):
                return [["w", self.speech(speech), self.maths(body)]]
            case doc.Slot(index):
                return self.spans(self._slots[index])
            case doc.Strong(spans):
                return [["b", self.spans(spans)]]
            case doc.Emphasis(spans):
                return [["i", self.spans(spans)]]
            case doc.Link(target, spans):
                return [["a", target, self.spans(spans)]]
            case doc.LineBreak():
                return [["n"]]

    def _inscription(self, item: doc.Inscription) -> Node:
        if item.spoken == item.plain and all(piece.kind == "base" for piece in item.pieces):
            return clean(item.plain)
        kept = len(item.plain) <= _KEPT
        return ["q" if kept else "w", clean(item.spoken or item.plain), _pieces(item)]

    def speech(self, speech: doc.Speech) -> str:
        """The words of a formula."""
        said = (doc.spoken(self._slots[word]) if isinstance(word, int) else word for word in speech)
        return clean("".join(said)) or "formula"

    # -------------------------------------------------------------- formulas

    def maths(self, node: doc.MathNode) -> Node:
        """A formula as nested lists."""
        match node:
            case doc.Symbol():
                return self._symbol(node)
            case doc.Sign(text):
                return text if text in _BARS else _sign(text)
            case doc.Fraction(top, bottom):
                return ["f", self.maths(top), self.maths(bottom)]
            case doc.Power(base, exponent):
                return ["t", self.maths(base), self.maths(exponent)]
            case doc.Fenced(body):
                return ["(", self.maths(body)]
            case doc.Call(name, _, body):
                return ["fn", name, self.maths(body)]
            case doc.Root(body):
                return ["v", self.maths(body)]
            case doc.Row(items):
                return ["r", [self.maths(item) for item in items]]
            case doc.Inscription():
                return _pieces(node)
            case doc.Slot(index):
                return ["r", [self._math_span(span) for span in self._slots[index]]]

    def _math_span(self, span: doc.Inline) -> Node:
        match span:
            case doc.Inscription():
                return _pieces(span)
            case doc.Maths(body):
                return self.maths(body)
            case doc.Text(text):
                return clean(text)
            case _:
                return clean(doc.spoken((span,)))

    def _symbol(self, symbol: doc.Symbol) -> Node:
        below = _pieces(symbol.sub) if isinstance(symbol.sub, doc.Inscription) else clean(symbol.sub)
        return ["s", [[clean(run.text), run.italic] for run in letters(symbol)], symbol.mark, below]

    # -------------------------------------------------------------- blocks

    def blocks(self, blocks: Iterable[doc.Block]) -> list[Node]:
        """A run of blocks."""
        return [self._block(block) for block in blocks]

    def _block(self, block: doc.Block) -> Node:
        match block:
            case doc.Paragraph(spans):
                return ["p", self.spans(spans)]
            case doc.Items(ordered, items):
                return ["ol" if ordered else "ul", [self.blocks(item) for item in items]]
            case doc.Grid():
                return self._grid(block)
            case doc.Figure():
                return self._figure(block)
            case doc.FigureSlot(index):
                return self._figure(self._figures[index])
            case doc.Caution(blocks):
                return ["caution", self.blocks(blocks)]

    def _grid(self, grid: doc.Grid) -> Node:
        head = [self.spans(cell) for cell in grid.head]
        rows = [[self.spans(cell) for cell in row] for row in grid.rows]
        return ["grid", self.spans(grid.caption), head, rows, grid.row_heads, list(grid.numeric), grid.ruled]

    def _figure(self, figure: doc.Figure) -> Node:
        svg = self._draw(figure)
        width, height = drawing_size(svg)
        return ["fig", svg, clean(figure.spoken) or figure.name, self.spans(figure.caption), width, height]


def _sign(text: str) -> Node:
    if text in _RELATIONS:
        return ["=", text]
    return ["o", text] if text in _OPERATORS else clean(text)


def _pieces(item: doc.Inscription) -> Node:
    """Pieces as text at three levels; signs of long equations and diagrams set apart so that a line can break there."""
    nodes: list[Node] = []
    for piece in item.pieces:
        text = clean(piece.text)
        if piece.kind == "base" and item.role in {"equation", "diagram"}:
            nodes += _broken(f" {text} ", text)
        else:
            nodes.append(text if piece.kind == "base" else ["d" if piece.kind == "sub" else "u", text])
    return ["r", nodes]


def _broken(padded: str, text: str) -> list[Node]:
    """Text cut at its signs; a sign at either end of the piece counts when a space or the end stands beside it."""
    if not _SIGNS.search(padded):
        return [text]
    parts = _SIGNS.split(padded)
    last = len(parts) - 1
    nodes: list[Node] = []
    for at, part in enumerate(parts):
        if at % 2:
            nodes.append(_sign(part))
            continue
        kept = part[1:] if at == 0 else part
        kept = kept[:-1] if at == last else kept
        if kept:
            nodes.append(kept)
    return nodes
