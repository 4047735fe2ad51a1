"""Ideas: usual wrong beliefs that no node of a derivation shows, each with the true sentence in its place.

They stand in ``ideas.yaml``; a bank may add its own beside its templates. Every key is known, every fault is told at its line.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from saltbridge.catalogue.entries import Entry, EntryError

NEEDED = ("statement", "counterpart", "hint", "source", "outcome")
KEYS = (*NEEDED, "holds when")
LONGEST = 240  # characters of a sentence: an option has to fit a phone
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_OUTCOME = re.compile(r"T[0-9]+\.[0-9]+")


@dataclass(frozen=True, slots=True)
class Idea:
    """A belief (``statement``), the true ``counterpart``, a hint, and ``holds_when``, a sentence on where it is right, or ""."""

    id: str
    statement: str
    counterpart: str
    hint: str
    holds_when: str
    source: str
    outcome: str


def idea(entry: Entry) -> Idea:
    """One idea; raises ``EntryError`` where a needed key is missing, after noting every fault."""
    entry.allow(KEYS, NEEDED)
    if not _ID.fullmatch(entry.path):
        expected = "small letters, digits and hyphens, such as `rust-needs-one-thing`"
        entry.blame("identifier", "", expected=expected, found=entry.path)
    texts = {key: _sentence(entry, key) for key in ("statement", "counterpart", "hint")}
    if texts["statement"] == texts["counterpart"]:
        entry.blame("same-text", "counterpart", expected="another sentence than the statement", found="the same")
    if not entry.text("source"):
        entry.blame("empty", "source", expected="where the belief is reported", found="nothing")
    outcome = entry.text("outcome")
    if not _OUTCOME.fullmatch(outcome):
        entry.blame("outcome", "outcome", expected="the id of an outcome, such as T8.1", found=outcome)
    holds = _sentence(entry, "holds when") if "holds when" in entry.keys else ""
    return Idea(entry.path, texts["statement"], texts["counterpart"], texts["hint"], holds, entry.text("source"), outcome)


def _sentence(entry: Entry, key: str) -> str:
    """A sentence that ends as one and fits an option."""
    text = entry.text(key)
    if text[-1:] not in {".", "?"} or len(text) > LONGEST:
        found = f"{len(text)} characters" if len(text) > LONGEST else f"{text[-20:]!r}"
        entry.blame("sentence", key, expected=f"a sentence of at most {LONGEST} characters with its full stop", found=found)
    if "{" in text or "}" in text:
        entry.blame("sentence", key, expected="plain words, without holes", found="a curly bracket")
        raise EntryError
    return text


def unlike(ideas: Mapping[str, Idea], entry: Entry) -> None:
    """Note a statement or counterpart that another idea has word for word: no question could tell the two apart."""
    mine = ideas[entry.path]
    for other in ideas.values():
        shared = {mine.statement, mine.counterpart} & {other.statement, other.counterpart}
        if other.id != mine.id and shared:
            entry.blame("same-text", "statement", expected="sentences that no other idea has", found=f"those of {other.id}")
