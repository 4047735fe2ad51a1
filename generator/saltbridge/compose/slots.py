"""Slots: each piece of a question that differs between variants, asked for once a shape and filled once a variant."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from saltbridge.compose.context import Context
from saltbridge.document import Figure, FigureSlot, Slot, Spans

Filler = Callable[[Context], Spans]
FigureFiller = Callable[[Context], Figure]


@dataclass
class Slots:
    """Collects fillers; equal keys share a slot."""

    fillers: list[Filler] = field(default_factory=list)
    figures: list[FigureFiller] = field(default_factory=list)
    _by_key: dict[str, Slot] = field(default_factory=dict)

    def slot(self, key: str, filler: Filler) -> Slot:
        """The slot of a key, made where it is new."""
        if key not in self._by_key:
            self._by_key[key] = Slot(len(self.fillers))
            self.fillers.append(filler)
        return self._by_key[key]

    def figure(self, filler: FigureFiller) -> FigureSlot:
        """A new slot for a drawing."""
        self.figures.append(filler)
        return FigureSlot(len(self.figures) - 1)

    def fill(self, context: Context) -> tuple[Spans, ...]:
        """All slot values of a variant."""
        return tuple(filler(context) for filler in self.fillers)

    def fill_figures(self, context: Context) -> tuple[Figure, ...]:
        """All drawings of a variant."""
        return tuple(filler(context) for filler in self.figures)
