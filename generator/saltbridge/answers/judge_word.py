"""Judges a short word: the word of one of the things that a choice can be, or one that its author knows to be near."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from saltbridge.answers.judge_choice import judge_choice
from saltbridge.answers.plain_words import plain_word
from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]
LONGEST = 200


def judge_word(key: Key, typed: object, earlier: Key) -> Verdict:
    """Judge a word as the choice of what it names; ``earlier`` are the student's own values by part label."""
    if not isinstance(typed, str) or not plain_word(typed[:LONGEST]):
        return Verdict("unread", ("empty",))
    if len(typed) > LONGEST:
        return Verdict("unread", ("too-long",))
    word = plain_word(typed)
    place = _place(key, word)
    found = Verdict("not-yet") if place is None else judge_choice(key, [place], earlier)
    if found.verdict not in {"right", "follows"} and word in key.get("near", {}):
        return replace(found, verdict="not-yet", why=("near",), slips=(), readings=(key["near"][word],), parts=())
    return found


def _place(key: Key, word: str) -> int | None:
    """Which of the things a word names, the right one first."""
    places = sorted(range(len(key["words"])), key=lambda place: place not in key["right"])
    return next((place for place in places if word in key["words"][place]), None)
