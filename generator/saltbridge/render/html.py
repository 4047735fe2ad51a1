"""The document as HTML: lines of text, blocks, and the steps of a working. Everything is escaped here and nowhere else."""

from __future__ import annotations

from functools import lru_cache

from saltbridge.document import (
    Block,
    Caution,
    Emphasis,
    Figure,
    FigureSlot,
    Grid,
    Inline,
    Inscription,
    Items,
    LineBreak,
    Link,
    MathLine,
    Maths,
    Paragraph,
    Slot,
    Spans,
    Step,
    Strong,
    Text,
)
from saltbridge.render.figures import figure_html
from saltbridge.render.mathml import formula, is_wide, left_class, line
from saltbridge.render.skeleton import escape, place
from saltbridge.words import Words

_LEVELS = {"sub": ("<sub>", "</sub>"), "sup": ("<sup>", "</sup>")}


# ------------------------------------------------------------------ lines of text


def spans_html(spans: Spans) -> str:
    """A line of text as HTML."""
    return "".join([inline_html(span) for span in spans])


def inline_html(span: Inline) -> str:
    """One inline node as HTML."""
    match span:
        case Text(text):
            return escape(text)
        case Inscription():
            return inscription_html(span)
        case Slot(index):
            return place(index, "html")
        case Maths():
            return formula(span)
        case Strong(spans):
            return f"<strong>{spans_html(spans)}</strong>"
        case Emphasis(spans):
            return f"<em>{spans_html(spans)}</em>"
        case Link(target, spans):
            return f'<a href="{escape(target)}">{spans_html(spans)}</a>'
        case LineBreak():
            return "<br>"


@lru_cache(maxsize=4096)
def inscription_html(node: Inscription) -> str:
    """A species, number or diagram; what a screen reader would spell badly carries its words."""
    pieces = node.pieces
    if len(pieces) == 1 and pieces[0].kind == "base" and " " not in pieces[0].text:
        return escape(pieces[0].text)
    body = "".join([_piece(kind, text) for kind, text in pieces])
    if node.role in {"diagram", "equation"}:
        return f'<span class="{node.role}" role="img" aria-label="{escape(node.spoken)}">{body}</span>'
    return f'<span class="set">{body}</span>'


def _piece(kind: str, text: str) -> str:
    if kind == "base":
        return escape(text)
    opening, closing = _LEVELS[kind]
    return f"{opening}{escape(text)}{closing}"


# ------------------------------------------------------------------ blocks


def blocks_html(blocks: tuple[Block, ...], words: Words) -> str:
    """Blocks as HTML."""
    return "".join([block_html(block, words) for block in blocks])


def block_html(block: Block, words: Words) -> str:
    """One block as HTML."""
    match block:
        case Paragraph(spans):
            return f"<p>{spans_html(spans)}</p>"
        case Items(ordered, items):
            tag = "ol" if ordered else "ul"
            return f"<{tag}>{''.join([f'<li>{blocks_html(item, words)}</li>' for item in items])}</{tag}>"
        case Grid():
            return _grid(block)
        case Figure():
            return figure_block(block)
        case FigureSlot(index):
            return place(index, "figure")
        case Caution(inner):
            heading = escape(words("Take care"))
            return f'<div class="caution" role="note"><p class="caution-head">{heading}</p>{blocks_html(inner, words)}</div>'


def figure_block(figure: Figure) -> str:
    """A drawing with its caption."""
    caption = f"<figcaption>{spans_html(figure.caption)}</figcaption>" if figure.caption else ""
    return f"<figure>{figure_html(figure)}{caption}</figure>"


def _grid(grid: Grid) -> str:
    numeric = frozenset(grid.numeric)

    def cell(tag: str, column: int, spans: Spans, scope: str = "") -> str:
        looks = ' class="number"' if column in numeric else ""
        return f"<{tag}{scope}{looks}>{spans_html(spans)}</{tag}>"

    head = "".join([cell("th", column, spans, ' scope="col"') for column, spans in enumerate(grid.head)])
    rows = "".join(
        [
            "<tr>"
            + "".join(
                [
                    cell("th", 0, spans, ' scope="row"') if grid.row_heads and column == 0 else cell("td", column, spans)
                    for column, spans in enumerate(row)
                ]
            )
            + "</tr>"
            for row in grid.rows
        ]
    )
    caption = f"<caption>{spans_html(grid.caption)}</caption>" if grid.caption else ""
    heading = f"<thead><tr>{head}</tr></thead>" if grid.head else ""
    return f'<div class="grid"><table>{caption}{heading}<tbody>{rows}</tbody></table></div>'


# ------------------------------------------------------------------ workings


def working_html(steps: tuple[Step, ...], words: Words) -> str:
    """A working: sentence, then its lines aligned on the sign, each mark at the line that earns it."""
    column = left_class(tuple(each for step in steps for each in step.lines if isinstance(each, MathLine)))
    return f'<ol class="steps">{"".join([_step(step, column, words) for step in steps])}</ol>'


def _step(step: Step, column: str, words: Words) -> str:
    looks, flag = "step", ""
    if step.marked_wrong:
        looks, flag = "step step-wrong", f'<strong class="wrong-flag">{escape(words("First wrong step"))}</strong> '
    lines = "".join([_line(each, step.marks.get(at, 0), column, words) for at, each in enumerate(step.lines)])
    return f'<li class="{looks}"><p class="say">{flag}{spans_html(step.say)}</p><div class="lines">{lines}</div></li>'


def _line(content: MathLine | Spans, marks: int, column: str, words: Words) -> str:
    earned = marks_html(marks, words) if marks else ""
    if not isinstance(content, MathLine):
        return f'<div class="line"><p class="line-body" data-line>{spans_html(content)}</p>{earned}</div>'
    scroll = (
        f' tabindex="0" role="group" aria-label="{escape(words("A long line; scroll sideways"))}"' if is_wide(content) else ""
    )
    return f'<div class="line"><div class="line-body" data-line{scroll}>{line(content, column)}</div>{earned}</div>'


def marks_html(marks: int, words: Words) -> str:
    """Marks in brackets, with the word for those who hear the page."""
    word = words("mark") if marks == 1 else words("marks")
    return f'<span class="marks">[{marks}<span class="unseen"> {escape(word)}</span>]</span>'
