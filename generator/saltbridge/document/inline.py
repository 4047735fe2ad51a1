"""What stands in a line of text and what lines make up: runs, inscriptions, formulas, blocks.

Everything that is set in small pieces (a species, a number with its unit, a cell diagram) is an ``Inscription``; formulas are a
small tree. A ``Slot`` stands where a variant's own piece goes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from saltbridge.document.pieces import Inscription
from saltbridge.document.plots import Plot

# ------------------------------------------------------------------ in the line


@dataclass(frozen=True, slots=True)
class Text:
    """Plain characters; writers escape them."""

    text: str


@dataclass(frozen=True, slots=True)
class Strong:
    """Strong emphasis."""

    spans: Spans


@dataclass(frozen=True, slots=True)
class Emphasis:
    """Emphasis."""

    spans: Spans


@dataclass(frozen=True, slots=True)
class Link:
    """A link; ``target`` has been checked (https, mailto or a relative page)."""

    target: str
    spans: Spans


@dataclass(frozen=True, slots=True)
class LineBreak:
    """A forced new line."""


@dataclass(frozen=True, slots=True)
class Slot:
    """Where a variant's own spans go: the index into its slot values. Stands inline or inside a formula."""

    index: int


# ------------------------------------------------------------------ formulas


@dataclass(frozen=True, slots=True)
class Symbol:
    """A quantity symbol: E with mark ° and subscript cell. ``sub`` may hold a species inscription."""

    base: str
    spoken: str
    mark: str = ""
    sub: str | Inscription = ""
    italic: bool = True


@dataclass(frozen=True, slots=True)
class Sign:
    """An operator or relation sign: + − × / =, ≈."""

    text: str
    spoken: str


@dataclass(frozen=True, slots=True)
class Fraction:
    """A fraction, numerator over denominator."""

    top: MathNode
    bottom: MathNode


@dataclass(frozen=True, slots=True)
class Power:
    """Base with a raised exponent."""

    base: MathNode
    exponent: MathNode


@dataclass(frozen=True, slots=True)
class Fenced:
    """A bracketed term."""

    body: MathNode


@dataclass(frozen=True, slots=True)
class Call:
    """A named function before its argument: ln Q, lg Q."""

    name: str
    spoken: str
    body: MathNode


@dataclass(frozen=True, slots=True)
class Root:
    """A square root."""

    body: MathNode


@dataclass(frozen=True, slots=True)
class Row:
    """Terms side by side."""

    items: tuple[MathNode, ...]


Speech = tuple[str | int, ...]
"""Words to say a formula; a whole number stands for the words of that slot's value."""

MathNode = Symbol | Sign | Fraction | Power | Fenced | Call | Root | Row | Inscription | Slot


@dataclass(frozen=True, slots=True)
class Maths:
    """A formula in the line of text."""

    body: MathNode
    spoken: Speech


@dataclass(frozen=True, slots=True)
class MathLine:
    """One line of a working, aligned on its sign: left = right. ``left`` is None where the line goes on."""

    left: MathNode | None
    sign: str
    right: MathNode
    spoken: Speech


Inline = Text | Strong | Emphasis | Link | LineBreak | Inscription | Maths | Slot
Spans = tuple[Inline, ...]

# ------------------------------------------------------------------ blocks


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph."""

    spans: Spans


@dataclass(frozen=True, slots=True)
class Items:
    """A list; each item is a tuple of blocks."""

    ordered: bool
    items: tuple[tuple[Block, ...], ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A table. ``row_heads`` makes the first column headings; ``ruled`` rules every cell, to write in."""

    caption: Spans
    head: tuple[Spans, ...]
    rows: tuple[tuple[Spans, ...], ...]
    row_heads: bool = False
    numeric: tuple[int, ...] = ()
    ruled: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing from a named SVG template: ``labels`` by place, positions as ``numbers``, ``flags`` for what is drawn; all ``spoken``.

    One with ``plots`` has no template: its graphs are drawn from their numbers.
    """

    name: str
    labels: Mapping[str, Inscription | str]
    numbers: Mapping[str, float]
    flags: frozenset[str]
    spoken: str
    caption: Spans = ()
    plots: tuple[Plot, ...] = ()


@dataclass(frozen=True, slots=True)
class FigureSlot:
    """Where a variant's own figure goes."""

    index: int


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety block: the usual cautions, deferring to local rules."""

    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a working: a sentence, then lines; ``marks`` stand at the lines that earn them (line index → marks)."""

    say: Spans
    lines: tuple[MathLine | Spans, ...]
    marks: Mapping[int, int]
    marked_wrong: bool = False


Block = Paragraph | Items | Grid | Figure | FigureSlot | Caution

# ------------------------------------------------------------------ speech


def spoken(spans: Spans) -> str:
    """The words of a line without open slots, for alternative texts."""
    return "".join(_said(span) for span in spans)


def _said(span: Inline) -> str:
    match span:
        case Text(text):
            return text
        case Inscription():
            return span.spoken
        case Maths():
            return "".join(str(piece) for piece in span.spoken)
        case Strong(spans) | Emphasis(spans) | Link(_, spans):
            return spoken(spans)
        case _:
            return " "
