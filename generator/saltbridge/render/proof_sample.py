"""One variant written out for a moderator: situation, parts with their workings, what is accepted, and what slips give."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saltbridge.document import (
    ChoiceField,
    ChoicesField,
    Group,
    KeyPoint,
    OrderField,
    Part,
    Question,
    SeveralField,
    Spans,
    Variant,
    WrittenField,
)
from saltbridge.render.html import blocks_html, marks_html, spans_html, working_html
from saltbridge.render.part_markup import variant_texts
from saltbridge.render.skeleton import escape, join, split
from saltbridge.words import Words


@dataclass(frozen=True, slots=True)
class SlipShown:
    """What a slip gives in this variant: its title, its hint, and the value or choice."""

    title: str
    hint: str
    value: Spans


@dataclass(frozen=True, slots=True)
class PartShown:
    """What a moderator sees of a part besides its working: the accepted range as two numbers, and the slips told apart."""

    accepted: tuple[Spans, ...] = ()
    slips: tuple[SlipShown, ...] = ()


def sample_html(question: Question, variant: Variant, shown: Sequence[PartShown], words: Words) -> str:
    """The variant as it would be met, with answers."""
    parts = "".join([_part(part, extra, words) for part, extra in zip(question.parts, shown, strict=True)])
    skeleton = split(f'<div class="situation">{blocks_html(question.blocks, words)}</div>{parts}')
    return join(skeleton.chunks, variant_texts(skeleton, variant))


def _part(part: Part, shown: PartShown, words: Words) -> str:
    head = f'<p class="part-head"><strong>({escape(part.label)})</strong> {marks_html(part.marks, words)}</p>'
    working = working_html(part.working, words) if part.working else ""
    answer = (
        f'<p class="result"><strong>{escape(words("Answer"))}:</strong> {spans_html(part.answer)}{_accepted(shown, words)}</p>'
    )
    answer = answer if part.answer else ""
    asked = f"{blocks_html(part.body, words)}{_offered(part, words)}"
    return f'<div class="sample-part">{head}{asked}{working}{answer}{_slips(shown, words)}</div>'


def _offered(part: Part, words: Words) -> str:
    """What can be chosen or is to be put in order."""
    match part.field:
        case WrittenField(points=points, wanted=wanted):
            lead = f"<p>{escape(words('Any {wanted} of these {count}:', wanted=wanted, count=len(points)))}</p>" if wanted else ""
            return f'{lead}<ul class="offered">{"".join([_point(each, words) for each in points])}</ul>'
        case ChoiceField(options=things) | SeveralField(options=things) | OrderField(items=things):
            return _row(things)
        case ChoicesField(groups):
            return "".join([f"{_head(group)}{_row(group.options)}" for group in groups])
        case _:
            return ""


def _point(point: KeyPoint, words: Words) -> str:
    """A point with what else is accepted and what is refused."""
    notes = [(words("Also accept:"), each) for each in point.accept] + [(words("Do not accept:"), each) for each in point.refuse]
    told = "".join([f"<br><em>{escape(lead)}</em> {spans_html(spans)}" for lead, spans in notes])
    return f"<li>{spans_html(point.text)} {marks_html(point.marks, words)}{told}</li>"


def _row(things: Sequence[Spans]) -> str:
    return f'<p class="offered">{" · ".join([spans_html(each) for each in things])}</p>'


def _head(group: Group) -> str:
    return f"<p>{spans_html(group.head)}</p>" if group.head else ""


def _accepted(shown: PartShown, words: Words) -> str:
    if not shown.accepted:
        return ""
    low, high = (spans_html(each) for each in shown.accepted)
    told = escape(words("accept {low} to {high}")).replace("{low}", low).replace("{high}", high)
    return f' <span class="accepted">{told}</span>'


def _slips(shown: PartShown, words: Words) -> str:
    if not shown.slips:
        return ""
    rows = "".join([f"<dt>{spans_html(each.value)}</dt><dd>{escape(each.title)}</dd>" for each in shown.slips])
    return f'<p class="slips-head">{escape(words("Common errors that it reveals"))}</p><dl class="slips">{rows}</dl>'
