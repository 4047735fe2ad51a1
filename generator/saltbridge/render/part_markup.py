"""A question as HTML: its frame, and each part with field, verdict line, hints and working, complete without script.

The script finds its way by ``data-`` attributes only: ``data-part`` (a part), ``data-kind`` (its field), ``data-do``
(a button's task), ``data-verdict``, ``data-hint``, ``data-line`` and ``data-item``. Classes are for looks.
"""

from __future__ import annotations

from saltbridge.document import (
    Block,
    Figure,
    Paragraph,
    Part,
    Question,
    Spans,
    TableField,
    Variant,
    spoken,
)
from saltbridge.render.field_markup import field_markup, is_group, is_told_at_once
from saltbridge.render.field_place import Place
from saltbridge.render.html import blocks_html, figure_block, spans_html, working_html
from saltbridge.render.mathml import span_maths
from saltbridge.render.skeleton import Skeleton, escape, split
from saltbridge.render.table_field import filled_table
from saltbridge.words import Words

# ------------------------------------------------------------------ question and variant


def question_skeleton(question: Question, words: Words) -> Skeleton:
    """The question of one shape, written once, with places for a variant's texts."""
    parts = "".join([_part(part, at, words) for at, part in enumerate(question.parts, start=1)])
    return split(f'<div class="situation">{blocks_html(question.blocks, words)}</div>{parts}')


def variant_texts(skeleton: Skeleton, variant: Variant) -> list[str]:
    """What a variant puts into the skeleton, in the order of its uses."""
    texts = []
    for index, form in skeleton.uses:
        if form == "html":
            texts.append(spans_html(variant.slots[index]))
        elif form == "maths":
            texts.append("".join([span_maths(span) for span in variant.slots[index]]))
        elif form == "words":
            texts.append(escape(spoken(variant.slots[index])))
        else:
            texts.append(figure_block(variant.figures[index]))
    return texts


def figures_of(question: Question) -> list[Figure]:
    """The drawings that stand in the question itself, the same for every variant."""
    blocks = [*question.blocks, *(block for part in question.parts for block in part.body)]
    return [block for block in blocks if isinstance(block, Figure)]


# ------------------------------------------------------------------ a part


def _part(part: Part, at: int, words: Words) -> str:
    name = f"part-{at}"
    marks = f"{part.marks} {words('mark') if part.marks == 1 else words('marks')}"
    margin = (
        f'<div class="margin"><h2 id="{name}"><span class="unseen">{escape(words("Part"))} </span>({escape(part.label)})</h2>'
        f'<p class="quiet">{escape(marks)}</p></div>'
    )
    before, asked = _asked(part)
    tail = f"{_hints(part.hints, words)}{_working(part, words)}"
    return (
        f'<section class="part" data-part="{escape(part.label)}" aria-labelledby="{name}">{margin}<div class="body">'
        f"{blocks_html(before, words)}{_field(part, asked, name, words)}{tail}</div></section>"
    )


def _asked(part: Part) -> tuple[tuple[Block, ...], str]:
    """The body before a group of options or entries, and the group's legend: the question itself, where a paragraph ends the body."""
    if not is_group(part.field):
        return part.body, ""
    tag = "caption" if isinstance(part.field, TableField) else "legend"
    if part.body and isinstance(part.body[-1], Paragraph):
        return part.body[:-1], f'<{tag} class="asked">{spans_html(part.body[-1].spans)}</{tag}>'
    return part.body, f'<{tag} class="unseen">{escape(part.field.label)}</{tag}>'


def _field(part: Part, asked: str, name: str, words: Words) -> str:
    """The field in a form, with its check button (shown by the script) and the line that tells the verdict."""
    kind, controls = field_markup(part.field, Place(part.label, name, asked, words))
    check = "" if is_told_at_once(part.field) else _check(part.label, words)
    verdict = f'<p class="verdict" role="status" id="{name}-verdict" data-verdict></p>'
    return (
        f'<form class="answer answer-{kind}" data-kind="{kind}" novalidate autocomplete="off">{controls}{check}</form>{verdict}'
    )


def _check(label: str, words: Words) -> str:
    return f'<button type="submit" data-do="check" hidden>{escape(words("Check"))} ({escape(label)})</button>'


def _hints(hints: tuple[Spans, ...], words: Words) -> str:
    """Hints, each behind its own heading; the script shows the next only after the one before has been opened."""
    return "".join(
        [
            f'<details class="hint" data-hint><summary>{escape(words("Hint"))} {at}</summary><p>{spans_html(hint)}</p></details>'
            for at, hint in enumerate(hints, start=1)
        ]
    )


def _working(part: Part, words: Words) -> str:
    if not part.working and not part.answer:
        return ""
    steps = working_html(part.working, words) if part.working else ""
    answer = _answer(part, words) if part.answer else ""
    heading = words("Working") if part.working else words("Answer")
    return f'<details class="working" data-working><summary>{escape(heading)}</summary>{steps}{answer}</details>'


def _answer(part: Part, words: Words) -> str:
    if isinstance(part.field, TableField):
        return filled_table(part.field, words)
    return f'<p class="result"><strong>{escape(words("Answer"))}:</strong> {spans_html(part.answer)}</p>'
