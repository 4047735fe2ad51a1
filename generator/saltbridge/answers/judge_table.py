"""Judges a table: each blank cell by the judge of its own kind, with the cells before it among the earlier answers."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from saltbridge.answers.verdict import Code, Verdict

Key = Mapping[str, Any]
Judge = Callable[[Key, object, Key], Verdict]
_GOOD: tuple[Code, ...] = ("right", "right-but", "follows")
"""Verdicts that earn a mark, the best first."""


def judge_table(key: Key, typed: object, earlier: Key, judge: Judge) -> Verdict:
    """Judge what stands in the blank cells, in their order; ``judge`` judges one of them.

    The whole is as good as its worst cell. A cell left empty is no answer yet, and later cells follow from the others alone.
    """
    cells = key["cells"]
    if not isinstance(typed, Sequence) or isinstance(typed, str) or len(typed) != len(cells):
        return Verdict("unread", ("empty",))
    found: list[Verdict] = []
    own = dict(earlier)
    for cell, each in zip(cells, typed, strict=True):
        verdict = Verdict("unread", ("empty",)) if each is None or each in ("", []) else judge(cell, each, own)
        if verdict.own is not None:
            own[cell["label"]] = verdict.own
        found.append(verdict)
    if all(each.why == ("empty",) for each in found):
        return Verdict("unread", ("empty",))
    return _whole(key, found)


def _whole(key: Key, found: Sequence[Verdict]) -> Verdict:
    cells = tuple(found)
    if all(each.verdict in _GOOD for each in found):
        worst = max(found, key=lambda each: _GOOD.index(each.verdict))
        return Verdict(worst.verdict, parts=worst.parts, cells=cells)
    empty = ("cells-empty",) if any(each.why == ("empty",) for each in found) else ()
    return Verdict("not-yet", ("rows-right" if key["mark"] == "row" else "cells-right", *empty), cells=cells)
