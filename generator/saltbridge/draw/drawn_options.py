"""In which order a variant shows the options of a choice."""

from __future__ import annotations

from saltbridge.bank.parts import ChoosePart
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.seeds import Seed


def is_fixed(part: ChoosePart, drawn: Drawn) -> bool:
    """Whether one and the same option is right in every draw: it is given word for word and is no name of the scenario."""
    return part.choose in [option.text for option in part.options] and not drawn.has(part.choose)


def option_order(part: ChoosePart, drawn: Drawn) -> tuple[int, ...]:
    """The options by their places in the template: as written, but drawn where the right one would never change its place."""
    places = tuple(range(len(part.options)))
    return Seed("choose", part.choose, drawn.seed).shuffle("options", places) if is_fixed(part, drawn) else places
