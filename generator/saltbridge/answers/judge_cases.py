"""Judges several cases that are asked at once: right where each has its right option, else the first that has not is told."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]
MOST_OPTIONS = 100


def judge_cases(key: Key, typed: object, _earlier: Key) -> Verdict:
    """Judge an option number for each case, ``None`` where none is chosen yet. Nothing follows from a case, nor a case from anything."""
    rows = key["rows"]
    chosen = one_each(typed, len(rows))
    if chosen is None:
        return Verdict("unread", ("empty",))
    if None in chosen:
        return Verdict("unread", ("every-case",))
    wrong = [at for at, (row, mine) in enumerate(zip(rows, chosen, strict=True)) if mine != row["right"]]
    if not wrong:
        return Verdict("right")
    first = wrong[0]
    slips = tuple(rows[first].get("slips", {}).get(str(chosen[first]), ()))
    return Verdict("slip" if slips else "not-yet", ("case-again",), slips, (str(first + 1), str(len(rows) - len(wrong))))


def one_each(typed: object, count: int) -> tuple[int | None, ...] | None:
    """An option number or ``None`` for each of ``count`` groups; ``None`` for anything else, or where nothing is chosen at all."""
    if not isinstance(typed, Sequence) or isinstance(typed, str) or len(typed) != count:
        return None
    good = all(
        each is None or (isinstance(each, int) and not isinstance(each, bool) and 0 <= each < MOST_OPTIONS) for each in typed
    )
    return tuple(typed) if good and any(each is not None for each in typed) else None
