"""The same paper written out as ordinary Typst markup, as a person would without saltbridge: the rival of ``papers``."""

from __future__ import annotations

import json
from typing import Any

from saltbridge import document as doc
from saltbridge.render.figures import figure_svg

HEAD = """#set document(title: "plain")
#set page("a4", margin: (x: 19mm, top: 18mm, bottom: 24mm), numbering: "1")
#set text(font: "Libertinus Serif", size: 11pt, lang: "en")
#set par(leading: 0.62em)
#show heading: set text(size: 11pt)
"""


RULED = "#block(height: 7mm, above: 0pt, below: 0pt, width: 100%, align(bottom, line(length: 100%, stroke: 0.5pt)))\n"


def number_line(sheet: doc.SheetPage, plain: Markup) -> str:
    """The potentials on a line, their names side by side above it."""
    ordered = sorted(sheet.rows, key=lambda row: row.volts)
    low, high = ordered[0].volts, ordered[-1].volts
    marks = []
    for at, row in enumerate(ordered):
        place, label = (row.volts - low) / (high - low or 1), at / max(1, len(ordered) - 1)
        name = f"rotate(-90deg, reflow: true, text(size: 8pt)[{plain.inline(row.couple)}])"
        marks += [
            f"#place(line(start: ({place:.4f} * 160mm, 27mm), end: ({label:.4f} * 160mm, 20mm), stroke: 0.4pt))",
            f"#place(dx: {label:.4f} * 160mm - 1.6mm, box(width: 3.2mm, height: 19mm, align(center + bottom, {name})))",
        ]
    axis = "#place(line(start: (0mm, 27mm), end: (160mm, 27mm)))"
    return f'#figure(alt: "number line", box(width: 100%, height: 35mm)[\n{chr(10).join([axis, *marks])}\n])'


def quoted(text: str) -> str:
    """A Typst string."""
    return json.dumps(text, ensure_ascii=False)


