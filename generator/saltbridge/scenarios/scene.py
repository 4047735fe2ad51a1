"""What every scenario's drawing hands on, and how it picks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Protocol, TypeVar

from saltbridge.chemistry.cells import GalvanicCell
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.forms.fields import Drawn as Range
from saltbridge.graph.laws import Situation
from saltbridge.records import Settings
from saltbridge.sigfigs import decimals_of
from saltbridge.tables import Sheet, SheetRow
from saltbridge.units import Quantity, parse_quantity

T = TypeVar("T")


class Source(Protocol):
    """Where a drawing takes its values from, each under a name of its own; the draw room's seed is one."""

    def number(self, name: str) -> int:
        """A large whole number."""

    def pick(self, name: str, options: Sequence[T]) -> T:
        """One of the options. Raises ``ValueError`` where there is none."""

    def sample(self, name: str, options: Sequence[T], count: int) -> tuple[T, ...]:
        """Several options without repeats. Raises ``ValueError`` where there are too few."""

    def shuffle(self, name: str, options: Sequence[T]) -> tuple[T, ...]:
        """All options in a drawn order."""

    def decimal(self, name: str, low: Decimal, high: Decimal, step: Decimal) -> Decimal:
        """An exact value on a grid. Raises ``ValueError`` where no whole number of steps leads from low to high."""


class Means(Protocol):
    """What a drawing sees of its bank: the data sheet and the ways of print."""

    @property
    def sheet(self) -> Sheet:
        """The data sheet."""

    @property
    def settings(self) -> Settings:
        """Language, forms and signs."""


@dataclass(slots=True)
class Scene:
    """A drawn scenario: its situation, lists that a template may order, what the realism rules look at, and its galvanic cell."""

    situation: Situation
    facts: Facts
    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    cell: GalvanicCell | None = None


def pick_quantity(drawn: Range, source: Source, name: str) -> Quantity:
    """One of the values that a quantity may take, astray within its scatter where it has one."""
    return _astray(source.pick(name, drawn.values), drawn, source, name)


def sample_quantities(drawn: Range, source: Source, name: str, count: int) -> tuple[Quantity, ...]:
    """Several of the values that a quantity may take, without repeats, each astray within the scatter. Raises ``ValueError`` for too few."""
    values = source.sample(name, drawn.values, count)
    return tuple(_astray(each, drawn, source, f"{name} {place}") for place, each in enumerate(values, 1))


def _astray(value: Quantity, drawn: Range, source: Source, name: str) -> Quantity:
    """A value as an instrument would show it: off by whole steps of its last decimal, at most by the scatter."""
    if drawn.scatter is None:
        return value
    most = Decimal(parse_quantity(drawn.scatter).printed)
    stray = source.decimal(f"stray {name}", -most, most, Decimal(1).scaleb(-decimals_of(value.printed)))
    return value._replace(printed=str(Decimal(value.printed) + stray))


def sheet_row(means: Means, couple: str) -> SheetRow:
    """The row of a couple on the bank's sheet; raises ``Faulty`` (code ``couple-not-on-sheet``) where it has none."""
    return means.sheet.required(couple)
