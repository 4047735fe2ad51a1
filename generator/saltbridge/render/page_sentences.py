"""What the page says about its own doings; its script holds no sentence. Those of verdicts are the answers room's."""

from __future__ import annotations

from collections.abc import Mapping

from saltbridge.words import Words

ACTIONS = {
    "try": "Open the hint, or compare with the working.",
    "fresh": "New version: {number} of {count}.",
    "moved": "{thing}: place {place} of {count}.",
    "forgotten": "Your answers have been deleted.",
    "wide": "A long line; scroll sideways",
    "cell-right": "right",
    "cell-right-but": "right, but",
    "cell-follows": "follows",
    "cell-not-yet": "not yet",
    "cell-unread": "can't be read",
    "cell-empty": "empty",
    "kept": "Your answers are kept in this browser only.",
    "not-kept": "This browser keeps no answers. They are gone when you close the page.",
    "unknown-data": "This page was made for another version of its script. You can read it, but not check answers.",
    "broken": "Something went wrong in this part. The rest of the page works.",
}
"""Code → sentence, with places in braces."""

BENCH = {
    "entry": "{metal}: {value} mV",
    "order": "From the most negative: {order}.",
    "turned": "The other way round in the table of standard potentials: {first} and {second}. What may be the cause?",
    "same": "These metals stand in the same order in the table of standard potentials.",
}
"""The same for the page of the metals practical."""


def script_sentences(words: Words, verdicts: Mapping[str, Mapping[str, str]]) -> dict[str, Mapping[str, str]]:
    """All sentences for the page's data block, in the language of ``words``; ``verdicts`` are the answers room's own."""
    return {**verdicts, "actions": {code: words(text) for code, text in ACTIONS.items()}}