class Markup:
    """Writes the nodes of one filled question."""

    def __init__(self, variant: doc.Variant | None = None) -> None:
        self.variant = variant
        self.slips = {key: ends for share in (variant.judge if variant else ()) for key, ends in share.get("slips", {}).items()}

    def spans(self, spans: doc.Spans) -> str:
        """A line of text."""
        return "".join(self.inline(span) for span in spans)

    def inline(self, span: Any) -> str:
        """A run in a line of text."""
        match span:
            case doc.Text(text):
                return f"#{quoted(text)}"
            case doc.Inscription():
                calls = {"base": "#{}", "sub": "#sub({})", "sup": "#super({})"}
                return "".join(calls[piece.kind].format(quoted(piece.text)) for piece in span.pieces)
            case doc.Strong(spans):
                return f"#strong[{self.spans(spans)}]"
            case doc.Emphasis(spans) | doc.Link(_, spans):
                return f"#emph[{self.spans(spans)}]"
            case doc.Maths(body):
                return f'#math.equation(alt: "formula", ${self.maths(body)}$)'
            case doc.Slot(index):
                return self.spans(self.variant.slots[index]) if self.variant else ""
            case _:
                return " #linebreak() "

    def maths(self, node: Any) -> str:
        """A formula in Typst's own notation."""
        match node:
            case doc.Symbol():
                below = self.maths(node.sub) if isinstance(node.sub, doc.Inscription) else quoted(node.sub)
                return f"attach(italic({quoted(node.base)}), t: {quoted(node.mark)}, b: {below})"
            case doc.Sign(text):
                return f" {text} "
            case doc.Fraction(top, bottom):
                return f"frac({self.maths(top)}, {self.maths(bottom)})"
            case doc.Power(base, exponent):
                return f"attach({self.maths(base)}, t: {self.maths(exponent)})"
            case doc.Fenced(body):
                return f"lr(\\({self.maths(body)}\\))"
            case doc.Call():
                return f"op({quoted(node.name)}) {self.maths(node.body)}"
            case doc.Root(body):
                return f"sqrt({self.maths(body)})"
            case doc.Row(items):
                return " ".join(self.maths(item) for item in items)
            case doc.Inscription():
                return quoted(node.plain)
            case _:
                return (
                    quoted("".join(getattr(span, "plain", "") for span in self.variant.slots[node.index]))
                    if self.variant
                    else '""'
                )

    def blocks(self, blocks: tuple[Any, ...]) -> str:
        """Blocks, one below the other."""
        return "\n\n".join(self.block(block) for block in blocks)

    def block(self, block: Any) -> str:
        """A paragraph, list, table, drawing or step of a working."""
        match block:
            case doc.Paragraph(spans):
                return self.spans(spans)
            case doc.Items(_, items):
                return "\n".join(f"- {self.blocks(item)}" for item in items)
            case doc.Grid():
                cells = [f"[{self.spans(cell)}]" for row in block.rows for cell in row]
                head = ", ".join(f"[{self.spans(cell)}]" for cell in block.head)
                return f"#table(columns: {len(block.head)}, table.header({head}), {', '.join(cells)})"
            case doc.Figure():
                return f'#image(bytes({quoted(figure_svg(block))}), format: "svg", width: 60%, alt: {quoted(block.spoken)})'
            case doc.FigureSlot(index):
                return self.block(self.variant.figures[index]) if self.variant else ""
            case doc.Caution(blocks):
                return f"#block(stroke: 0.5pt, inset: 4pt)[{self.blocks(blocks)}]"
            case _:
                return "\n\n".join([self.spans(block.say), *(self.line(line) for line in block.lines)])

    def line(self, line: Any) -> str:
        """One line of a working."""
        if not isinstance(line, doc.MathLine):
            return self.spans(line)
        left = self.maths(line.left) if line.left else ""
        return f'#math.equation(block: true, alt: "line", ${left} & {line.sign} {self.maths(line.right)}$)'

    def part(self, part: doc.Part, *, memorandum: bool) -> str:
        """A part: its text, then its working, or on a paper its options and ruled lines to answer on."""
        text = f"*({part.label})* {self.blocks(part.body)}"
        if memorandum:
            shown = [error for error in part.errors if error.id in self.slips]
            errors = "; ".join(f"*{self.slips[error.id][0]}*: {self.spans(error.said)} -- give {error.give}" for error in shown)
            return f"{text}\n\n{self.blocks(part.working)}\n\n*{self.spans(part.answer)}*\n\n{errors}"
        options = "\n".join(
            f"+ {self.spans(option)}" for option in getattr(part.field, "options", getattr(part.field, "items", ()))
        )
        return f"{text}\n\n{options}\n\n{RULED * (0 if options else 2 * part.marks)}"


def paper_markup(paper: doc.Paper, sheet: doc.SheetPage) -> str:
    """A whole paper or memorandum with its data sheet."""
    lines = [HEAD, f"= #{quoted(paper.title)} {paper.code}", Markup().blocks(paper.lead)]
    for number, (question, variant) in enumerate(paper.questions, 1):
        write = Markup(variant)
        lines += [
            f"== #{quoted(f'{number} {question.title}')}",
            "" if paper.memorandum else write.blocks(question.blocks),
            *(write.part(part, memorandum=paper.memorandum) for part in question.parts),
        ]
    plain = Markup()
    rows = ", ".join(f"[{plain.inline(row.half)}], [{plain.inline(row.potential)}]" for row in sheet.rows)
    masses = ", ".join(f"[{symbol}], [{mass}]" for symbol, mass in sheet.masses)
    constants = ", ".join(
        f"[#{quoted(each.name)}], [{plain.inline(doc.Maths(each.symbol, ()))}], [{plain.inline(each.value)}]"
        for each in sheet.constants
    )
    lines += ["#pagebreak()", f"== #{quoted(sheet.title)}", number_line(sheet, plain)]
    lines += [f"#table(columns: 3, {constants})" if constants else ""]
    lines += [f"#table(columns: 2, table.header([half], [V]), {rows})"]
    lines += [f"#table(columns: 2, table.header([symbol], [mass]), {masses})"]
    return "\n\n".join(lines)
