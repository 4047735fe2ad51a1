"""Prose with holes becomes document blocks with slots; blocks inside a branch are settled once a shape."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.inscriptions import inscribe_equation, inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.compose.context import Context
from saltbridge.compose.slots import Slots
from saltbridge.document import Block, Caution, Emphasis, Grid, Inline, Inscription, Items, Link, Paragraph, Spans, Strong, Text
from saltbridge.draw.drawn import Drawn, is_caution
from saltbridge.forms.conditions import Condition
from saltbridge.forms.prose import Hole, Prose
from saltbridge.forms.prose_nodes import Branch, Notation, ProseNode
from saltbridge.words import Words

_SENTENCE_END = re.compile(r"[.?!]\s+$")


def block_branches(*texts: Prose) -> tuple[Condition, ...]:
    """The conditions over whole blocks, which a shape depends on."""
    return tuple(node.condition for text in texts for node in _branches(text.blocks))


def _branches(nodes: Sequence[ProseNode]) -> Iterator[Branch]:
    for node in nodes:
        if isinstance(node, Branch) and node.blocks:
            yield node
            yield from _branches((*node.then, *node.otherwise))


def blocks(text: Prose, slots: Slots, drawn: Drawn) -> tuple[Block, ...]:
    """The blocks of a text for the shape that ``drawn`` belongs to."""
    return tuple(block for node in text.blocks for block in _block(node, slots, drawn))


def _block(node: Any, slots: Slots, drawn: Drawn) -> Iterator[Block]:
    match node:
        case Branch():
            for inner in node.then if node.condition.holds(drawn.lookup) else node.otherwise:
                yield from _block(inner, slots, drawn)
        case Paragraph(spans) if _is_caution(spans):
            yield Caution((Paragraph(line(spans, slots)),))
        case Paragraph(spans):
            yield Paragraph(line(tuple(_begun(spans)), slots))
        case Items(ordered, items):
            yield Items(ordered, tuple(tuple(block for each in item for block in _block(each, slots, drawn)) for item in items))
        case Grid():
            yield replace(
                node,
                caption=line(node.caption, slots),
                head=tuple(line(cell, slots) for cell in node.head),
                rows=tuple(tuple(line(cell, slots) for cell in row) for row in node.rows),
            )
        case _:
            yield Paragraph(line((node,), slots))


def sentences(text: Prose, context: Context) -> Spans:
    """The one paragraph of a text, filled in."""
    spans = (span for block in text.blocks if isinstance(block, Paragraph) for span in _begun(block.spans))
    return tuple(each for span in spans for each in filled(span, context))


def _is_caution(spans: Sequence[Any]) -> bool:
    """Whether a paragraph holds lines of safety and nothing else, so that it stands apart as such."""
    said = [span for span in spans if not (isinstance(span, Text) and not span.text.strip())]
    return bool(said) and all(isinstance(span, Hole) and is_caution(span.name) for span in said)


def _begun(nodes: Sequence[Any]) -> Iterator[Any]:
    """The nodes of a paragraph, a hole that begins a sentence printed with a capital; a hole by itself is no sentence."""
    begins = len(nodes) > 1
    for node in nodes:
        yield replace(node, filters=(*node.filters, "capital")) if begins and isinstance(node, Hole) else node
        begins = isinstance(node, Text) and bool(_SENTENCE_END.search(node.text))


def line(nodes: Sequence[Any], slots: Slots) -> Spans:
    """The spans of a line, holes and branches in slots."""
    return tuple(_span(node, slots) for node in nodes)


def _span(node: Any, slots: Slots) -> Inline:
    match node:
        case Strong(spans):
            return Strong(line(spans, slots))
        case Emphasis(spans):
            return Emphasis(line(spans, slots))
        case Link(target, spans):
            return Link(target, line(spans, slots))
        case Hole() | Notation() | Branch():
            return slots.slot(repr(node), lambda context: tuple(filled(node, context)))
        case _:
            plain: Inline = node
            return plain


def filled(node: Any, context: Context) -> Iterator[Inline]:
    """What a node of a line prints as in one variant."""
    match node:
        case Hole(name, filters):
            yield _filtered(context.shown(name), name, filters, context)
        case Notation(pieces):
            yield _notation(pieces, context)
        case Branch(condition, then, otherwise):
            for inner in then if condition.holds(context.drawn.lookup) else otherwise:
                yield from filled(inner, context)
        case Strong(spans):
            yield Strong(tuple(each for span in spans for each in filled(span, context)))
        case Emphasis(spans):
            yield Emphasis(tuple(each for span in spans for each in filled(span, context)))
        case _:
            yield node


def _filtered(shown: Inscription | Text, name: str, filters: Sequence[str], context: Context) -> Inline:
    for each in filters:
        match each:
            case "capital":
                shown = Text(_capital(shown.text)) if isinstance(shown, Text) else shown
            case "number":
                known = context.given(name)
                shown = context.printer.number(
                    known.printed if known else context.answered(name), signed=context.printer.signed(name)
                )
            case "unit":
                shown = context.printer.unit(context.unit(name)) or Text("")
            case "symbol":
                shown = context.situation.labels.get(f"{name.split('.', maxsplit=1)[0]}.symbol", shown)
            case _:
                shown = _word_for(name, context) or shown
    return shown


def _word_for(name: str, context: Context) -> Text | None:
    """The word for what a name is, or for what it belongs to, where there is one: zinc, chlorine."""
    words, owner = context.situation.words, name.split(".", maxsplit=1)[0]
    said = words.get(f"{name}.name") or words.get(f"{owner}.metal") or words.get(f"{owner}.name")
    return Text(context.printer.words(said)) if said else None


def _capital(text: str) -> str:
    """With a capital first, but for a symbol such as pH."""
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]


def _notation(pieces: Sequence[str | Hole], context: Context) -> Inline:
    """Chemistry with holes filled: species text where a hole names a species, else its printed form; a diagram as it is."""
    if len(pieces) == 1 and isinstance(pieces[0], Hole):
        shown = context.shown(pieces[0].name)
        return shown if isinstance(shown, Inscription) else _set(shown.text, context.printer.words)
    return _set("".join(piece if isinstance(piece, str) else _ascii(piece, context) for piece in pieces), context.printer.words)


def _ascii(hole: Hole, context: Context) -> str:
    shown = context.shown(hole.name)
    if isinstance(shown, Text):
        return shown.text
    return "".join("^" + piece.text.replace("−", "-") if piece.kind == "sup" else piece.text for piece in shown.pieces)


def _set(text: str, words: Words) -> Inscription:
    if "->" in text or "→" in text:
        return inscribe_equation(parse_equation(text), phase=True, say=words)
    return inscribe_species(parse_species(text), phase=True, say=words)
