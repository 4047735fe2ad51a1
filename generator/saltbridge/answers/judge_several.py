"""Judges which of several things were ticked: all and only the right ones, and else what they earn and the first that does not belong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.answers.judge_choice import explained, picked_numbers
from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]
BETWEEN, NOTHING = "+", "none"
"""What stands between the things in the value of a set, and the value of a set without things."""


def judge_several(key: Key, typed: object, earlier: Key) -> Verdict:
    """Judge the numbers of the ticked options, in any order; ``key["none"]`` is the option that says none of the others."""
    picked = picked_numbers(typed, 100)
    if picked is None:
        return Verdict("unread", ("empty",))
    none, own, name = key.get("none"), _own(key, picked), ",".join(map(str, sorted(picked)))
    if set(picked) == set(key["right"]):
        return Verdict("right", own=own)
    if none in picked and len(picked) > 1:
        return Verdict("unread", ("none-and-more",))
    told = explained(key, name, own, earlier)
    if told:
        return told
    strange = sorted(set(picked) - set(key["right"]))
    slips = next((tuple(found) for each in strange if (found := key.get("beliefs", {}).get(str(each)))), ())
    why = _missing(key, picked, strange)
    return Verdict("slip" if slips else "not-yet", why, slips, _earned(key, picked, strange), own)


def _own(key: Key, picked: Sequence[int]) -> str | None:
    """The value of the ticked things, named in the order of ``key["things"]``, where it has one, else in that of the options."""
    values = key.get("values") or []
    if not values or not key.get("node"):
        return None
    ticked = {values[at] for at in picked if at < len(values)}
    return BETWEEN.join(thing for thing in key.get("things") or values if thing in ticked) or NOTHING


def _missing(key: Key, picked: Sequence[int], strange: Sequence[int]) -> tuple[str, ...]:
    """Whether something is missing, does not belong, or both, and that a mark is earned where one is."""
    right = set(picked) & set(key["right"])
    if not right:
        return ()
    what = "some-missing" if not strange else "some-strange" if len(right) == len(key["right"]) else "some-right"
    return (what, "earns") if _earned(key, picked, strange)[0] != "0" else (what,)


def _earned(key: Key, picked: Sequence[int], strange: Sequence[int]) -> tuple[str, str]:
    """The marks that the ticked options earn, and those of the whole part."""
    worth = key["worth"]
    right = len(picked) - len(strange)
    return str(marks_earned(worth["marks"], worth["right"], worth["wrong"], len(key["right"]), (right, len(strange)))), str(
        worth["marks"]
    )


def marks_earned(marks: int, each_right: int, each_wrong: int, there: int, ticked: tuple[int, int]) -> int:
    """Whole marks for so many right and wrong ticks of ``there`` right ones, rounded down and never below 0.

    Each right one earns its share, each wrong one costs one, in the proportion of ``each_right`` to ``each_wrong``.
    """
    right, wrong = ticked
    return max(0, marks * (each_right * right - each_wrong * wrong) // (each_right * there))
