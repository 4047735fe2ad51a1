"""The kinds of things that a scenario may hold: of which lists their words are, and which other names they look at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

METALS = ("metals", "metals without a film", "metals that last in water")


@dataclass(frozen=True, slots=True)
class Thing:
    """The ``lists`` that its word may be drawn from, or ``words`` of its own; ``beside`` are names that it needs."""

    lists: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()


THINGS: Mapping[str, Thing] = {
    "metal": Thing(METALS),
    "named metal": Thing(METALS),
    "deposit": Thing(METALS),
    "dissolving metal": Thing(METALS),
    "corroding metal": Thing(METALS),
    "coat": Thing(METALS),
    "product": Thing(("products of baths", *METALS)),
    "rusting iron": Thing(words=("neutral", "acid")),
    "rust tube": Thing(("rust tubes",)),
    "yes or no": Thing(words=("yes", "no")),
    "battery": Thing(("batteries",)),
    "electrode material": Thing(("materials with electrons",)),
    "fuel": Thing(("fuels",), beside=("medium",)),
    "fuel burnt": Thing(("fuels burnt",)),
    "reaction": Thing(("couples", *METALS), beside=("giver",)),
    "element in a species": Thing(("elements in species",)),
    "halogen added": Thing(("halogens",)),
    "halide": Thing(("halogens",)),
}
"""By kind; ``scenarios/things.py`` says what each brings with it."""
