"""Entries of balances.yaml: how equations are got, step by step, each with its sentence and a question as its hint."""

from __future__ import annotations

from dataclasses import dataclass

from saltbridge.catalogue.entries import Entry, EntryError
from saltbridge.chemistry.equation_operations import COUNTING, OPERATIONS
from saltbridge.faults import nearest

_KEYS = ("op", "say", "say first", "say second", "say both", "hint")
_TIMES = ("say first", "say second", "say both")


@dataclass(frozen=True, slots=True)
class BalanceEntry:
    """A kind of step: its operation, its sentences (none where it is silent) and its hint.

    Where two equations are added, the sentences are for both taken once, and for the first, the second and both taken several times.
    """

    kind: str
    op: str
    says: tuple[str, ...] = ()
    hint: str = ""


def balance_entry(entry: Entry) -> BalanceEntry:
    """A kind of step; raises ``EntryError`` where its operation is missing or unknown, or its sentences are not whole."""
    entry.allow(_KEYS, ("op",))
    op, known = entry.text("op"), (*OPERATIONS, *COUNTING)
    if op not in known:
        hint = nearest(op, known) or f"Known: {', '.join(known)}."
        entry.blame("unknown-operation", "op", expected="an operation that makes an equation", found=op, hint=hint)
        raise EntryError
    told = [key for key in _TIMES if key in entry.keys]
    if told and len(told) < len(_TIMES):
        missing = ", ".join(key for key in _TIMES if key not in told)
        entry.blame("missing-key", "", expected="a sentence for each of the three cases, or for none", found=f"no {missing}")
        raise EntryError
    if bool(entry.text("say")) != bool(entry.text("hint")):
        entry.blame(
            "missing-key", "", expected="say and hint together", found="one of them", hint="A step that is told has a hint."
        )
        raise EntryError
    says = tuple(entry.text(key) for key in ("say", *told) if entry.text(key))
    return BalanceEntry(entry.path, op, says, entry.text("hint"))
