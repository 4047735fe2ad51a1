"""Whether a question in which hands are at work defers to local rules, and whether what is set for home may be done there."""

from __future__ import annotations

import re
from collections.abc import Iterator

from saltbridge.chemistry.species import parse_species
from saltbridge.deliver.proof.findings import Hit
from saltbridge.deliver.proof.reader_checks import text_read
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.faults import Faulty
from saltbridge.tables import metals
from saltbridge.tables.benches import cautions
from saltbridge.tables.electrolytes import electrolytes

PLANT = "R-PLANT"  # named by a template about a works, where no student is at work
NOT_AT_HOME = ("Ag", "Pb", "Ni")
"""Metals that stay at school, they and their salts (common practice, no source)."""
BATHS = ("electrolysis", "salt bath", "coating", "electrolytic cells in series", "mixed ions")

_DEFERS = re.compile(
    r"\brules?\b.*\b(first|follow|apply)\b|\brisk assessment\b|\bRegeln\b|\bGefährdungsbeurteilung\b", re.IGNORECASE | re.DOTALL
)
_HOME = re.compile(
    r"(?<!never )(?<!not )\b(?:at home|your kitchen|your garage)\b|(?<!nie )(?<!nicht )\b(?:zu Hause|daheim|deiner Küche)\b",
    re.IGNORECASE,
)


def caution_told(seen: Seen) -> Iterator[Hit]:
    """A scenario with work at the bench whose text does not say that local rules come first."""
    line = cautions().get(seen.template.scenario.kind)
    if line is None or PLANT in seen.template.rules or _DEFERS.search(text_read(seen)):
        return
    expected = "a caution that defers to the school's rules, since hands are at work"
    yield Hit("no-caution", "text", expected, "none", "Put `{{ caution }}` into the text, in a paragraph of its own.")


def fit_for_home(seen: Seen) -> Iterator[Hit]:
    """A task for home that takes electrolysis, or silver, lead or nickel."""
    found = _HOME.search(text_read(seen))
    if not found:
        return
    why = "electrolysis" if seen.template.scenario.kind in BATHS else _barred(seen)
    if why:
        hint = "Let it be done at school."
        yield Hit(
            "not-at-home", "text", "a task for home without electrolysis, silver, lead or nickel", f"{why}, {found[0]}", hint
        )


def _barred(seen: Seen) -> str:
    """The first of the metals that stay at school which this draw takes, as metal or in a salt."""
    known = {electrolytes()[name].cation for name in (seen.facts.salt,) if name in electrolytes()}
    for symbol in NOT_AT_HOME:
        metal = metals()[symbol]
        if symbol in seen.facts.metals or metal.ion in known or _is_read(symbol, seen):
            return metal.name
    return ""


def _is_read(symbol: str, seen: Seen) -> bool:
    """Whether a species of the text holds the element."""
    return any(symbol in _atoms(text) for text in re.findall(r"`([^`{]+)`", seen.template.text.source))


def _atoms(text: str) -> frozenset[str]:
    try:
        return frozenset(symbol for symbol, _ in parse_species(text).atoms)
    except Faulty:
        return frozenset()
