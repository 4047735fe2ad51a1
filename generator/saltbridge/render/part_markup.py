"""A question as HTML: its frame, and each part with field, verdict line, hints and working, complete without script.

The script finds its way by ``data-`` attributes only: ``data-part`` (a part), ``data-kind`` (its field), ``data-do``
(a button's task), ``data-verdict``, ``data-hint``, ``data-line`` and ``data-item``. Classes are for looks.
"""

from __future__ import annotations

from saltbridge.document import (
    Block,
    ChoiceField,
    EquationField,
    Figure,
    NumberField,
    OrderField,
    Paragraph,
    Part,
    Question,
    Spans,
    Variant,
    spoken,
)
from saltbridge.render.html import blocks_html, figure_block, spans_html, working_html
from saltbridge.render.mathml import formula, span_maths
from saltbridge.render.skeleton import Skeleton, escape, split
from saltbridge.words import Words

WAYS = {"up": "Up", "down": "Down"}
"""The two buttons of an entry to put in order: the script's name and the word shown."""

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
    if not isinstance(part.field, ChoiceField | OrderField):
        return part.body, ""
    if part.body and isinstance(part.body[-1], Paragraph):
        return part.body[:-1], f'<legend class="asked">{spans_html(part.body[-1].spans)}</legend>'
    return part.body, f'<legend class="unseen">{escape(part.field.label)}</legend>'


def _field(part: Part, asked: str, name: str, words: Words) -> str:
    """The field in a form, with its check button (shown by the script) and the line that tells the verdict."""
    kind, controls = _controls(part, asked, name, words)
    check = f'<button type="submit" data-do="check" hidden>{escape(words("Check"))} ({escape(part.label)})</button>'
    verdict = f'<p class="verdict" role="status" id="{name}-verdict" data-verdict></p>'
    return (
        f'<form class="answer answer-{kind}" data-kind="{kind}" novalidate autocomplete="off">{controls}{check}</form>{verdict}'
    )


def _controls(part: Part, asked: str, name: str, words: Words) -> tuple[str, str]:
    of_part = f'<span class="unseen">({escape(part.label)}) </span>'
    match part.field:
        case NumberField() as field:
            return "number", _number(field, of_part, name)
        case ChoiceField() as field:
            return "choice", _choice(field, asked, name)
        case OrderField() as field:
            return "order", _order(field, asked, name, words)
        case EquationField(label):
            head = f'<label for="{name}-typed">{of_part}{escape(label)}</label>'
            return "equation", head + _box(name, "long")


def _box(name: str, looks: str) -> str:
    """A box to type in. Not ``type=number`` (scrolling changes it), nor ``inputmode=decimal`` (some phones then lack a minus)."""
    return (
        f'<input id="{name}-typed" name="typed" class="{looks}" type="text" inputmode="text" autocapitalize="off" '
        f'autocorrect="off" spellcheck="false" autocomplete="off" aria-describedby="{name}-verdict">'
    )


def _number(field: NumberField, of_part: str, name: str) -> str:
    """The box between symbol and unit, named by part, quantity, unit and how exactly the number is wanted."""
    told = f" ({escape(field.wanted)})" if field.wanted else ""
    spoken_unit = f", {escape(field.unit.spoken)}" if field.unit else ""
    quiet = f'<span class="unseen">{spoken_unit}{told}</span>'
    if field.symbol is None:
        head = f'<label for="{name}-typed">{of_part}{escape(field.label)}{quiet}</label>'
    else:
        shown = f'<span aria-hidden="true">{formula(field.symbol)} =</span>'
        head = f'<label for="{name}-typed">{of_part}<span class="unseen">{escape(field.label)}</span>{quiet}{shown}</label>'
    unit = f'<span class="unit">{spans_html((field.unit,))}</span>' if field.unit else ""
    shown = f'<span class="wanted quiet" aria-hidden="true">{told.strip()}</span>' if told else ""
    return f'{head}<span class="boxed">{_box(name, "short")}{unit}</span>{shown}'


def _choice(field: ChoiceField, asked: str, name: str) -> str:
    options = "".join(
        [
            f'<div class="option"><input type="radio" name="typed" value="{at}" id="{name}-{at}">'
            f'<label for="{name}-{at}">{spans_html(option)}</label></div>'
            for at, option in enumerate(field.options)
        ]
    )
    return f'<fieldset aria-describedby="{name}-verdict">{asked}{options}</fieldset>'


def _order(field: OrderField, asked: str, name: str, words: Words) -> str:
    items = "".join([_item(item, at, words) for at, item in enumerate(field.items)])
    return (
        f'<fieldset aria-describedby="{name}-verdict">{asked}'
        f'<p class="end quiet">{escape(field.first)}</p><ol class="order">{items}</ol><p class="end quiet">{escape(field.last)}</p></fieldset>'
    )


def _item(item: Spans, at: int, words: Words) -> str:
    """An entry with its two buttons; their names hold the visible word, so that it can be spoken to a computer."""
    shown = spans_html(item)
    buttons = "".join(
        [
            f'<button type="button" data-do="{way}" hidden>{escape(words(word))}<span class="unseen"> {escape(words("move"))} {shown}</span></button>'
            for way, word in WAYS.items()
        ]
    )
    return f'<li data-item="{at}"><span class="thing">{shown}</span><span class="movers">{buttons}</span></li>'


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
    answer = f'<p class="result"><strong>{escape(words("Answer"))}:</strong> {spans_html(part.answer)}</p>' if part.answer else ""
    heading = words("Working") if part.working else words("Answer")
    return f'<details class="working" data-working><summary>{escape(heading)}</summary>{steps}{answer}</details>'
