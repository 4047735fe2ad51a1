"""Entries of balances.yaml: how equations are got, step by step, each with its sentence and a question as its hint."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from saltbridge.catalogue.entries import Entry, EntryError
from saltbridge.chemistry.equation_operations import COUNTING, OPERATIONS
from saltbridge.chemistry.notations import NOTATIONS
from saltbridge.chemistry.reshaping import RESHAPES
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
    op, known = entry.text("op"), (*OPERATIONS, *NOTATIONS, *COUNTING)
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


def reshaping(entry: Entry, balances: Mapping[str, BalanceEntry]) -> tuple[tuple[str, ...], str]:
    """The kinds of step at which an error happens, and how it writes wrong what they make; raises ``EntryError`` for an unknown one."""
    kinds = tuple(place.removeprefix("balance:").strip() for place in entry.texts("at") if place.startswith("balance:"))
    reshape = entry.text("reshape")
    if bool(kinds) != bool(reshape):
        found = "no reshape" if kinds else "reshape without such a place"
        entry.blame("bad-shape", "at", expected="balance: KIND and reshape together", found=found)
        raise EntryError
    for kind in kinds:
        if kind not in balances:
            hint = nearest(kind, balances) or f"Known: {', '.join(balances)}."
            entry.blame("unknown-balance", "at", expected="a kind of step of balances.yaml", found=kind, hint=hint)
            raise EntryError
        known = reshapes_at(balances[kind])
        if reshape not in known:
            hint = nearest(reshape, known) or f"Known: {', '.join(known)}."
            entry.blame("unknown-reshape", "reshape", expected="a way to write an equation wrong", found=reshape, hint=hint)
            raise EntryError
    return kinds, reshape


def reshapes_at(step: BalanceEntry) -> tuple[str, ...]:
    """The ways in which what a step makes can be written wrong."""
    return tuple(NOTATIONS[step.op].reshapes if step.op in NOTATIONS else RESHAPES)
