"""Reads the keys that a template writes under a kind of scenario: how each is drawn, of what, and within which bounds."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation

from saltbridge.catalogue.catalogue_records import Quantity
from saltbridge.catalogue.entries import Entry, EntryError
from saltbridge.catalogue.scenario_records import DrawnKey, What
from saltbridge.catalogue.word_lists import WORD_LISTS
from saltbridge.faults import nearest

WAYS: tuple[What, ...] = ("one of", "some of", "given", "quantity", "count", "word")
ORDERS = ("", "falling", "rising")
_COMMON = ("means", "as", "under")
_MORE: Mapping[str, tuple[str, ...]] = {
    "one of": ("all as", "other than", "usual", "needed"),
    "some of": ("how many", "as couples", "other than", "usual", "needed"),
    "given": ("usual", "needed"),
    "quantity": ("order", "only with", "needed", "least", "most", "whole", "bare", "any sign"),
    "count": ("usual", "needed", "least", "most"),
    "word": ("usual", "needed"),
}
"""What else may stand beside each way of drawing."""
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*", re.ASCII)
_KEY = re.compile(r"[A-Za-z][A-Za-z0-9]*(?: [A-Za-z0-9]+){0,4}", re.ASCII)


def drawn_key(entry: Entry, quantities: Mapping[str, Quantity]) -> DrawnKey:
    """One key of a kind; raises ``EntryError`` where it says no way of drawing, after noting its faults."""
    ways = [way for way in WAYS if way in entry.keys]
    if len(ways) != 1:
        found = " and ".join(ways) or "none of them"
        entry.blame("way", "", expected="exactly one of " + ", ".join(WAYS), found=found)
        raise EntryError
    way = ways[0]
    entry.allow((way, *_COMMON, *_MORE[way]), ("means",))
    name = entry.path.rpartition(".")[2]
    if not _KEY.fullmatch(name):
        entry.blame("key", "", expected="a key of letters, digits and spaces", found=name)
    words = entry.texts("word") if way == "word" else ()
    of = "" if way == "word" else entry.text(way)
    _refuse_unknown(entry, way, of, quantities)
    called = _names(entry, "as") or ((of,) if way in {"quantity", "count"} else (name.replace(" ", "_"),))
    least, most = (_bound(entry, key) for key in ("least", "most"))
    _refuse_uncounted(entry, way, called)
    unit = (quantities[of].show or quantities[of].unit) if way == "quantity" and of in quantities else ""
    return DrawnKey(
        name, entry.text("means"), way, of, called, entry.texts("under") or (called if way == "quantity" else (name,)), entry.one_of("order", ORDERS, ""), entry.text("how many"),
        next(iter(_names(entry, "all as")), ""), words, _usual(entry, way, of, words), entry.flag("needed"), least, most,
        entry.flag("whole"), entry.text("other than"), entry.flag("as couples"), _only_with(entry), unit, entry.text("bare"), entry.flag("any sign"),
    )  # fmt: skip


def _refuse_unknown(entry: Entry, way: What, of: str, quantities: Mapping[str, Quantity]) -> None:
    """Note a list of words or a quantity that there is not."""
    if way in {"one of", "some of", "given"} and of not in WORD_LISTS:
        hint = nearest(of, WORD_LISTS) or f"Known: {', '.join(WORD_LISTS)}."
        entry.blame("unknown-list", way, expected="a list of words", found=of, hint=hint)
    if way in {"quantity", "count"} and (of not in quantities or quantities[of].word):
        hint = nearest(of, quantities) or "Add it to quantities.yaml."
        entry.blame("unknown-quantity", way, expected="a quantity that is a number", found=of, hint=hint)


def _refuse_uncounted(entry: Entry, way: What, called: tuple[str, ...]) -> None:
    """Note several things drawn of which nothing says how many, and names that are too many or too few."""
    if way == "some of" and len(called) == 1 and "how many" not in entry.keys:
        hint = "Give a number or the key that tells it; or write a name for each under as."
        entry.blame("missing-key", "", expected="the key how many", found="none", hint=hint)
        raise EntryError
    if way in {"one of", "given", "word", "count"} and len(called) != 1:
        entry.blame("names", "as", expected="one name", found=f"{len(called)}")
    if way == "quantity" and len(entry.texts("under")) not in {0, 1, len(called)}:
        entry.blame("names", "under", expected=f"one name, or {len(called)}", found=f"{len(entry.texts('under'))}")


def _names(entry: Entry, key: str) -> tuple[str, ...]:
    for each in entry.texts(key):
        if not _NAME.fullmatch(each):
            entry.blame("name", key, expected="a name of letters, digits and _", found=each)
    return entry.texts(key)


def _only_with(entry: Entry) -> tuple[str, str]:
    """A key and its word, as ``medium acid``."""
    key, _, word = entry.text("only with").rpartition(" ")
    return key, word


def _bound(entry: Entry, key: str) -> str:
    text = entry.text(key)
    try:
        Decimal(text or "0")
    except InvalidOperation:
        entry.blame("number", key, expected="a number", found=text)
        return ""
    return text


def _usual(entry: Entry, way: What, of: str, words: tuple[str, ...]) -> str:
    """What counts where a template does not write the key; one of its words."""
    usual = entry.text("usual")
    known = words or (tuple(WORD_LISTS[of].words()) if way != "count" and of in WORD_LISTS else ())
    if usual and known and usual not in known:
        entry.blame("unknown-word", "usual", expected="one of its words", found=usual, hint=nearest(usual, known))
    if way == "count" and usual and not usual.isdigit():
        entry.blame("number", "usual", expected="a whole number", found=usual)
    return usual
