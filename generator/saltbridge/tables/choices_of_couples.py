"""Couples chosen for a purpose: products of a bath, free ions beside salts and complexes, halogens, the line of the front page."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.home import shipped
from saltbridge.tables.potentials import named_couple, potentials
from saltbridge.tables.reading import Row, read_table

if TYPE_CHECKING:
    from collections.abc import Mapping

KINDS = ("salt", "complex", "water")


@dataclass(frozen=True, slots=True)
class BathProduct:
    """What an electrode makes besides metals, and its couple; a ``lye`` forms with one hydroxide ion for each electron."""

    product: str
    couple: str
    lye: bool


@dataclass(frozen=True, slots=True)
class Bound:
    """A couple of a salt, a complex or water, and the couple of the same metal or gas with its ``free`` ion."""

    couple: str
    free: str
    kind: str


@dataclass(frozen=True, slots=True)
class Halogen:
    """A halogen, its halide, their couple and its colour in water."""

    symbol: str
    name: str
    halide: str
    couple: str
    colour: str


def _bath_product(row: Row) -> BathProduct:
    row.text("source")
    return BathProduct(row.text("product"), named_couple(row, "couple", potentials()), row.yes("lye"))


def _bound(row: Row) -> Bound:
    row.text("source")
    return Bound(named_couple(row, "couple", potentials()), named_couple(row, "free", potentials()), row.one_of("kind", KINDS))


def _halogen(row: Row) -> Halogen:
    row.text("source")
    return Halogen(
        row.text("symbol"), row.text("name"), row.text("halide"), named_couple(row, "couple", potentials()), row.text("colour")
    )


def _of_the_line(row: Row) -> str:
    row.text("source")
    return named_couple(row, "couple", potentials())


@cache
def bath_products() -> Mapping[str, BathProduct]:
    """Give the shipped products of baths by formula."""
    return read_table(shipped("data") / "bath_products.csv", ("product", "couple", "lye", "source"), "product", _bath_product)


@cache
def bound_couples() -> Mapping[str, Bound]:
    """Give the shipped couples whose potential leads to a constant of equilibrium."""
    return read_table(shipped("data") / "free_ions.csv", ("couple", "free", "kind", "source"), "couple", _bound)


@cache
def halogens() -> Mapping[str, Halogen]:
    """Give the shipped halogens by symbol."""
    return read_table(
        shipped("data") / "halogens.csv", ("symbol", "name", "halide", "couple", "colour", "source"), "symbol", _halogen
    )


@cache
def front_line() -> tuple[str, ...]:
    """Give the couples of the number line on the front page."""
    return tuple(read_table(shipped("data") / "front_line.csv", ("couple", "source"), "couple", _of_the_line))
