"""Values drawn from hashes: each hangs on (bank, template, seed, name) and on nothing else.

The whole number of a name is SHA-256 of the JSON list ``["bank","template","seed","name"]`` (no spaces, non-ASCII escaped),
read as a big-endian number. So adding a variable to a template reshuffles no other, and no library's shuffle can change a
draw. One of several options is the one whose own number, that of ``name=option``, is lowest: an option added to a list
changes only the draws that it wins. A value on a grid is the number modulo the count of grid points.

Golden values are pinned in ``tests/draw/golden_seeds.json``: they may change with a major version only.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property
from json.encoder import encode_basestring_ascii
from typing import TypeVar

T = TypeVar("T")


@dataclass(frozen=True)
class Seed:
    """Where draws come from: a bank, a template and the seed of a variant or of a student's attempt."""

    bank: str
    template: str
    seed: str

    @cached_property
    def _lead(self) -> hashlib._Hash:
        """The hash of all before the name."""
        text = ",".join(map(encode_basestring_ascii, (self.bank, self.template, self.seed)))
        return hashlib.sha256(f"[{text},".encode("ascii"))

    def number(self, name: str) -> int:
        """Give the whole number of a name, from 0 to 2^256 - 1."""
        told = self._lead.copy()
        told.update(f"{encode_basestring_ascii(name)}]".encode("ascii"))
        return int.from_bytes(told.digest(), "big")

    def redraw(self, times: int) -> Seed:
        """Give the seed of the draw after ``times`` rejected ones; no times gives the same seed."""
        return replace(self, seed=f"{self.seed}#{times}") if times else self

    def pick(self, name: str, options: Sequence[T]) -> T:
        """Pick one of the options, told apart by their text. Raises ``ValueError`` where there is none."""
        return min(options, key=lambda option: self.number(f"{name}={option}"))

    def sample(self, name: str, options: Sequence[T], count: int) -> tuple[T, ...]:
        """Pick several options without repeats, in drawn order. Raises ``ValueError`` where there are too few."""
        if count > len(options):
            raise ValueError(f"{count} of {len(options)} options")
        return self.shuffle(name, options)[:count]

    def shuffle(self, name: str, options: Sequence[T]) -> tuple[T, ...]:
        """Put all options into a drawn order; the first is what ``pick`` gives."""
        return tuple(sorted(options, key=lambda option: self.number(f"{name}={option}")))

    def decimal(self, name: str, low: Decimal, high: Decimal, step: Decimal) -> Decimal:
        """Draw an exact value from low to high, a whole number of steps above low, with the decimals of low and step.

        Raises ``ValueError`` where no whole number of steps leads from low to high.
        """
        steps, rest = divmod(high - low, step) if step > 0 else (Decimal(-1), Decimal(0))
        if steps < 0 or rest:
            raise ValueError(f"{low} to {high} by {step}")
        return low + step * (self.number(name) % (int(steps) + 1))


def number(bank_id: str, template_id: str, seed: str, name: str) -> int:
    """Give the whole number of (bank, template, seed, name), from 0 to 2^256 - 1."""
    return Seed(bank_id, template_id, seed).number(name)


def pick(bank_id: str, template_id: str, seed: str, name: str, options: Sequence[T]) -> T:
    """Pick one of the options. Raises ``ValueError`` where there is none."""
    return Seed(bank_id, template_id, seed).pick(name, options)


def practice_seed(variant: int) -> str:
    """Give the seed of practice variant 1, 2, 3…."""
    return f"practice {variant}"
