"""What a variant asks about in words alone: the drawn idea, the drawn cases."""

from __future__ import annotations

from saltbridge.bank.cases_part import CasesPart
from saltbridge.bank.parts import AnyPart, WhichPart
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_cases import drawn_cases
from saltbridge.draw.drawn_ideas import drawn_idea


def told_in_words(part: AnyPart, drawn: Drawn) -> tuple[str, ...]:
    """What tells this variant's part from that of others, where no number or name of the scenario does."""
    match part:
        case WhichPart():
            return (drawn_idea(part, drawn),)
        case CasesPart():
            return tuple(f"{each.case} -> {each.case.right.text}" for each in drawn_cases(part, drawn.seed))
        case _:
            return ()
