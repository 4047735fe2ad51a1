"""Parts with several right options: a node of the graph whose value names those that fit, or options in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from saltbridge.answers.judge_several import marks_earned
from saltbridge.bank.beliefs import WrongOption
from saltbridge.bank.several_part import SeveralPart
from saltbridge.compose import filled_prose as prose
from saltbridge.compose.beliefs_told import hints_of, slips_by_option, told_errors
from saltbridge.compose.choices import own_words, taken_by_errors
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.compose.workings import working
from saltbridge.document import Inline, Part, SeveralField, Spans, Step, Text
from saltbridge.draw.drawn_sets import compared_names, is_right, node_of, shown_things, shown_ticks, things_in, things_of
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import walk

Worth = Mapping[str, int]


def several_part(label: str, part: SeveralPart, desk: Desk) -> Part:
    """A part with several right options. Raises ``Faulty`` as ``node_of`` does."""
    worth = {**desk.policy.several, **({"marks": part.marks} if part.marks else {})}
    made = _of_things(label, part, desk, worth) if part.where is not None else _of_words(label, part, desk, worth)
    composed = desk.part(label, part, desk.followed(label, made), worth["marks"])
    beliefs = [each.shows for each in part.leave if each.shows]
    return replace(composed, errors=told_errors(beliefs, desk.catalogue, desk.words))


def _field(options: Sequence[Spans], part: SeveralPart, desk: Desk) -> SeveralField:
    none = ((Text(desk.words("None of these")),),) if part.or_none else ()
    return SeveralField((*options, *none), desk.words("Tick all that fit"))


def _right(right: Sequence[int], count: int, worth: Worth) -> dict[str, Any]:
    """The numbers of what is right, that of `None of these` where nothing else is, and what so many of them earn."""
    found = list(right) or [count]
    credit = [
        marks_earned(worth["marks"], worth["right"], worth["wrong"], len(found), (each, 0)) for each in range(len(found) + 1)
    ]
    return {"right": found, "credit": credit}


def _listed(spans: Sequence[Spans], desk: Desk) -> Spans:
    """Several in a row; words for none."""
    row: list[Inline] = []
    for each in spans:
        row += [Text(" · "), *each] if row else each
    return tuple(row) or (Text(desk.words("None of these")),)


# ------------------------------------------------------------------ words


def _of_words(label: str, part: SeveralPart, desk: Desk, worth: Worth) -> Made:
    count = part.draw or len(part.tick) + len(part.leave)
    slots = desk.slots

    def share(context: Context) -> dict[str, Any]:
        shown = shown_ticks(part, context.drawn.seed)
        shows = {at: each.shows for at, each in enumerate(shown) if each.shows}
        right = [at for at, each in enumerate(shown) if is_right(part, each)]
        return {**_right(right, count, worth), "beliefs": slips_by_option(shows), "slips": {}}

    def answer(context: Context) -> Spans:
        return _listed([_said(each, context) for each in shown_ticks(part, context.drawn.seed) if is_right(part, each)], desk)

    options = [(slots.slot(f"option {at} of ({label})", partial(_tick_at, part, at)),) for at in range(count)]
    why = own_words(part.why, desk.drawn, desk.setter)
    shape: dict[str, Any] = {"kind": "several", "node": None, "worth": worth, "none": count if part.or_none else None}
    shape["hints"] = hints_of((each.shows for each in part.leave if each.shows), desk.catalogue, desk.words)
    steps = (Step(why, (), {}),) if why else ()
    return Made(_field(options, part, desk), steps, (slots.slot(f"right of ({label})", answer),), shape, share)


def _tick_at(part: SeveralPart, at: int, context: Context) -> Spans:
    return _said(shown_ticks(part, context.drawn.seed)[at], context)


def _said(option: WrongOption, context: Context) -> Spans:
    return prose.sentences(option.option.prose, context)


# ------------------------------------------------------------------ things of the scenario


def _of_things(label: str, part: SeveralPart, desk: Desk, worth: Worth) -> Made:
    drawn, slots = desk.drawn, desk.slots
    node, count = node_of(part, drawn), len(things_of(part, drawn.lists))
    points = points_of(drawn.graph, node, drawn.situation, desk.catalogue)
    options = [(slots.slot(f"thing {at} of ({label})", partial(_thing_at, part, at)),) for at in range(count)]

    def answer(context: Context) -> Spans:
        right = things_in(str(context.drawn.graph.value(context.drawn.cells, node)))
        return _listed(
            [(context.shown(f"{thing}.{part.show}"),) for thing in shown_things(part, context.drawn) if thing in right], desk
        )

    shape = {
        "kind": "several", "node": node, "things": list(things_of(part, drawn.lists)), "worth": worth,
        "none": count if part.or_none else None, "hints": {point.slip.id: desk.words(point.slip.hint) for point in points},
    }  # fmt: skip
    steps = walk(drawn.graph, node, frozenset(desk.known))
    values = slots.slot(f"values compared in ({label})", partial(_values, part))
    told = Step(own_words(part.why, drawn, desk.setter), ((values,),), {})
    return Made(
        _field(options, part, desk), (*working(steps, desk.setter, drawn.situation, desk.words, {}), told),
        (slots.slot(f"right of ({label})", answer),), shape, partial(_share, part, node, points, worth), node, steps, points=points,
    )  # fmt: skip


def _share(part: SeveralPart, node: str, points: Sequence[SlipPoint], worth: Worth, context: Context) -> dict[str, Any]:
    drawn = context.drawn
    shown = shown_things(part, drawn)
    slips: dict[str, dict[str, None]] = {}
    for error, taken in taken_by_errors(drawn, node, points):
        places = [at for at, thing in enumerate(shown) if thing in things_in(taken)] or ([len(shown)] if part.or_none else [])
        if places:
            slips.setdefault(",".join(map(str, places)), {})[error] = None
    value = things_in(str(drawn.graph.value(drawn.cells, node)))
    right = [at for at, thing in enumerate(shown) if thing in value]
    found = {numbers: list(ids) for numbers, ids in slips.items()}
    return {**_right(right, len(shown), worth), "values": list(shown), "slips": found, "beliefs": {}}


def _thing_at(part: SeveralPart, at: int, context: Context) -> Spans:
    return (context.shown(f"{shown_things(part, context.drawn)[at]}.{part.show}"),)


def _values(part: SeveralPart, context: Context) -> Spans:
    """Each thing with its value, and what it is compared with."""
    *each, mark = compared_names(part, context.drawn.lists)
    spans: list[Inline] = []
    for name in sorted(each, key=lambda name: float(context.printed(name))):
        owner = name.partition(".")[0]
        spans += [Text("; ")] if spans else []
        spans += [context.shown(f"{owner}.{part.show}"), Text(" "), context.quantity(name)]
    beside = context.shown(f"{mark.partition('.')[0]}.{part.show}") if "." in mark else None
    return (*spans, Text(" – "), *((beside, Text(" ")) if beside is not None else ()), context.quantity(mark))
