"""Where a paper breaks: as few pages as can be, then as few parts as can be overleaf from the data they need.

A question of up to half a page stays whole; a longer one may break between its parts, its text staying with the first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.render.paper_room import Measure


@dataclass(frozen=True, slots=True)
class _Unit:
    """What stands or falls together: a question, or the opening of a long one, or one of its further parts."""

    target: dict[str, Any]
    height: float
    question: int
    opens: bool
    needs: bool


def broken(copy: Mapping[str, Any], measure: Measure) -> None:
    """Mark the questions and parts of one copy: ``whole``, ``opens`` and ``fits`` (kept together) and ``breaks`` (begins a page)."""
    units = [unit for at, question in enumerate(copy["questions"]) for unit in _units(at, question, measure)]
    full = [measure.height - (0 if copy.get("front") else measure.head(copy)), measure.height]
    for at in _early_starts(units, full):
        units[at].target["breaks"] = True


def _units(at: int, question: dict[str, Any], measure: Measure) -> list[_Unit]:
    parts = question["parts"]
    heights = [measure.part(part) for part in parts]
    for part, height in zip(parts, heights, strict=True):
        part["fits"] = height <= measure.height
    opening = measure.opening(question) + sum(heights[:1])
    whole = opening + sum(heights[1:])
    question["whole"] = whole <= measure.half
    question["opens"] = opening <= measure.height
    if question["whole"]:
        return [_Unit(question, whole, at, opens=True, needs=False)]
    further = [
        _Unit(part, height, at, opens=False, needs=part["needs"]) for part, height in zip(parts[1:], heights[1:], strict=True)
    ]
    return [_Unit(question, opening, at, opens=True, needs=False), *further]


_Cost = tuple[int, int, int]
"""Pages, parts overleaf from the data they need, questions that go on overleaf."""


def _early_starts(units: Sequence[_Unit], full: Sequence[float]) -> list[int]:
    """The units that begin a page though they would fit on the one before."""
    best: dict[int, tuple[_Cost, int]] = {len(units): ((0, 0, 0), len(units))}
    for start in reversed(range(len(units))):
        best[start] = min((_added(best[end][0], units, start, end), -end) for end in _ends(units, start, full[min(start, 1)]))
    early = []
    start = 0
    while start < len(units):
        end = -best[start][1]
        if end < len(units) and end < max(_ends(units, start, full[min(start, 1)])):
            early.append(end)
        start = end
    return early


def _ends(units: Sequence[_Unit], start: int, full: float) -> list[int]:
    """Where a page that begins with a unit may end; one that is too high for its page has it alone."""
    ends = [start + 1]
    height = units[start].height
    for at in range(start + 1, len(units)):
        height += units[at].height
        if height > full:
            break
        ends.append(at + 1)
    return ends


def _added(after: _Cost, units: Sequence[_Unit], start: int, end: int) -> _Cost:
    here = {unit.question for unit in units[start:end] if unit.opens}
    overleaf = sum(unit.needs and unit.question not in here for unit in units[start:end])
    goes_on = int(end < len(units) and not units[end].opens)
    return after[0] + 1, after[1] + overleaf, after[2] + goes_on
