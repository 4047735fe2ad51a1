"""Runs of characters at three levels, and what is set in them: a species, a number with its unit, an equation, a diagram."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple


class Piece(NamedTuple):
    """A run of characters on the line, below it or above it."""

    kind: Literal["base", "sub", "sup"]
    text: str


@dataclass(frozen=True, slots=True)
class Inscription:
    """A species, number, unit, quantity, equation or diagram, ready to set, with the words to say it."""

    role: Literal["species", "number", "unit", "quantity", "equation", "diagram", "symbol"]
    pieces: tuple[Piece, ...]
    spoken: str

    @property
    def plain(self) -> str:
        """The pieces on one line, without levels (for search and file names)."""
        return "".join(piece.text for piece in self.pieces)
