"""What comes of judging an answer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

Code = Literal["right", "right-but", "follows", "slip", "slip-on-own", "not-yet", "unread"]


@dataclass(frozen=True, slots=True)
class Verdict:
    """A verdict, why (codes of ``sentences``), the ids of the slips recognised, and the readings of a doubtful text.

    ``own`` is what later parts may follow from: a number in the unit asked for, the value behind the chosen option, or the factor
    by which an equation is a multiple of the right one.
    ``parts`` is the label of the earlier part that this one follows from, where that is not right itself.
    """

    verdict: Code
    why: tuple[str, ...] = ()
    slips: tuple[str, ...] = ()
    readings: tuple[str, ...] = ()
    own: float | str | None = None
    parts: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The same as the script's object."""
        return {
            "verdict": self.verdict,
            "why": list(self.why),
            "slips": list(self.slips),
            "readings": list(self.readings),
            "own": self.own,
            "parts": list(self.parts),
        }
