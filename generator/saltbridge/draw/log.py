"""What was rejected and why: so that a template that rejects almost every draw can say which condition does it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from saltbridge.faults import Fault

LEAST_DRAWS = 50  # fewer say nothing about a share
LEAST_SHARE = 0.02


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a draw was rejected: what the teacher would call it, and its key and line in the template (0: not in it)."""

    what: str
    key: str = ""
    line: int = 0


@dataclass(slots=True)
class RejectionLog:
    """Counts the draws of one template, kept and rejected; a draw counts once for every reason against it."""

    file: str
    kept: int = 0
    rejected: int = 0
    reasons: Counter[Reason] = field(default_factory=Counter)

    @property
    def draws(self) -> int:
        """All draws so far."""
        return self.kept + self.rejected

    def keep(self) -> None:
        """Count a draw that was kept."""
        self.kept += 1

    def reject(self, *reasons: Reason) -> None:
        """Count a rejected draw with every reason against it."""
        self.rejected += 1
        self.reasons.update(set(reasons))

    def add(self, other: RejectionLog) -> None:
        """Take over the counts of another log of the same template, such as that of another process."""
        self.kept += other.kept
        self.rejected += other.rejected
        self.reasons.update(other.reasons)

    def lines(self) -> tuple[tuple[Reason, int], ...]:
        """Give each reason with its count, the most frequent first."""
        return tuple(sorted(self.reasons.items(), key=lambda each: (-each[1], each[0].line, each[0].what)))

    def fault(self, least_share: float = LEAST_SHARE) -> Fault | None:
        """Tell that too few draws survive, naming the reason that rejects most; None while there are enough."""
        if self.draws < LEAST_DRAWS or self.kept >= least_share * self.draws:
            return None
        most, *others = self.lines() or ((Reason("no reason was told"), self.rejected),)
        counts = [f"{reason.what} {count}" for reason, count in others[:3]]
        hint = "Loosen it, or draw from other values." + (f" Also: {'; '.join(counts)}." if counts else "")
        return Fault(
            "rejects-almost-every-draw",
            f"{least_share:.0%} of the draws to be kept" if least_share < 1 else "a draw that keeps every condition",
            f"only {self.kept} of {self.draws}; {most[1]} were dropped because of {most[0].what}",
            hint,
            self.file,
            most[0].line,
            most[0].key,
        )
