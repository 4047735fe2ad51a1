"""Values of examples: the turns of one name go through all that it can be, so that few draws meet every word."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar
from zlib import crc32

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Turn:
    """The source of the draw with this ``number``; a scenario takes its values from it as from a seed."""

    turn: int

    def number(self, name: str) -> int:
        """A large whole number."""
        return crc32(name.encode()) + self.turn

    def pick(self, name: str, options: Sequence[T]) -> T:
        """One of the options. Raises ``ValueError`` where there is none."""
        if not options:
            raise ValueError("no options")
        return self.shuffle(name, options)[0]

    def sample(self, name: str, options: Sequence[T], count: int) -> tuple[T, ...]:
        """Several options without repeats. Raises ``ValueError`` where there are too few."""
        if count > len(options):
            raise ValueError(f"{count} of {len(options)} options")
        return self.shuffle(name, options)[:count]

    def shuffle(self, name: str, options: Sequence[T]) -> tuple[T, ...]:
        """All options: in the first round begun one further at each turn, later in an order that hangs on turn and name alone."""
        if self.turn >= len(options):
            return tuple(sorted(options, key=lambda option: crc32(f"{self.turn} {name} {option}".encode())))
        place = (self.turn + crc32(name.encode())) % len(options)
        return (*options[place:], *options[:place])

    def decimal(self, name: str, low: Decimal, high: Decimal, step: Decimal) -> Decimal:
        """An exact value on a grid. Raises ``ValueError`` where no whole number of steps leads from low to high."""
        steps, rest = divmod(high - low, step) if step > 0 else (Decimal(-1), Decimal(0))
        if steps < 0 or rest:
            raise ValueError(f"{low} to {high} by {step}")
        return low + step * (self.number(name) % (int(steps) + 1))
