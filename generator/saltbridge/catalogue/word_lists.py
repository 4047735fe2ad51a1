"""Lists of words that a scenario draws from: metals, couples, batteries and the other tables, each with its code of fault."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from saltbridge import tables
from saltbridge.chemistry.oxidation import oxidation_number
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty
from saltbridge.tables.batteries import batteries, fuels
from saltbridge.tables.benches import reference_electrodes
from saltbridge.tables.choices_of_couples import bath_products, halogens
from saltbridge.tables.corrosion import rust_tubes, seawater
from saltbridge.tables.reactions import reactions

MOST_ELECTRONS = 12


def _marked(word: str) -> bool:
    """An element with a number of its own in a species, as ``Cr in Cr2O7^2-``."""
    element, among, species = word.partition(" in ")
    try:
        oxidation_number(parse_species(species.strip()), element.strip())
    except Faulty:
        return False
    return bool(among)


def _without_film() -> tuple[str, ...]:
    return tuple(symbol for symbol, metal in tables.metals().items() if metal.film != "yes")


def _with_electrons(word: str) -> bool:
    """A formula of known elements and the electrons of one formula unit, as ``PbO2 2``."""
    formula, _, electrons = word.partition(" ")
    if not electrons.strip().isdigit() or not 1 <= int(electrons) <= MOST_ELECTRONS:
        return False
    try:
        return all(symbol in tables.elements() for symbol, _ in parse_species(formula).atoms)
    except Faulty:
        return False


def _lasting() -> tuple[str, ...]:
    return tuple(symbol for symbol, metal in tables.metals().items() if not metal.water_reactive)


def _products() -> tuple[str, ...]:
    return (*(each.product for each in bath_products().values() if not each.lye), *tables.metals())


@dataclass(frozen=True, slots=True)
class WordList:
    """The words, the code of fault for another one, and what was expected."""

    words: Callable[[], Iterable[str]]
    code: str
    expected: str
    fits: Callable[[str], bool] | None = None
    """What tells the words of a list that is open; the words above are examples then."""

    def has(self, word: str) -> bool:
        """Whether a word is of the list."""
        return self.fits(word) if self.fits is not None else word in self.words()


WORD_LISTS: Mapping[str, WordList] = {
    "metals": WordList(tables.metals, "unknown-metal", "the symbol of a metal"),
    "metals without a film": WordList(_without_film, "R-FILM", "a metal without an oxide film, whose place in the table decides"),
    "metals that last in water": WordList(
        _lasting, "R-WATER", "a metal that does not react with water, as a vessel or a strip in a solution"
    ),
    "couples": WordList(tables.potentials, "unknown-couple", "the id of a couple"),
    "batteries": WordList(batteries, "unknown-battery", "a battery of the table"),
    "fuels": WordList(fuels, "unknown-fuel", "a fuel of the table"),
    "fuels burnt": WordList(reactions, "unknown-fuel", "a fuel of the table"),
    "materials in sea water": WordList(seawater, "unknown-material", "a material of the sea-water series"),
    "rust tubes": WordList(rust_tubes, "unknown-tube", "a tube of the table"),
    "materials with electrons": WordList(
        lambda: ("Zn 2", "PbO2 2", "LiC6 1"),
        "material-electrons",
        f"a formula and its electrons, 1 to {MOST_ELECTRONS}, as `Zn 2`",
        _with_electrons,
    ),
    "elements in species": WordList(
        lambda: ("Cr in Cr2O7^2-",), "marked", "an element in a species, as `Cr in Cr2O7^2-`, whose number can be given", _marked
    ),
    "products of baths": WordList(_products, "unknown-product", "a metal, a gas or a halogen"),
    "halogens": WordList(halogens, "unknown-halogen", "the symbol of a halogen of the table"),
    "references": WordList(
        lambda: (*reference_electrodes(), *tables.metals()), "unknown-reference", "a reference electrode or the symbol of a metal"
    ),
}
"""The lists by name, as ``one of:`` and ``some of:`` of a scenario name them."""
