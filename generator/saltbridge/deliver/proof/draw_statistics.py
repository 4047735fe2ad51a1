"""What drawing one template has shown, in a form that travels between processes and adds up."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from saltbridge.deliver.proof.findings import Counts
from saltbridge.deliver.proof.language import Reading
from saltbridge.document import Figure
from saltbridge.draw.log import RejectionLog
from saltbridge.faults import Fault


@dataclass(frozen=True, slots=True)
class Sample:
    """A variant written out for the report, with the seed that draws it again and the drawings that it uses."""

    seed: str
    html: str
    figures: tuple[Figure, ...]


@dataclass(slots=True)
class Tally:
    """Counts of the draws of one template; ``seconds`` of one core. ``stopped`` are the faults that ended the drawing."""

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
    readings: tuple[Reading, ...] = ()
    samples: tuple[Sample, ...] = ()
    stopped: tuple[Fault, ...] = ()

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
        self.readings = self.readings or later.readings
        self.samples = self.samples or later.samples
        self.stopped = self.stopped or later.stopped
