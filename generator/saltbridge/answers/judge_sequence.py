"""Judges steps that were put in order, where some may change places; else the first two neighbours that stand the wrong way round are told."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.answers.judge_choice import picked_numbers
from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]


def judge_sequence(key: Key, typed: object, _earlier: Key) -> Verdict:
    """Judge step numbers in the order that they were put in. ``key["stage"]`` is the stage of each step: those of one may change places."""
    stages: Sequence[int] = key["stage"]
    picked = picked_numbers(typed, len(stages))
    if picked is None or sorted(picked) != list(range(len(stages))):
        return Verdict("unread", ("empty",))
    mine = [stages[step] for step in picked]
    early = next((at for at in range(len(mine) - 1) if mine[at] > mine[at + 1]), None)
    if early is None:
        return Verdict("right")
    if mine == sorted(mine, reverse=True):
        return Verdict("not-yet", ("other-way-round",))
    slips = tuple(key.get("slips", {}).get(str(picked[early]), ()))
    return Verdict("slip" if slips else "not-yet", ("neighbours",), slips, (str(early + 1), str(early + 2)))
