"""What is at hand where a figure of a variant is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import partial

from saltbridge.bank.figure_key import FigureUse
from saltbridge.chemistry.inscriptions import inscribe_species, merged
from saltbridge.chemistry.species import parse_species
from saltbridge.compose.context import Context
from saltbridge.compose.plots.axes import symbol_label
from saltbridge.document import Inscription, Piece
from saltbridge.draw.drawn_figures import shows
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.figures.figure_records import SYMBOL, FigureEntry, FigureText, Has, LetterPlace
from saltbridge.scenarios.half_names import couple_label
from saltbridge.words import Words


@dataclass(frozen=True)
class FigureContext:
    """The template's figure, what data says of it, and the variant."""

    use: FigureUse
    entry: FigureEntry
    context: Context

    @property
    def situation(self) -> Situation:
        """What the variant knows."""
        return self.context.situation

    @property
    def words(self) -> Words:
        """The bank's language."""
        return self.context.printer.words

    @property
    def has(self) -> Has:
        """Whether the figure may show a name."""
        return partial(shows, self.situation)

    def label(self, text: FigureText) -> Inscription | str:
        """The text set with what its names show: an inscription where one of them has levels of its own."""
        parts = list(self._set(text))
        if all(isinstance(part, str) for part in parts):
            return "".join(map(str, parts))
        if len(parts) == 1:
            return parts[0]
        pieces = [piece for part in parts for piece in (part.pieces if isinstance(part, Inscription) else (Piece("base", part),))]
        return Inscription("species", merged(pieces), _spoken(parts))

    def spoken(self, text: FigureText) -> str:
        """The text in the bank's language, its names as they are spoken."""
        return _spoken(self._set(text))

    @property
    def said(self) -> str:
        """The description of a plot, the first sentence of its entry."""
        return self.words(self.entry.says[0].text)

    def _set(self, text: FigureText) -> Iterator[Inscription | str]:
        """A text in the bank's language, each of its names and species set."""
        for kind, part in text.parts(self.words(text.text), self.has):
            if kind == "words":
                yield part
            elif kind == "species":
                yield self._chemistry(part)
            else:
                yield self.shown(part)

    def _chemistry(self, text: str) -> Inscription:
        """A species, or the two of a couple with a bar between them."""
        oxidised, bar, reduced = text.partition("/")
        say = self.situation.say
        if not bar:
            return inscribe_species(parse_species(text), say=say)
        return couple_label(parse_species(oxidised), parse_species(reduced), say)

    def shown(self, name: str) -> Inscription | str:
        """What a name shows: what is told of it, or the symbol of a quantity."""
        if name.startswith(SYMBOL):
            return symbol_label(name.removeprefix(SYMBOL), self.context)
        value = self.context.shown(name)
        return value if isinstance(value, Inscription) else value.text

    def letter(self, place: str) -> Inscription:
        """The letter at a place."""
        return self.situation.labels[f"{LetterPlace.owner(place)}.letter"]


def _spoken(parts: Iterable[Inscription | str]) -> str:
    return "".join(part if isinstance(part, str) else part.spoken for part in parts)
