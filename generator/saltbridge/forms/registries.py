"""What a template may refer to: metals, couples, outcomes and realism rules, each with a guess at the nearest."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from saltbridge import tables
from saltbridge.chemistry import realism
from saltbridge.faults import FaultList
from saltbridge.forms.fields import known_word
from saltbridge.forms.strict_yaml import Table, read_yaml
from saltbridge.forms.validation_messages import wrong
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
    """Give the outcomes of ``data/outcomes.yaml`` by id. Raises ``Faulty`` on bad data."""
    return outcomes_in(read_yaml(shipped("data") / "outcomes.yaml", "outcomes.yaml"), "outcomes.yaml")


def outcomes_in(table: Table, file: str) -> Mapping[str, LearningOutcome]:
    """Give the outcomes of a table of ids, each with ``level`` and ``can``. Raises ``Faulty`` with every fault."""
    faults = FaultList()
    read = {}
    for entry in table.entries:
        match entry.value.plain():
            case {"level": str(level), "can": str(can), **others} if not others and level in LEVELS and can.strip():
                read[entry.key] = LearningOutcome(entry.key, can, level)
            case _:
                expected = f"`level` (one of {', '.join(LEVELS)}), `can` (a sentence) and nothing else"
                hint = "A sentence with a comma needs quotes here."
                faults.add("outcome", expected=expected, found="others", hint=hint, file=file, line=entry.line, key=entry.key)
    faults.stop_if_any()
    return read


def metal(symbol: str) -> str:
    """The symbol of a metal of the table of metals."""
    known = tables.metals()
    called = next((metal.symbol for metal in known.values() if metal.name == symbol.strip().lower()), "")
    if called:
        raise wrong("unknown-metal", "the symbol of a metal", f"`{symbol}`", f"Write `{called}`.")
    return known_word(symbol, known, "unknown-metal", "the symbol of a metal")


def couple(couple_id: str, own: Iterable[str] = ()) -> str:
    """The id of a couple of the table of potentials, or one of the bank's ``own``."""
    return known_word(couple_id, [*tables.potentials(), *own], "unknown-couple", "the id of a couple")


def outcome(outcome_id: str) -> str:
    """The id of a learning outcome."""
    return known_word(outcome_id, outcomes(), "unknown-outcome", "the id of a learning outcome")


@cache
def policies() -> tuple[str, ...]:
    """The names of the marking policies."""
    return tuple(entry.key for entry in read_yaml(shipped("data") / "policies.yaml", "policies.yaml").entries)


def rule(code: str) -> str:
    """The code of a realism rule."""
    return known_word(code, realism.RULES, "unknown-rule", "the code of a realism rule")
