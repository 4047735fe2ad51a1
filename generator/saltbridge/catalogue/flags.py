"""The flags of a quantity, read strictly: which there are, and which go together."""

from __future__ import annotations

from saltbridge.catalogue.catalogue_records import Flags
from saltbridge.catalogue.entries import Entry

JUDGED = ("by logarithm", "to one decimal")
COUNTED_BY = ("cell equation", "ion equation", "half-equation", "hydrogen ions")
_TRUE_OR_FALSE = ("silent", "seldom given", "inner", "numbered", "several cells", "electrons", "put in")
FLAGS = ("judged", "counted by", *_TRUE_OR_FALSE)


def flags(entry: Entry) -> Flags:
    """The flags of a quantity's entry, a fault at each that can't be meant."""
    judged, counted_by = (entry.one_of(key, ("", *known), "") for key, known in (("judged", JUDGED), ("counted by", COUNTED_BY)))
    found = Flags(judged, counted_by, *(entry.flag(key) for key in _TRUE_OR_FALSE))
    if entry.flag("word"):
        _refuse_on_words(entry)
    elif found.by_logarithm and entry.text("range", "any") != "positive":
        hint = "Write range: positive, or leave out judged."
        entry.blame("bad-value", "judged", expected="range: positive beside it", found=entry.text("range", "any"), hint=hint)
    if judged and entry.flag("whole"):
        hint = "Leave out judged: a whole number is asked whole."
        entry.blame("bad-value", "judged", expected="a quantity that is not whole", found="whole: true", hint=hint)
    if found.numbered and entry.path[-1:].isdigit():
        hint = "Give it a name that ends in a letter."
        entry.blame("bad-value", "numbered", expected="a name that numbers can follow", found=entry.path, hint=hint)
    return found


def _refuse_on_words(entry: Entry) -> None:
    """Note each flag that says something of numbers."""
    for key in FLAGS:
        if key in entry.keys and key != "inner":
            entry.blame("bad-value", key, expected="a quantity that is a number", found="word: true", hint=f"Leave out {key}.")
