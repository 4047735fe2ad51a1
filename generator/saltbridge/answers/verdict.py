"""What comes of judging an answer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

Code = Literal["right", "right-but", "follows", "slip", "slip-on-own", "not-yet", "self-marked", "unread"]


@dataclass(frozen=True, slots=True)
class Verdict:
    """A verdict, why (codes of ``sentences``), the ids of the slips recognised, and the readings of a doubtful text.

    ``own`` is what later parts may follow from: a number in the unit asked for, the value behind the chosen option, or the factor
    by which an equation is a multiple of the right one.
    ``parts`` is the label of the earlier part that this one follows from, where that is not right itself. ``marks`` are those that a
    student gave to an answer of their own. ``cells`` are the verdicts on the blank cells of a table.
    """

    verdict: Code
    why: tuple[str, ...] = ()
    slips: tuple[str, ...] = ()
    readings: tuple[str, ...] = ()
    own: float | str | None = None
    parts: tuple[str, ...] = ()
    marks: int | None = None
    cells: tuple[Verdict, ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The same as the script's object."""
        return {
            "verdict": self.verdict,
            "why": list(self.why),
            "slips": list(self.slips),
            "readings": list(self.readings),
            "own": self.own,
            "parts": list(self.parts),
            "marks": self.marks,
            **({"cells": [each.as_json() for each in self.cells]} if self.cells else {}),
        }
