"""Document → plain Unicode for a terminal.

Levels use Unicode sub- and superscript characters where all of a run has them, else ``^(…)`` and ``_(…)``. Fractions
stand on one line, bracketed only where reading would go wrong without.
"""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Iterable, Mapping, Sequence

from saltbridge import document as doc

Slots = Sequence[doc.Spans]

_RAISED = dict(zip("0123456789+-−=()abcdefghijklmnoprstuvwxyz", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻⁻⁼⁽⁾ᵃᵇᶜᵈᵉᶠᵍʰⁱʲᵏˡᵐⁿᵒᵖʳˢᵗᵘᵛʷˣʸᶻ", strict=True))
_LOWERED = dict(zip("0123456789+-−=()aehijklmnoprstuvx", "₀₁₂₃₄₅₆₇₈₉₊₋₋₌₍₎ₐₑₕᵢⱼₖₗₘₙₒₚᵣₛₜᵤᵥₓ", strict=True))
_TIGHT = 3
"""Binding of a node that needs no brackets anywhere: sums bind at 1, products and fractions at 2."""

# ------------------------------------------------------------------ inline


def spans_text(spans: doc.Spans, slots: Slots = ()) -> str:
    """A run of inline nodes on one line (forced breaks kept); ``slots`` are the variant's values."""
    return "".join(_span(span, slots) for span in spans)


def _span(span: doc.Inline, slots: Slots) -> str:
    match span:
        case doc.Text(text):
            return _harmless(text)
        case doc.Inscription():
            return _inscription(span)
        case doc.Maths(body):
            return math_text(body, slots)
        case doc.Slot(index):
            return spans_text(slots[index], slots)
        case doc.Strong(inner) | doc.Emphasis(inner):
            return spans_text(inner, slots)
        case doc.Link(target, inner):
            words = spans_text(inner, slots)
            return words if words == target else f"{words} ({_harmless(target)})"
        case doc.LineBreak():
            return "\n"


def _harmless(text: str) -> str:
    """The text without control characters, which a terminal would obey."""
    return "".join(mark if mark == "\n" or unicodedata.category(mark) not in {"Cc", "Cs"} else "\ufffd" for mark in text)


def _inscription(item: doc.Inscription) -> str:
    return "".join(_level(piece.kind, piece.text) for piece in item.pieces)


def _level(kind: str, text: str) -> str:
    if kind == "base" or not text:
        return _harmless(text)
    table = _LOWERED if kind == "sub" else _RAISED
    if all(mark in table for mark in text):
        return "".join(table[mark] for mark in text)
    return ("_" if kind == "sub" else "^") + (text if len(text) == 1 else f"({_harmless(text)})")


# ------------------------------------------------------------------ formulas


def math_text(node: doc.MathNode, slots: Slots = ()) -> str:
    """A formula on one line: ``E°(cell) = E°(cathode) − E°(anode)``, ``(a + b)/c``."""
    return _maths(node, slots)[0]


def _maths(node: doc.MathNode, slots: Slots) -> tuple[str, int]:
    """The text and how tightly it binds."""
    match node:
        case doc.Symbol():
            return _symbol(node), _TIGHT
        case doc.Sign(text):
            return _spaced(text), _TIGHT
        case doc.Fraction(top, bottom):
            return f"{_within(top, slots, 2)}/{_unsigned(_within(bottom, slots, _TIGHT))}", 2
        case doc.Power(base, exponent):
            return _within(base, slots, _TIGHT) + _level("sup", math_text(exponent, slots).strip()), _TIGHT
        case doc.Fenced(body):
            return f"({math_text(body, slots)})", _TIGHT
        case doc.Call(name, _, body):
            return _call(name, body, slots)
        case doc.Root(body):
            return f"√{_within(body, slots, _TIGHT)}", _TIGHT
        case doc.Row(items):
            return _row(items, slots)
        case doc.Inscription():
            return _inscription(node), _binding(node)
        case doc.Slot(index):
            return _slot(slots[index], slots)


def _unsigned(text: str) -> str:
    """A number below a line that is written with a stroke takes brackets round its sign."""
    return f"({text})" if text[:1] in {"+", "−"} else text


def _symbol(symbol: doc.Symbol) -> str:
    """A species as subscript stands in brackets; letters do so where Unicode has no small form."""
    base = _harmless(symbol.base) + symbol.mark
    if isinstance(symbol.sub, doc.Inscription):
        return f"{base}({_inscription(symbol.sub)})"
    if not symbol.sub:
        return base
    small = _level("sub", symbol.sub)
    return base + (f"({_harmless(symbol.sub)})" if small.startswith("_") else small)


def _call(name: str, body: doc.MathNode, slots: Slots) -> tuple[str, int]:
    argument, binding = _maths(body, slots)
    if _is_bracketed(argument):
        return name + argument, 2
    return (f"{name} {argument}" if binding >= _TIGHT else f"{name}({argument})"), 2


def _is_bracketed(text: str) -> bool:
    """Whether one pair of brackets holds all of it: ``(a + b)``, not ``(a)/(b)``."""
    depth = 0
    for at, mark in enumerate(text):
        depth += (mark == "(") - (mark == ")")
        if depth == 0 and at < len(text) - 1:
            return False
    return text.startswith("(")


def _row(items: Sequence[doc.MathNode], slots: Slots) -> tuple[str, int]:
    """Terms side by side; a sign at the very front is a sign of the term and keeps no space."""
    if len(items) == 1:
        return _maths(items[0], slots)
    named = len(items) == 2 and isinstance(items[0], doc.Symbol) and not isinstance(items[1], doc.Fenced)  # else a product
    if named and isinstance(items[0], doc.Symbol) and _is_bracketed(label := math_text(items[1], slots)):
        return _symbol(items[0]) + label, _TIGHT  # E°(Zn²⁺/Zn)
    joined = ""
    for at, item in enumerate(items):
        if isinstance(item, doc.Sign):
            joined += item.text if at == 0 else _spaced(item.text)
        else:
            term = _term(items, at, slots)
            tight = at == 0 or isinstance(items[at - 1], doc.Sign) or term[:1].isspace()
            joined += term if tight else f" {term}"
    signs = {item.text for item in items if isinstance(item, doc.Sign)}
    return joined, 1 if signs & {"+", "−", "-", "=", "≈", ","} else 2


def _spaced(sign: str) -> str:
    return {"|": "|", ",": ", "}.get(sign, f" {sign} ")


def _term(items: Sequence[doc.MathNode], at: int, slots: Slots) -> str:
    """One term of a row; a fraction that another term touches, or that is divided by, stands in brackets."""
    touched = any(not isinstance(other, doc.Sign) for other in (*items[max(0, at - 1) : at], *items[at + 1 : at + 2]))
    before = items[at - 1] if at else None
    divided = isinstance(before, doc.Sign) and before.text in {"/", "÷"}
    fraction = isinstance(items[at], doc.Fraction)
    return _within(items[at], slots, _TIGHT if fraction and (touched or divided) else 1)


def _slot(spans: doc.Spans, slots: Slots) -> tuple[str, int]:
    if len(spans) == 1:
        only = spans[0]
        if isinstance(only, doc.Maths):
            return _maths(only.body, slots)
        if isinstance(only, doc.Inscription):
            return _inscription(only), _binding(only)
    return spans_text(spans, slots), 1 if len(spans) > 1 else 2


def _binding(item: doc.Inscription) -> int:
    """A bare number or symbol binds tightly; a quantity is a product of number and unit; a reaction is a sum."""
    plain = item.plain
    if item.role in {"equation", "diagram"}:
        return 1
    return 2 if item.role == "quantity" or "×" in plain or "/" in plain else _TIGHT


def _within(node: doc.MathNode, slots: Slots, needed: int) -> str:
    text, binding = _maths(node, slots)
    return text if binding >= needed else f"({text})"


# ------------------------------------------------------------------ workings


def working_text(steps: Iterable[doc.Step], slots: Slots = (), *, width: int = 80) -> str:
    """Each step as a sentence, then its lines indented and aligned on the equals sign; marks at the end of their line."""
    steps = list(steps)
    formulas = [line for step in steps for line in step.lines if isinstance(line, doc.MathLine)]
    column = max((cells(_left(line, slots)) for line in formulas), default=0)
    out: list[str] = []
    for number, step in enumerate(steps, 1):
        head = f"{number}. "
        out += textwrap.wrap(spans_text(step.say, slots), width, initial_indent=head, subsequent_indent=" " * len(head))
        for at, line in enumerate(step.lines):
            out += _working_line(line, slots, column, width, step.marks.get(at, 0))
        if step.marked_wrong and out:
            out[-1] += "  ✗"
    return "\n".join(out)


def _left(line: doc.MathLine, slots: Slots) -> str:
    return "" if line.left is None else math_text(line.left, slots)


def _working_line(line: doc.MathLine | doc.Spans, slots: Slots, column: int, width: int, marks: int) -> list[str]:
    if isinstance(line, doc.MathLine):
        left = _left(line, slots)
        text = " " * (5 + column - cells(left)) + f"{left} {line.sign} {math_text(line.right, slots)}"
        shown = [text]
    else:
        shown = textwrap.wrap(spans_text(line, slots), width - 5, initial_indent=" " * 5, subsequent_indent=" " * 5)
    if marks and shown:
        shown[-1] += " " * max(2, width - cells(shown[-1]) - 3) + f"[{marks}]"
    return shown


def cells(text: str) -> int:
    """Terminal cells of a text: combining characters take none, wide East Asian ones two."""
    return sum(0 if unicodedata.combining(mark) else 2 if unicodedata.east_asian_width(mark) in "WF" else 1 for mark in text)


# ------------------------------------------------------------------ blocks


def blocks_text(blocks: Iterable[doc.Block], variant: doc.Variant | None = None, *, width: int = 80) -> str:
    """Paragraphs, lists, tables and the words of figures, an empty line between them."""
    slots = variant.slots if variant else ()
    figures = variant.figures if variant else ()
    return "\n\n".join(_block(block, slots, figures, width) for block in blocks)


def _block(block: doc.Block, slots: Slots, figures: Sequence[doc.Figure], width: int) -> str:
    match block:
        case doc.Paragraph(spans):
            return _filled(spans_text(spans, slots), width)
        case doc.Items(ordered, items):
            return _items(ordered, items, slots, figures, width)
        case doc.Grid():
            return _grid(block, slots)
        case doc.Figure():
            return _figure(block, slots, width)
        case doc.FigureSlot(index):
            return _figure(figures[index], slots, width)
        case doc.Caution(inner):
            return "\n".join("! " + line for part in inner for line in _block(part, slots, figures, width - 2).split("\n"))


def _filled(text: str, width: int) -> str:
    return "\n".join(textwrap.fill(line, width) for line in text.split("\n"))


def _items(ordered: bool, items: Sequence[tuple[doc.Block, ...]], slots: Slots, figures: Sequence[doc.Figure], width: int) -> str:
    out = []
    for number, item in enumerate(items, 1):
        head = f"{number}. " if ordered else "• "
        body = "\n".join(_block(block, slots, figures, width - len(head)) for block in item)
        out.append(head + body.replace("\n", "\n" + " " * len(head)))
    return "\n".join(out)


def _grid(grid: doc.Grid, slots: Slots) -> str:
    rows = [[spans_text(cell, slots) for cell in row] for row in ((grid.head,) if grid.head else ()) + grid.rows]
    widths = [max(cells(row[at]) if at < len(row) else 0 for row in rows) for at in range(max(map(len, rows), default=0))]
    lines = ["  ".join(_cell(text, widths[at], right=at in grid.numeric) for at, text in enumerate(row)).rstrip() for row in rows]
    if grid.head:
        lines.insert(1, "  ".join("─" * wide for wide in widths))
    return "\n".join([spans_text(grid.caption, slots), *lines] if grid.caption else lines)


def table_text(field: doc.TableField, slots: Slots) -> str:
    """A table to complete; what is to be chosen stands in its blank cells, a line to write on in the others."""
    rows = tuple(tuple(_blank(cell) if isinstance(cell, doc.BlankCell) else cell for cell in row) for row in field.rows)
    return _grid(doc.Grid((), field.head, rows), slots)


def _blank(cell: doc.BlankCell) -> doc.Spans:
    match cell.field:
        case doc.ChoiceField(options):
            return tuple(span for at, option in enumerate(options) for span in (*((doc.Text(" / "),) if at else ()), *option))
        case doc.NumberField(_, unit):
            return (doc.Text("…… "), unit) if unit else (doc.Text("……"),)
        case _:
            return (doc.Text("……"),)


def _cell(text: str, wide: int, *, right: bool) -> str:
    gap = " " * (wide - cells(text))
    return gap + text if right else text + gap


def _figure(figure: doc.Figure, slots: Slots, width: int) -> str:
    caption = f" ({spans_text(figure.caption, slots)})" if figure.caption else ""
    return _filled(f"[{_harmless(figure.spoken)}]{caption}", width)


def question_text(
    question: doc.Question, variant: doc.Variant, *, width: int = 80, workings: Mapping[str, bool] | bool = True
) -> str:
    """A filled question with its parts; workings follow their part where wanted (all, none, or by part label)."""
    out = [f"{_harmless(question.title)} [{question.marks}]", blocks_text(question.blocks, variant, width=width)]
    for part in question.parts:
        body = blocks_text(part.body, variant, width=width - 8)
        out.append(textwrap.indent(body, "    ").replace("    ", f"({part.label}) ", 1) + f"  [{part.marks}]")
        if isinstance(part.field, doc.TableField):
            out.append(textwrap.indent(table_text(part.field, variant.slots), "    "))
        shown = workings if isinstance(workings, bool) else workings.get(part.label, False)
        if shown:
            out += [working_text(part.working, variant.slots, width=width), f"→ {answer_text(part, variant.slots)}"]
    return "\n\n".join(text for text in out if text)


def answer_text(part: doc.Part, slots: Slots = ()) -> str:
    """A part's answer; of a written one its points, each on its line with its marks, + before what else is accepted, - before what is refused."""
    if not isinstance(part.field, doc.WrittenField):
        return spans_text(part.answer, slots)
    lines = []
    for point in part.field.points:
        lines.append(f"{spans_text(point.text, slots)}  [{point.marks}]")
        lines += [f"  + {spans_text(each, slots)}" for each in point.accept]
        lines += [f"  - {spans_text(each, slots)}" for each in point.refuse]
    return "\n".join(lines)
