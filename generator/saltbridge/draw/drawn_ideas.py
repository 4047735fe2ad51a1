"""Which idea a variant asks about, and which statements stand beside its true counterpart, in which order."""

from __future__ import annotations

from saltbridge.bank.parts import WhichPart
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.seeds import Seed

MOST_OPTIONS = 4


def drawn_idea(part: WhichPart, drawn: Drawn) -> str:
    """The id of the idea that a variant asks about."""
    return _seed(part, drawn).pick("idea", part.which)


def statements(part: WhichPart, drawn: Drawn) -> tuple[tuple[str, bool], ...]:
    """The options of a variant in their order: the idea behind each, and whether it is the true counterpart."""
    seed, asked = _seed(part, drawn), drawn_idea(part, drawn)
    others = seed.shuffle("others", [name for name in part.which if name != asked])
    wrong = [asked, *others][: MOST_OPTIONS - 1]
    return seed.shuffle("options", ((asked, True), *((name, False) for name in wrong)))


def offers(part: WhichPart, drawn: Drawn, idea: str) -> bool:
    """Whether the wrong statement of an idea is one of the options of this variant."""
    return (idea, False) in statements(part, drawn)


def _seed(part: WhichPart, drawn: Drawn) -> Seed:
    return Seed("which", ",".join(part.which), drawn.seed)
