"""What a variant asks about where it is no number: the drawn idea, the drawn cases, options or steps, the things that fit."""

from __future__ import annotations

from saltbridge.bank.cases_part import CasesPart
from saltbridge.bank.parts import AnyPart, WhichPart
from saltbridge.bank.sequence_part import SequencePart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_cases import drawn_cases
from saltbridge.draw.drawn_ideas import drawn_idea
from saltbridge.draw.drawn_sets import node_of, shown_ticks
from saltbridge.draw.drawn_steps import right_steps


def told_in_words(part: AnyPart, drawn: Drawn) -> tuple[str, ...]:
    """What tells this variant's part from that of others, where it is no number, choice or equation."""
    match part:
        case WhichPart():
            return (drawn_idea(part, drawn),)
        case CasesPart():
            return tuple(f"{each.case} -> {each.case.right.text}" for each in drawn_cases(part, drawn.seed))
        case SeveralPart(where=None):
            return tuple(sorted(each.option.text for each in shown_ticks(part, drawn.seed)))
        case SeveralPart():
            return (str(drawn.graph.value(drawn.cells, node_of(part, drawn))),)
        case SequencePart():
            return tuple(str(step) for step in right_steps(part, drawn.seed))
        case _:
            return ()
