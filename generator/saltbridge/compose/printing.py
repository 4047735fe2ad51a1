"""Printing values the bank's way: decimal mark, signs, units, symbols."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from functools import lru_cache

from saltbridge.catalogue.catalogue import Catalogue, Quantity
from saltbridge.document import Inscription, Piece, Symbol
from saltbridge.graph.laws import bare_name, quantity_of
from saltbridge.records import Settings
from saltbridge.sigfigs import NumberWords, number_words, print_number
from saltbridge.units import in_words, quantity_inscription, unit_inscription
from saltbridge.words import Words, of_bank

_KEPT = 4096


@dataclass(frozen=True)
class Printer:
    """Sets numbers, quantities and symbols as the bank's settings say."""

    settings: Settings
    catalogue: Catalogue
    _quantities: dict[tuple[str, str, bool], Inscription] = field(default_factory=dict, compare=False, repr=False)

    @property
    def words(self) -> Words:
        """The bank's language."""
        return of_bank(self.settings)

    def number(self, value: str | Decimal, *, signed: bool = False) -> Inscription:
        """A number with its printed digits."""
        return print_number(value, decimal_mark=self.settings.decimal_mark, signed=signed, say=_number_words(self.words))

    def unit(self, unit: str) -> Inscription | None:
        """A unit; ``None`` for a pure number."""
        shown = self.shown_unit(unit)
        return _unit(shown, self.settings.unit_style, self.words) if shown else None

    def shown_unit(self, unit: str) -> str:
        """The unit in the bank's writing: mol/dm3 for mol/L where the bank prints so."""
        return self.settings.concentration_unit if unit in {"mol/L", "mol/dm3"} else unit

    def quantity(self, value: str | Decimal, unit: str, *, signed: bool = False) -> Inscription:
        """A number with its unit; kept, since the variants of a bank print few different ones."""
        key = (str(value), unit, signed)
        found = self._quantities.get(key)
        if found is None:
            if len(self._quantities) >= _KEPT:
                self._quantities.clear()
            set_unit = in_words(unit, self.words, one=True) if (str(value), unit) == ("1", "y") else self.unit(unit)
            found = self._quantities[key] = quantity_inscription(self.number(value, signed=signed), set_unit)
        return found

    def bracketed(self, inner: Inscription) -> Inscription:
        """The same in brackets, for a signed value inside a sum or product."""
        return Inscription(inner.role, (Piece("base", "("), *inner.pieces, Piece("base", ")")), inner.spoken)

    def entry(self, node: str) -> Quantity | None:
        """The quantity of a node."""
        return quantity_of(node, self.catalogue.quantities)

    def signed(self, node: str) -> bool:
        """Whether a node's value is always printed with its sign."""
        quantity = self.entry(node)
        return bool(quantity and quantity.signed)

    def symbol(self, node: str) -> Symbol:
        """The printed symbol of a node, without what stands in brackets after it."""
        quantity = self.entry(node)
        if quantity is None:
            return Symbol(bare_name(node), bare_name(node), italic=False)
        return _symbol(quantity, self.settings.standard_sign, self.settings.electrons, self.words)


SAID = {"ΔG": "delta G", "ν": "nu", "η": "eta", "lg K": "log K", "n(e⁻)": "n of electrons", "dE/dT": "d E by d T"}


@lru_cache(maxsize=1024)
def _symbol(quantity: Quantity, standard_sign: str, electrons: str, words: Words) -> Symbol:
    base = electrons if quantity.flags.electrons else quantity.base
    mark = standard_sign if quantity.standard else ""
    sub = words.meant("subscript", quantity.sub) if quantity.sub else ""
    said = " ".join(part for part in (words(SAID.get(base, base)), words("standard") if mark else "", sub) if part)
    return Symbol(base, said, mark, sub, italic=not quantity.upright)


@lru_cache(maxsize=512)
def _unit(unit: str, style: str, words: Words) -> Inscription:
    return unit_inscription(unit, "power" if style == "power" else "slash", words)


@lru_cache(maxsize=8)
def _number_words(words: Words) -> NumberWords:
    return number_words(words)
