"""The kinds of scenario and their names, as shipped and as a bank has them, for a terminal and as plain data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from saltbridge.bank.bank import Bank, require_bank, survey_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.scenarios.kinds.example_scenes import Written
from saltbridge.scenarios.kinds.names_text import kinds_text, names_text
from saltbridge.scenarios.kinds.offered import keys_of, kind_called, kinds, offered, offered_in


@dataclass(frozen=True, slots=True)
class Listing:
    """The same twice: lines for a terminal, and data."""

    text: str
    data: Any


def kinds_listing(folder: Path | None = None) -> Listing:
    """Every kind of scenario with what it is; those of a bank's own among them. Raises ``Faulty`` where its files can't be read."""
    if folder is not None:
        require_bank(folder)
    known = catalogue(folder) if folder else catalogue()
    return Listing(kinds_text(known), [{"kind": kind, "is": known.scenarios[kind].about} for kind in kinds(known)])


def names_listing(kind: str, folder: Path | None = None) -> Listing:
    """What a kind offers; in a bank also what its own relations and the templates of it that can be read add.

    Raises ``Faulty`` for a kind that there is not, a bank that there is not, and one of its own kinds without an example.
    """
    if folder is not None:
        require_bank(folder)
    known = catalogue(folder) if folder else catalogue()
    kind_called(kind, known)
    examples: Sequence[Any] = known.scenarios[kind].examples
    if folder is None:
        names = offered(kind, known)
    else:
        bank, _ = survey_bank(folder)
        names = offered_in(kind, known, bank, _written(bank, kind))
    keys = keys_of(kind, known)
    data = {
        "kind": kind, "is": known.scenarios[kind].about, "keys": [asdict(each) for each in keys], "examples": list(examples),
        **{group: asdict(names)[group] for group in ("printed", "compared", "found", "chosen", "ordered", "balanced", "figures")},
    }  # fmt: skip
    return Listing(names_text(names, keys, examples, known), data)


def _written(bank: Bank, kind: str) -> list[Written]:
    """What the bank's templates write under this kind."""
    return [
        Written(template.scenario, template.further_quantities) for template in bank.templates if template.scenario.kind == kind
    ]
