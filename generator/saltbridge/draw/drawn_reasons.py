"""In which order a variant shows the reasons for a choice."""

from __future__ import annotations

from saltbridge.bank.beliefs import WrongOption
from saltbridge.bank.reason import Reason
from saltbridge.draw.seeds import Seed


def shown_reasons(reason: Reason, seed: str) -> tuple[WrongOption, ...]:
    """The reasons in drawn order; the right one shows nothing."""
    there = {each.option.text: each for each in (WrongOption(reason.right, ""), *reason.wrong)}
    order = Seed("reason", "", seed).shuffle(f"reasons with {reason.right.text}", tuple(there))
    return tuple(there[text] for text in order)


def right_reason(reason: Reason, seed: str) -> int:
    """The place of the right one."""
    return next(at for at, each in enumerate(shown_reasons(reason, seed)) if each.option.text == reason.right.text)
