"""What drawing one template has shown, in a form that travels between processes and adds up."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import TypeVar

from saltbridge.deliver.proof.findings import Counts
from saltbridge.deliver.proof.language import Reading
from saltbridge.document import Figure
from saltbridge.draw.log import RejectionLog
from saltbridge.faults import Fault

K = TypeVar("K")
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Sample:
    """A variant written out for the report, with the seed that draws it again and the drawings that it uses."""

    seed: str
    html: str
    figures: tuple[Figure, ...]


@dataclass(slots=True)
class Tally:
    """Counts of the draws of one template; ``seconds`` of one core.

    ``places`` are those at which the right option of each choice has stood, ``answers`` what each part and cell was answered by,
    two at most, by its key. ``stopped`` are the faults that ended the drawing, at the draw of the seed ``stopped_at``.
    """

    template: str
    log: RejectionLog
    draws: int = 0
    seconds: float = 0.0
    counts: Counts = field(default_factory=Counts)
    contents: Counter[bytes] = field(default_factory=Counter)
    keys: Counter[bytes] = field(default_factory=Counter)
    possible: dict[str, None] = field(default_factory=dict)
    caught: Counter[str] = field(default_factory=Counter)
    marks: Counter[int] = field(default_factory=Counter)
    minutes: int = 0
    places: dict[int, set[int]] = field(default_factory=dict)
    answers: dict[str, set[str]] = field(default_factory=dict)
    readings: tuple[Reading, ...] = ()
    samples: tuple[Sample, ...] = ()
    stopped: tuple[Fault, ...] = ()
    stopped_at: str = ""

    def join(self, later: Tally) -> None:
        """Take over the counts of later draws of the same template."""
        self.draws += later.draws
        self.seconds += later.seconds
        self.log.add(later.log)
        self.counts.join(later.counts)
        self.contents.update(later.contents)
        self.keys.update(later.keys)
        self.possible |= later.possible
        self.caught.update(later.caught)
        self.marks.update(later.marks)
        self.minutes = self.minutes or later.minutes
        _merge(self.places, later.places)
        _merge(self.answers, later.answers)
        self.readings = self.readings or later.readings
        self.samples = self.samples or later.samples
        self.stopped, self.stopped_at = (self.stopped, self.stopped_at) if self.stopped else (later.stopped, later.stopped_at)


def _merge(mine: dict[K, set[T]], theirs: dict[K, set[T]]) -> None:
    for at, found in theirs.items():
        mine.setdefault(at, set()).update(found)
