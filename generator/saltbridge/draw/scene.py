"""What every scenario's drawing hands on, and how it picks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from saltbridge.bank.bank import Bank
from saltbridge.bank.fields import Drawn as Range
from saltbridge.chemistry.realism import Facts
from saltbridge.derivation.laws import Situation
from saltbridge.draw.seeds import Seed
from saltbridge.faults import fault
from saltbridge.tables import SheetRow
from saltbridge.units import Quantity


@dataclass(slots=True)
class Scene:
    """A drawn scenario: its situation, lists that a template may order, and what the realism rules look at."""

    situation: Situation
    facts: Facts
    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def pick_quantity(drawn: Range, seed: Seed, name: str) -> Quantity:
    """One of the values that a quantity may take."""
    return seed.pick(name, drawn.values)


def sheet_row(bank: Bank, couple: str) -> SheetRow:
    """The row of a couple on the bank's sheet; raises ``Faulty`` (code ``couple-not-on-sheet``) where it has none."""
    row = next((each for each in bank.sheet.rows if each.couple == couple), None)
    if row is None:
        raise fault("couple-not-on-sheet", expected=f"a couple of {bank.sheet.title}", found=couple)
    return row
