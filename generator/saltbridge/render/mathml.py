"""Formulas as MathML Core, which browsers draw without script or font.

Only what MathML Core keeps is used: charges are one ``mn`` ("2+"), upright letters say ``mathvariant="normal"``, a space
before a unit is an ``mspace`` because a leading blank in a token collapses, and ° stands on the line after E.
Source: MathML Core (W3C), and trials in Chromium 156.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from saltbridge.document import (
    Call,
    Emphasis,
    Fenced,
    Fraction,
    Inline,
    Inscription,
    LineBreak,
    Link,
    MathLine,
    MathNode,
    Maths,
    Piece,
    Power,
    Root,
    Row,
    Sign,
    Slot,
    Speech,
    Strong,
    Symbol,
    Text,
)
from saltbridge.document.letters import Letters, letters
from saltbridge.render.skeleton import escape, place

_SPACE = '<mspace width="0.17em"></mspace>'
_BLANKS = " \u00a0\u2009\u202f"
_WIDE_LINE = 22.0
"""Width in em from which a line may not fit a phone and must be able to scroll."""


def formula(node: Maths) -> str:
    """A formula in a line of text."""
    return f'<math alttext="{speech(node.spoken)}">{maths(node.body)}</math>'


def line(node: MathLine, left_class: str) -> str:
    """A line of a working: left side, sign and right side in a row whose first cell has a width shared by the working.

    What goes on after a further equals sign is a row of its own below, so that it fits a phone.
    """
    left = "" if node.left is None else maths(node.left)
    rows = [
        f'<mtr><mtd class="{left_class}">{left if first else ""}</mtd>'
        f'<mtd class="right"><mrow>{_operator(sign)}{maths(right)}</mrow></mtd></mtr>'
        for first, sign, right in _chained(node)
    ]
    table = f'<mtable class="aligned" displaystyle="true">{"".join(rows)}</mtable>'
    return f'<math display="block" alttext="{speech(node.spoken)}">{table}</math>'


def _chained(node: MathLine) -> Iterator[tuple[bool, str, MathNode]]:
    """Whether it is the first, sign and right side of each equation in ``t = 40 min = 2400 s``."""
    items = node.right.items if isinstance(node.right, Row) else (node.right,)
    start, sign = 0, node.sign
    for end in (*(at for at, item in enumerate(items) if isinstance(item, Sign) and item.text == "="), len(items)):
        yield start == 0, sign, items[start] if end == start + 1 else Row(items[start:end])
        start, sign = end + 1, "="


def speech(words: Speech) -> str:
    """Words for an attribute; slots speak with the variant's own words."""
    return "".join([place(word, "words") if isinstance(word, int) else escape(word) for word in words])


def maths(node: MathNode) -> str:
    """A formula's node as MathML."""
    match node:
        case Inscription():
            return inscription(node)
        case Slot(index):
            return place(index, "maths")
        case Symbol():
            return _symbol(node)
        case Sign(text):
            return _operator(text)
        case Row(items):
            return f"<mrow>{''.join(map(maths, items))}</mrow>"
        case _:
            return _layout(node)


def _layout(node: Fraction | Power | Fenced | Call | Root) -> str:
    match node:
        case Fraction(top, bottom):
            return f"<mfrac>{_one(top)}{_one(bottom)}</mfrac>"
        case Power(base, exponent):
            return f"<msup>{_one(base)}{_one(exponent)}</msup>"
        case Fenced(body):
            return f"<mrow><mo>(</mo>{maths(body)}<mo>)</mo></mrow>"
        case Call(name, _, body):
            return f"<mrow>{_SPACE}<mi>{escape(name)}</mi>{_SPACE}{maths(body)}</mrow>"
        case Root(body):
            return f"<msqrt>{maths(body)}</msqrt>"


def _one(node: MathNode) -> str:
    """The node as exactly one element, which fractions and scripts need; a variant's text may be several."""
    text = maths(node)
    return text if isinstance(node, Symbol | Row | Fenced | Fraction | Power | Root | Call | Sign) else f"<mrow>{text}</mrow>"


def _operator(text: str) -> str:
    return f"<mo>{escape(text)}</mo>"


def _symbol(node: Symbol) -> str:
    runs = letters(node)
    base = "".join(map(_run, runs)) + (f'<mo lspace="0" rspace="0">{escape(node.mark)}</mo>' if node.mark else "")
    base = f"<mrow>{base}</mrow>" if node.mark or len(runs) > 1 else base
    if not node.sub:
        return base
    below = inscription(node.sub) if isinstance(node.sub, Inscription) else f"<mtext>{_kept(node.sub)}</mtext>"
    return f"<msub>{base}<mrow>{below}</mrow></msub>"


