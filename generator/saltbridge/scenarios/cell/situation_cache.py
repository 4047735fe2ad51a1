"""Situations of cells met before: cells that differ only in how much is dissolved have the same laws, labels and words.

A draw then copies the situation and gives the new amounts, in place of building it anew.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from saltbridge.chemistry.cells import SIDES, GalvanicCell, HalfCell
from saltbridge.graph.laws import Situation

_KEPT = 1024


class _Kept(NamedTuple):
    """A situation as built, the nodes of its amounts side by side, and what its key knows by id only."""

    situation: Situation
    nodes: tuple[str, ...]
    held: tuple[object, ...]


_made: dict[tuple[object, ...], _Kept] = {}


def kept_situation(
    cell: GalvanicCell, others: Sequence[object], told: tuple[object, ...], build: Callable[[], tuple[Situation, Sequence[str]]]
) -> tuple[Situation, tuple[str, ...]]:
    """A situation of one's own for a cell, and the nodes of its amounts (none where it was built just now, with its amounts).

    ``others`` are looked up by what they are themselves, ``told`` by what they say; ``build`` gives a new situation and the nodes.
    """
    key = (*map(id, others), told, *(_shape(cell.side(side)) for side in SIDES))
    known = _made.get(key)
    if known is not None:
        return known.situation.copy(), known.nodes
    situation, nodes = build()
    if len(_made) >= _KEPT:
        _made.clear()
    _made[key] = _Kept(situation.copy(), tuple(nodes), (*others, cell))
    return situation, ()


def _shape(half: HalfCell) -> tuple[object, ...]:
    """All that a situation takes from a half-cell but how much there is of each species."""
    amounts = tuple((species.bare, species.phase, amount.value is None) for species, amount in half.amounts)
    return id(half.half), half.couple, half.electrode.bare, half.electrode.phase, amounts
