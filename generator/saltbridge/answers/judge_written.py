"""Adds up what a student has ticked of the points of a written answer. Nothing that was written is judged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]


def judge_written(key: Key, typed: object, _earlier: Key) -> Verdict:
    """The marks of the ticked points, at most as many points as the key wants (``any``).

    ``typed``: ``{"text": what was written, "ticked": numbers of points}``; without a tick there is nothing to tell.
    """
    ticked = typed.get("ticked") if isinstance(typed, Mapping) else None
    marks = [int(each) for each in key["points"]]
    if not isinstance(ticked, Sequence) or isinstance(ticked, str) or not ticked or len(ticked) > len(marks):
        return Verdict("unread", ("no-tick",))
    places = [each for each in ticked if isinstance(each, int) and not isinstance(each, bool) and 0 <= each < len(marks)]
    if len(set(places)) != len(ticked):
        return Verdict("unread", ("no-tick",))
    earned = sorted((marks[place] for place in places), reverse=True)[: key["any"] or len(marks)]
    return Verdict("self-marked", marks=sum(earned))
