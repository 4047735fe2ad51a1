"""What a proof finds: a fault with its weight, and how often it was met."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from saltbridge.faults import Fault

Weight = Literal["fault", "warning", "note"]
WEIGHTS: tuple[Weight, ...] = ("fault", "warning", "note")


@dataclass(frozen=True, slots=True)
class Hit:
    """One thing found in one variant, at a key of its template.

    ``value`` keeps hits of one code and key apart where they mean different things, such as two realism rules.
    """

    code: str
    key: str
    expected: str
    found: str
    hint: str = ""
    weight: Weight = "fault"
    value: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """A fault, warning or note on a bank; ``times`` of ``draws`` variants have it (0: it was not found by drawing)."""

    weight: Weight
    fault: Fault
    template: str = ""
    times: int = 0
    draws: int = 0
    seed: str = ""


def worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Faults before warnings before notes, each by file and line."""
    return tuple(
        sorted(
            findings,
            key=lambda each: (WEIGHTS.index(each.weight), each.fault.file, each.fault.line, each.fault.code, each.fault.found),
        )
    )


@dataclass(slots=True)
class Counts:
    """Hits counted: the first of each kind with the seed that it was met at, and how often it was met."""

    first: dict[tuple[str, str, str], tuple[Hit, str]] = field(default_factory=dict)
    times: dict[tuple[str, str, str], int] = field(default_factory=dict)

    def add(self, hits: Iterable[Hit], seed: str) -> None:
        """Count the hits of one variant, each kind once."""
        for key, hit in {(hit.code, hit.key, hit.value): hit for hit in hits}.items():
            self.first.setdefault(key, (hit, seed))
            self.times[key] = self.times.get(key, 0) + 1

    def join(self, other: Counts) -> None:
        """Take over the counts of later draws."""
        for key, count in other.times.items():
            self.first.setdefault(key, other.first[key])
            self.times[key] = self.times.get(key, 0) + count
