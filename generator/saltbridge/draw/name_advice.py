"""What to write in place of a name that a scenario does not have: the nearest that its kind has, and the command that lists them all."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from saltbridge.catalogue.catalogue import Catalogue, catalogue
from saltbridge.faults import Fault, Faulty
from saltbridge.forms.validation_messages import nearest
from saltbridge.scenarios.kinds.offered import offered

MOST_NAMED = 4
NOT_IN_EVERY = (
    "It is a name of this kind, but this draw does not have it: let the scenario draw only what has it, or leave it out."
)


def listing_command(kind: str, known: Catalogue) -> str:
    """The sentence that names the command which lists the names of a kind, or the kinds where there is no scenario."""
    if not kind:
        return "There is no scenario here that has names; `saltbridge names` lists the kinds of scenario."
    of_bank = kind not in catalogue().scenarios or known.own or known.own_facts or known.own_rules
    bank = " --bank DIR" if of_bank else ""
    return f'`saltbridge names "{kind}"{bank}` lists them all.'


def advice(name: str, kind: str, here: Iterable[str], known: Catalogue, otherwise: str = "") -> str:
    """What to write in place of ``name``; ``here`` are the names of the draw at hand, ``otherwise`` is said where none is near."""
    of_kind = _of_kind(kind, known)
    first = NOT_IN_EVERY if name in of_kind else _near(name, {*of_kind, *here})
    return f"{first or otherwise} {listing_command(kind, known)}".strip()


def unknown_name(name: str, kind: str, here: Iterable[str], known: Catalogue) -> Fault:
    """The fault for a name that a draw does not have."""
    return Fault("unknown-name", "a name of this scenario", f"`{name}`", advice(name, kind, here, known))


def _of_kind(kind: str, known: Catalogue) -> frozenset[str]:
    """The names of a kind by its examples; none where these are wrong, which is told by itself."""
    try:
        return offered(kind, known).all if kind in known.scenarios else frozenset()
    except Faulty:
        return frozenset()


def _near(name: str, names: Collection[str]) -> str:
    """The nearest name; for an owner that lacks a part, the owners that have it."""
    owner, _, part = name.rpartition(".")
    if owner and any(each.startswith(f"{owner}.") or each == owner for each in names):
        having = sorted(each for each in names if each.rpartition(".")[2] == part and "." in each)
        if having:
            return f"There is {', '.join(f'`{each}`' for each in having[:MOST_NAMED])}{' and others' if having[MOST_NAMED:] else ''}."
    return nearest(name, sorted(names))
