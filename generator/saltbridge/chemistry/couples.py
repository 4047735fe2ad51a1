"""Which row of a data sheet a half-cell means: found from the species named in its diagram."""

from __future__ import annotations

from typing import TYPE_CHECKING

from saltbridge.chemistry.half_reactions import HYDROGEN_ION, HYDROXIDE, MEDIUM, HalfReaction, parse_half_reaction
from saltbridge.faults import Faulty, fault
from saltbridge.tables.kinds import inert_conductors

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saltbridge.chemistry.species import Species
    from saltbridge.tables import SheetRow


def find_row(conductor: Species, others: list[Species], rows: Sequence[SheetRow]) -> tuple[SheetRow, HalfReaction]:
    """Find the row that has every species named and leaves the fewest out.

    H⁺, OH⁻ and water need no naming. Raises ``Faulty``: ``couple-not-found`` names the nearest rows, ``couple-unclear``
    those that fit equally well.
    """
    fits: list[tuple[int, SheetRow, HalfReaction]] = []
    for row in rows:
        half = parse_half_reaction(row.half_reaction)
        if (unnamed := _unnamed(conductor, others, half)) is not None:
            fits.append((unnamed, row, half))
    if not fits:
        raise _no_row(conductor, others, rows)
    fewest = min(unnamed for unnamed, _, _ in fits)
    best = [(row, half) for unnamed, row, half in fits if unnamed == fewest]
    if len({half for _, half in best}) > 1:
        raise fault(
            "couple-unclear",
            expected="species that fit one half-reaction of the data sheet",
            found=" or ".join(row.half_reaction for row, _ in best),
            hint=f"Name {HYDROGEN_ION} or {HYDROXIDE} as well.",
        )
    return best[0]


def _unnamed(conductor: Species, others: list[Species], half: HalfReaction) -> int | None:
    """Count the species of the half-reaction that go without a name; None where it does not fit."""
    by_name = {species.bare: species for species in half.species}
    if conductor.bare not in by_name and conductor.bare not in inert_conductors():
        return None
    named = {conductor.bare} | {species.bare for species in others}
    if any(species.bare not in by_name or species.phase not in {"", by_name[species.bare].phase} for species in others):
        return None
    if any(name not in named and name not in MEDIUM for name in by_name):
        return None
    return len(set(by_name) - named)


def _no_row(conductor: Species, others: list[Species], rows: Sequence[SheetRow]) -> Faulty:
    """Name the rows that share most with what was written."""
    named = {species.bare for species in others} | ({conductor.bare} - inert_conductors())
    ranked: list[tuple[int, int, str]] = []
    for row in rows:
        half = {species.bare for species in parse_half_reaction(row.half_reaction).species}
        if shared := len((half & named) - MEDIUM):
            ranked.append((len((half ^ named) - MEDIUM) - shared, len(half), row.half_reaction))
    nearest = [text for _, _, text in sorted(ranked, key=lambda entry: entry[:2])[:3]]
    return fault(
        "couple-not-found",
        expected="the species of one half-reaction of the data sheet",
        found=", ".join(species.text for species in (conductor, *others)),
        hint=f"Nearest: {'; '.join(nearest)}." if nearest else "No row of the data sheet has any of them.",
    )
