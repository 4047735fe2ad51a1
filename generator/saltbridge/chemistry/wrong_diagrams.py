"""The usual wrong ways of writing a cell diagram, to choose from; only what is wrong on this cell exists."""

from __future__ import annotations

from typing import TYPE_CHECKING

from saltbridge.chemistry.cells import SIDES, GalvanicCell, HalfCell, Side, swap
from saltbridge.chemistry.diagrams import Way, in_reading_order
from saltbridge.chemistry.written_diagrams import coefficients

if TYPE_CHECKING:
    from collections.abc import Mapping

    from saltbridge.chemistry.species import Species

REVERSED, NO_ELECTRODE, BARS, NUMBERS = "reversed", "without_electrode", "with_bars", "with_numbers"


def wrong_diagrams(cell: GalvanicCell) -> Mapping[str, tuple[GalvanicCell, Way]]:
    """The cell and the way to write it, by name: turned round, without its inert electrode, bars in one phase, coefficients.

    ``cell`` is written the right way, anode on the left. A way that would not differ on this cell is left out.
    """
    found = {REVERSED: (swap(cell), Way())}
    ways = {NO_ELECTRODE: Way(_without_inert), BARS: Way(_one_by_one), NUMBERS: Way(numbers=coefficients(cell))}
    right = [in_reading_order(cell.side(side), side) for side in SIDES]
    for name, way in ways.items():
        if way.numbers or [way.phases(cell.side(side), side) for side in SIDES] != right:
            found[name] = (cell, way)
    return found


def _without_inert(half: HalfCell, side: Side) -> tuple[tuple[Species, ...], ...]:
    own = {species.bare for species in half.half.species}
    return tuple(group for group in in_reading_order(half, side) if any(species.bare in own for species in group))


def _one_by_one(half: HalfCell, side: Side) -> tuple[tuple[Species, ...], ...]:
    return tuple((species,) for group in in_reading_order(half, side) for species in group)
