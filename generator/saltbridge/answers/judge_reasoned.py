"""Judges a choice and its reason together: both right, the choice alone, the reason alone, neither."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from saltbridge.answers.judge_cases import one_each
from saltbridge.answers.judge_choice import judge_choice
from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]
HOLDS = frozenset({"right", "follows"})


def judge_reasoned(key: Key, typed: object, earlier: Key) -> Verdict:
    """Judge the numbers of an option and of a reason; the choice may follow from earlier answers, and is what later parts follow from."""
    chosen = one_each(typed, 2)
    if chosen is None:
        return Verdict("unread", ("empty",))
    option, reason = chosen
    if option is None or reason is None:
        return Verdict("unread", ("both-tiers",))
    first = judge_choice(key, [option], earlier)
    why = reason == key["reason"]["right"]
    if first.verdict in HOLDS and why:
        return first
    slips = () if why else tuple(key["reason"].get("slips", {}).get(str(reason), ()))
    if first.verdict in HOLDS:
        return Verdict("slip" if slips else "not-yet", ("reason-again",), slips, own=first.own)
    if why:
        return replace(first, why=("choice-again", *first.why))
    both = tuple(dict.fromkeys((*slips, *first.slips)))
    verdict = first.verdict if first.slips or not slips else "slip"
    return replace(first, verdict=verdict, why=("both-again",), slips=both)
