"""Facts: what is true of a whole kind of situation and follows from no number, with the usual wrong answers and their beliefs.

They stand in ``facts.yaml``; a bank may add its own. Every key is known, every fault is told at its line.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from saltbridge.catalogue.balance_entries import BalanceEntry, reshaping
from saltbridge.catalogue.catalogue_records import Fact, Quantity, Slip, Wrong
from saltbridge.catalogue.entries import Entry, EntryError

NEEDED = ("statement", "right", "wrong", "hint", "source")
KEYS = ("gives", "family", "name", *NEEDED, "why")
_WRONG = ("says", "shows", "hint", "source", "at", "reshape")
_ID = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*")
LONGEST_ANSWER = 80  # characters: an option has to fit a phone


def fact(entry: Entry, balances: Mapping[str, BalanceEntry]) -> Fact:
    """One fact; raises ``EntryError`` where a needed key is missing, after noting every fault."""
    entry.allow(KEYS, NEEDED)
    if not _ID.fullmatch(entry.path):
        entry.blame("identifier", "", expected="small letters, digits, hyphens and _, such as `in_wire`", found=entry.path)
    node = entry.text("gives", entry.path)
    if not node.isidentifier() or not node.isascii():
        entry.blame("name", "gives", expected="a name of letters, digits and _", found=node, hint="Add the key gives.")
    hint = _sentence(entry, "hint")
    if not hint.rstrip('"').endswith("?"):
        entry.blame("sentence", "hint", expected="a question", found=repr(hint[-20:]))
    statement = _sentence(entry, "statement")
    if hint == statement:
        entry.blame("same-text", "hint", expected="another sentence than the statement", found="the same")
    right = _answer(entry, "right")
    wrong = tuple(_wrong(each, balances) for each in entry.each("wrong"))
    answers = [right, *(each.says for each in wrong)]
    for at, each in enumerate(answers[1:], 1):
        if each in answers[:at]:
            entry.blame("same-text", "wrong", expected="answers that differ", found=f"{each!r} twice")
    if not wrong:
        entry.blame("empty", "wrong", expected="at least one wrong answer", found="none")
    if not entry.text("source"):
        expected = "where it may be looked up, or `common practice, no source`"
        entry.blame("empty", "source", expected=expected, found="nothing")
    why = _sentence(entry, "why") if "why" in entry.keys else ""
    return Fact(
        entry.path, node, statement, right, wrong, why, hint, entry.text("source"), entry.text("family"), entry.text("name")
    )


def _wrong(entry: Entry, balances: Mapping[str, BalanceEntry]) -> Wrong:
    entry.allow(_WRONG, ("says",))
    if "shows" in entry.keys:
        entry.allow(_WRONG, ("hint", "source"))
        if not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", entry.text("shows")):
            expected = "small letters, digits and hyphens, such as `anode-always-plus`"
            entry.blame("identifier", "shows", expected=expected, found=entry.text("shows"))
        written = reshaping(entry, balances)
        return Wrong(_answer(entry, "says"), entry.text("shows"), _sentence(entry, "hint"), entry.text("source"), *written)
    for key in ("hint", "source", "at", "reshape"):
        if key in entry.keys:
            entry.blame("bad-shape", key, expected="`shows` beside it, the belief that it is about", found="no belief")
    return Wrong(_answer(entry, "says"))


def _answer(entry: Entry, key: str) -> str:
    text = entry.text(key)
    if not 0 < len(text) <= LONGEST_ANSWER or "{" in text:
        expected = f"plain words of at most {LONGEST_ANSWER} characters"
        entry.blame(
            "bad-value", key, expected=expected, found=f"{len(text)} characters" if "{" not in text else "a curly bracket"
        )
    return text


def _sentence(entry: Entry, key: str) -> str:
    """A sentence that ends as one, without holes."""
    text = entry.text(key)
    if text[-1:] not in {".", "?"}:
        entry.blame("sentence", key, expected="a sentence with its full stop or question mark", found=repr(text[-20:]))
    if "{" in text or "}" in text:
        entry.blame("sentence", key, expected="plain words, without holes", found="a curly bracket")
        raise EntryError
    return text


def one_place(entry: Entry, facts: Mapping[str, Fact], quantities: dict[str, Quantity], slips: dict[str, Slip]) -> None:
    """Put a fact's beliefs beside the slips and its name beside the quantities; what stands there already is a fault."""
    found = facts[entry.path]
    for slip in found.slips():
        known = slips.get(slip.id)
        if known is not None and known.fact != found.id:
            entry.blame("repeated", "wrong", expected="a belief told in one place", found=f"{slip.id} twice")
        slips[slip.id] = slip
    if found.name:
        known_quantity = quantities.get(found.node)
        if known_quantity is not None and not known_quantity.word:
            entry.blame("repeated", "name", expected="a name that no quantity has", found=found.node)
        quantities[found.node] = found.quantity()
    elif found.family and found.node not in quantities:
        hint = "Say in a few words what is asked, such as `what carries the charge in the wire`."
        entry.blame("missing-key", "", expected="the key name", found="none", hint=hint)
