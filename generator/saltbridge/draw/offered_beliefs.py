"""The beliefs that the wrong options of a variant show, by their ids."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.cases_part import CasesPart
from saltbridge.bank.parts import AnyPart, ChoosePart
from saltbridge.bank.sequence_part import SequencePart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_cases import drawn_cases
from saltbridge.draw.drawn_sets import shown_ticks
from saltbridge.draw.drawn_steps import right_steps


def offered_beliefs(part: AnyPart, drawn: Drawn) -> Iterator[str]:
    """What each wrong option, reason or step out of its place shows in this variant."""
    match part:
        case CasesPart():
            yield from (shows for case in drawn_cases(part, drawn.seed) for shows in case.shows.values())
        case SeveralPart(where=None):
            yield from (each.shows for each in shown_ticks(part, drawn.seed))
        case SequencePart():
            yield from (step.option.shows for step in right_steps(part, drawn.seed))
        case ChoosePart():
            yield from (each.shows for each in (part.reason.wrong if part.reason else ()))
        case _:
            return
