"""Parts on an order of sentences: the steps stand in an order drawn for each variant."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from saltbridge.bank.beliefs import name_of
from saltbridge.bank.sequence_part import SequencePart, SequenceStep
from saltbridge.compose import filled_prose as prose
from saltbridge.compose.beliefs_told import hints_of, told_errors
from saltbridge.compose.choices import own_words
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.document import Inline, OrderField, Part, Spans, Step, Text
from saltbridge.draw.drawn_steps import right_steps, shown_steps
from saltbridge.policy import order_marks


def sequence_part(label: str, part: SequencePart, desk: Desk) -> Part:
    """A part on steps; a step that comes too early is told by what it hangs on, where the template says so."""
    count = part.draw or len(part.steps)
    beliefs = [step.option.shows for step in part.steps if step.option.shows]
    slots, words = desk.slots, desk.words
    items = tuple((slots.slot(f"step {at} of ({label})", partial(_shown, part, at)),) for at in range(count))
    answer = slots.slot(f"steps of ({label}) in order", partial(_in_order, part))
    swaps = slots.slot(f"steps of ({label}) that may change places", partial(_swaps, part, desk))
    why = own_words(part.why, desk.drawn, desk.setter)
    made = Made(
        OrderField(items, words("first"), words("last"), words("Put them in order")),
        (Step((*why, *((Text(" "),) if why else ()), swaps), (), {}),) if why or _may_swap(part) else (),
        (answer,),
        {"kind": "sequence", "hints": hints_of(beliefs, desk.catalogue, words)},
        partial(_share, part),
    )
    composed = desk.part(label, part, desk.followed(label, made), order_marks(desk.policy, count))
    return replace(composed, errors=told_errors(beliefs, desk.catalogue, words))


def _share(part: SequencePart, context: Context) -> dict[str, Any]:
    shown, right = (steps(part, context.drawn.seed) for steps in (shown_steps, right_steps))
    slips = {str(at): [name_of(step.option.shows)] for at, step in enumerate(shown) if step.option.shows}
    return {"stage": [step.stage for step in shown], "right": [shown.index(step) for step in right], "slips": slips}


def _shown(part: SequencePart, at: int, context: Context) -> Spans:
    return prose.sentences(shown_steps(part, context.drawn.seed)[at].text, context)


def _in_order(part: SequencePart, context: Context) -> Spans:
    """The steps one after another, each with its number."""
    spans: list[Inline] = []
    for at, step in enumerate(right_steps(part, context.drawn.seed), 1):
        spans += [Text(f"{' ' if spans else ''}({at}) "), *prose.sentences(step.text, context)]
    return tuple(spans)


def _may_swap(part: SequencePart) -> bool:
    return len({step.stage for step in part.steps}) < len(part.steps)


def _swaps(part: SequencePart, desk: Desk, context: Context) -> Spans:
    """Which numbers of this variant's order may change places."""
    right = right_steps(part, context.drawn.seed)
    groups = [_places(right, stage) for stage in dict.fromkeys(step.stage for step in right)]
    told = [", ".join(map(str, places)) for places in groups if len(places) > 1]
    return tuple(
        Text(("" if at == 0 else " ") + desk.words("Numbers {numbers} may change places.", numbers=each))
        for at, each in enumerate(told)
    )


def _places(steps: tuple[SequenceStep, ...], stage: int) -> list[int]:
    return [at for at, step in enumerate(steps, 1) if step.stage == stage]
