"""Parts that ask for a choice and its reason, scored together: the choice is a node of the graph as ever, the reason is told in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from saltbridge.bank.beliefs import WrongOption
from saltbridge.bank.parts import ChoosePart
from saltbridge.bank.reason import Reason
from saltbridge.compose import filled_prose as prose
from saltbridge.compose.beliefs_told import hints_of, slips_by_option, told_errors
from saltbridge.compose.choices import choose, choose_part, own_words
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.document import ChoiceField, ChoicesField, Group, Part, Spans, Step, Text
from saltbridge.draw.drawn_reasons import right_reason, shown_reasons


def choice_part(label: str, part: ChoosePart, desk: Desk) -> Part:
    """A choice, with its reason where the template asks for one."""
    return choose_part(label, part, desk) if part.reason is None else _reasoned(label, part, part.reason, desk)


def _reasoned(label: str, part: ChoosePart, reason: Reason, desk: Desk) -> Part:
    made = choose(part, desk.drawn, desk.setter, desk.catalogue, desk.words, frozenset(desk.known))
    beliefs = [each.shows for each in reason.wrong if each.shows]
    slots, field = desk.slots, made.field
    assert isinstance(field, ChoiceField)  # noqa: S101 - what a choice is made of
    reasons = tuple(
        (slots.slot(f"reason {at} of ({label})", partial(_shown, reason, at)),) for at in range(1 + len(reason.wrong))
    )
    right = slots.slot(f"right reason of ({label})", lambda context: _said(WrongOption(reason.right, ""), context))
    head = own_words(reason.ask, desk.drawn, desk.setter) or (Text(desk.words("What is the reason?")),)
    worth = desk.policy.reasoned
    made = replace(
        made,
        field=ChoicesField((Group((), field.options), Group(head, reasons)), field.label),
        working=(*made.working, Step((right,), (), {})),
        answer=(*made.answer, Text(" – "), right),
        shape={
            **made.shape, "kind": "reasoned", "worth": worth,
            "hints": {**made.shape["hints"], **hints_of(beliefs, desk.catalogue, desk.words)},
        },
        share=partial(_share, reason, made.share),
    )  # fmt: skip
    composed = desk.part(label, part, desk.followed(label, made), worth["both"])
    return replace(composed, errors=told_errors(beliefs, desk.catalogue, desk.words))


def _share(reason: Reason, of_choice: Any, context: Context) -> Mapping[str, Any]:
    """The share of the choice, and beside it the right reason and what the others show."""
    seed = context.drawn.seed
    shows = {at: each.shows for at, each in enumerate(shown_reasons(reason, seed)) if each.shows}
    return {**of_choice(context), "reason": {"right": right_reason(reason, seed), "slips": slips_by_option(shows)}}


def _shown(reason: Reason, at: int, context: Context) -> Spans:
    return _said(shown_reasons(reason, context.drawn.seed)[at], context)


def _said(reason: WrongOption, context: Context) -> Spans:
    return prose.sentences(reason.option.prose, context)
