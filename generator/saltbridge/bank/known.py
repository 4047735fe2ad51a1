"""What a template may refer to: metals, couples, outcomes and realism rules, each with a guess at the nearest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from saltbridge import tables
from saltbridge.bank.fields import known_word
from saltbridge.bank.yamlfile import Scalar, Table, read_yaml
from saltbridge.chemistry import realism
from saltbridge.faults import fault
from saltbridge.home import shipped

LEVELS = ("introductory", "core", "advanced", "first-year")


@dataclass(frozen=True, slots=True)
class LearningOutcome:
    """What a student can do: id (``T3.4``), sentence and level."""

    id: str
    can: str
    level: str


@cache
def outcomes() -> Mapping[str, LearningOutcome]:
    """The outcomes of ``data/outcomes.yaml`` by id. Raises ``Faulty`` on bad data."""
    table = read_yaml(shipped("data") / "outcomes.yaml", "outcomes.yaml")
    read = {}
    for entry in table.entries:
        can, level = (_word(entry.value, key) for key in ("can", "level"))
        if not can or level not in LEVELS:
            raise fault("outcome", expected=f"`level` (one of {', '.join(LEVELS)}) and `can`", found=f"others at {entry.key}")
        read[entry.key] = LearningOutcome(entry.key, can, level)
    return read


def _word(node: object, key: str) -> str:
    entry = node.get(key) if isinstance(node, Table) else None
    return entry.value.text if entry and isinstance(entry.value, Scalar) else ""


def metal(symbol: str) -> str:
    """The symbol of a metal of the table of metals."""
    return known_word(symbol, tables.metals(), "unknown-metal", "the symbol of a metal")


def couple(couple_id: str) -> str:
    """The id of a couple of the table of potentials."""
    return known_word(couple_id, tables.potentials(), "unknown-couple", "the id of a couple")


def outcome(outcome_id: str) -> str:
    """The id of a learning outcome."""
    return known_word(outcome_id, outcomes(), "unknown-outcome", "the id of a learning outcome")


def rule(code: str) -> str:
    """The code of a realism rule."""
    return known_word(code, realism.RULES, "unknown-rule", "the code of a realism rule")