def _run(run: Letters) -> str:
    """Letters of one slope; a single letter slants by itself, several stand upright by themselves."""
    text = run.text.rstrip()
    looks = "" if run.italic == (len(text) == 1) else ' class="italic"' if run.italic else ' mathvariant="normal"'
    return f"<mi{looks}>{escape(text)}</mi>{_SPACE if run.text != text else ''}"


def _kept(text: str) -> str:
    """Text with blanks that do not collapse."""
    return escape(text.replace(" ", "\u00a0"))


# ------------------------------------------------------------------ inscriptions


@lru_cache(maxsize=4096)
def inscription(node: Inscription) -> str:
    """A species, number or quantity inside a formula; levels become scripts of the run before them, one after the other."""
    return "".join(_scripted(node))


def _scripted(node: Inscription) -> Iterator[str]:
    waiting = ""
    for piece in node.pieces:
        if piece.kind == "base":
            if waiting:
                yield waiting
            *before, waiting = _tokens(piece.text, node.role)
            yield from before
        else:
            tag = "msub" if piece.kind == "sub" else "msup"
            waiting = f"<{tag}>{waiting or '<mrow></mrow>'}{_level(piece)}</{tag}>"
    if waiting:
        yield waiting


@lru_cache(maxsize=4096)
def _tokens(text: str, role: str) -> tuple[str, ...]:
    """A run on the line as tokens, the last of which takes the scripts that follow."""
    bare = text.lstrip(_BLANKS)
    tokens = [_SPACE] if bare != text else []
    if role in {"number", "quantity"} and "×" in bare:
        head, _, tail = (part.strip(_BLANKS) for part in bare.partition("×"))
        return (*tokens, f"<mn>{_kept(head)}</mn>", "<mo>×</mo>", f"<mn>{_kept(tail)}</mn>")
    if role in {"number", "quantity"} and any(sign.isdigit() for sign in bare):
        return (*tokens, *_number_and_unit(bare))
    if bare.isalpha():
        return (*tokens, f'<mi mathvariant="normal">{escape(bare)}</mi>')
    return (*tokens, f"<mtext>{_kept(bare)}</mtext>")


def _number_and_unit(text: str) -> list[str]:
    """Digits and, where a unit follows on the same run, the unit after a thin space."""
    end = max(at for at, sign in enumerate(text) if sign.isdigit()) + 1
    number, unit = text[:end], text[end:].strip(_BLANKS)
    tokens = [f"<mn>{_kept(number)}</mn>"]
    return [*tokens, _SPACE, f"<mtext>{_kept(unit)}</mtext>"] if unit else tokens


def _level(piece: Piece) -> str:
    text = piece.text
    tag = "mn" if any(sign.isdigit() for sign in text) or text in {"+", "−"} else "mtext"
    return f"<{tag}>{_kept(text)}</{tag}>"


# ------------------------------------------------------------------ widths


def left_class(lines: tuple[MathLine, ...]) -> str:
    """The style class whose width holds every left side of a working, so that all equals signs stand in one column."""
    widest = max((width(each.left) for each in lines if each.left is not None), default=0.0)
    step = next((step for step in (2, 3, 4, 5, 6, 8, 10, 12) if widest <= step), 14)
    return f"left left-{step}"


def is_wide(node: MathLine) -> bool:
    """Whether a line may be wider than a phone."""
    return width(node.right) + (width(node.left) if node.left is not None else 0.0) > _WIDE_LINE


def width(node: MathNode) -> float:
    """A formula's width in em, roughly and rather too wide; a slot counts as a short number."""
    match node:
        case Slot():
            return 2.6
        case Symbol(base, _, mark, sub):
            below = sub.plain if isinstance(sub, Inscription) else sub
            return 0.75 * len(base) + 0.4 * len(mark) + 0.4 * len(below)
        case Sign(text):
            return 0.9 + 0.4 * len(text)
        case Inscription(_, pieces):
            return sum((0.55 if piece.kind == "base" else 0.4) * len(piece.text) for piece in pieces)
        case Row(items):
            return sum(map(width, items))
        case Fraction(top, bottom):
            return max(width(top), width(bottom)) + 0.3
        case Power(base, exponent):
            return width(base) + 0.7 * width(exponent)
        case Call(name, _, body):
            return 0.5 * len(name) + 0.3 + width(body)
        case Fenced(body) | Root(body):
            return width(body) + 0.9


def span_maths(span: Inline) -> str:
    """A variant's own inline node where it stands inside a formula."""
    match span:
        case Inscription():
            return inscription(span)
        case Maths(body):
            return maths(body)
        case Text(text):
            return f"<mtext>{_kept(text)}</mtext>"
        case Strong(spans) | Emphasis(spans) | Link(_, spans):
            return "".join(map(span_maths, spans))
        case LineBreak() | Slot():
            return _SPACE
