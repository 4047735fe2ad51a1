"""The neutral document: what a page, a paper and a terminal all print.

Writers see only this module (and the words), so a number or formula can't differ between screen and paper. Everything
that is set in small pieces (a species, a number with its unit, a cell diagram) is an ``Inscription``; formulas are a
small tree. A ``Slot`` stands where a variant's own piece goes: a question is composed once per shape, and a variant is
only the tuple of its slot values.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, NamedTuple

# ------------------------------------------------------------------ inline


class Piece(NamedTuple):
    """A run of characters on the line, below it or above it."""

    kind: Literal["base", "sub", "sup"]
    text: str


@dataclass(frozen=True, slots=True)
class Inscription:
    """A species, number, unit, quantity, equation or diagram, ready to set, with the words to say it."""

    role: Literal["species", "number", "unit", "quantity", "equation", "diagram", "symbol"]
    pieces: tuple[Piece, ...]
    spoken: str

    @property
    def plain(self) -> str:
        """The pieces on one line, without levels (for search and file names)."""
        return "".join(piece.text for piece in self.pieces)


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
    """A table. ``row_heads`` makes the first column headings."""

    caption: Spans
    head: tuple[Spans, ...]
    rows: tuple[tuple[Spans, ...], ...]
    row_heads: bool = False
    numeric: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing from a named SVG template: ``labels`` by place, positions as ``numbers``, ``flags`` for what is drawn; all ``spoken``."""

    name: str
    labels: Mapping[str, Inscription | str]
    numbers: Mapping[str, float]
    flags: frozenset[str]
    spoken: str
    caption: Spans = ()


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

# ------------------------------------------------------------------ questions


@dataclass(frozen=True, slots=True)
class NumberField:
    """A number with its unit. ``symbol``, ``unit`` and how exactly it is ``wanted`` stand at the box; ``label`` is read aloud."""

    symbol: Maths | None
    unit: Inscription | None
    label: str
    wanted: str = ""


@dataclass(frozen=True, slots=True)
class ChoiceField:
    """One of several options, in the order shown."""

    options: tuple[Spans, ...]
    label: str


@dataclass(frozen=True, slots=True)
class OrderField:
    """Things to put in order; ``first`` and ``last`` say what the ends mean."""

    items: tuple[Spans, ...]
    first: str
    last: str
    label: str


@dataclass(frozen=True, slots=True)
class EquationField:
    """A balanced equation, typed in the notation of the guide."""

    label: str


Field = NumberField | ChoiceField | OrderField | EquationField


@dataclass(frozen=True, slots=True)
class CommonError:
    """A usual wrong way to a part's number: how it is made, and the marks that it leaves. Its value stands in the key, by ``id``."""

    id: str
    said: Spans
    give: int


@dataclass(frozen=True, slots=True)
class Part:
    """Part (a), (b)… of a question. ``judge`` is the answer key (see answers/), opaque to writers.

    ``needs_text``: whether it is worked from the question's text, and not from earlier parts alone.
    """

    label: str
    marks: int
    body: tuple[Block, ...]
    field: Field
    hints: tuple[Spans, ...]
    working: tuple[Step, ...]
    answer: Spans
    judge: Mapping[str, Any]
    errors: tuple[CommonError, ...] = ()
    needs_text: bool = True


@dataclass(frozen=True, slots=True)
class Question:
    """A question of one shape; a writer looks its slots up in a ``Variant``. ``graph``: what its judges run (see answers/)."""

    id: str
    title: str
    marks: int
    minutes: int
    blocks: tuple[Block, ...]
    parts: tuple[Part, ...]
    provenance: Mapping[str, str]
    graph: tuple[Mapping[str, Any], ...] = ()


@dataclass(frozen=True, slots=True)
class Variant:
    """What a variant puts into its question: slot values, figures, a share of each part's key; the graph's ``given`` values."""

    number: int
    shape: int
    slots: tuple[Spans, ...]
    figures: tuple[Figure, ...]
    judge: tuple[Mapping[str, Any], ...]
    given: Mapping[str, Any] = field(default_factory=dict)


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
