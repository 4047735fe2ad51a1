"""What a half-cell is called in print: its couple, species and half-equations, made once for each half-reaction."""

from __future__ import annotations

from saltbridge.chemistry.cells import HalfCell
from saltbridge.chemistry.inscriptions import in_english, inscribe_equation, inscribe_species
from saltbridge.chemistry.species import Species
from saltbridge.document import Inscription, Piece
from saltbridge.graph.laws import Say

Names = tuple[tuple[tuple[str, Inscription], ...], tuple[tuple[str, str], ...]]
_KEPT = 1024
_named: dict[tuple[object, ...], tuple[HalfCell, Names]] = {}
"""Names of half-cells met before; each holds its half-cell, so that no other half-reaction can have its id."""

ON_THE_LINE = ("left.E0", "right.E0", "E_ref")
"""Potentials that stand on the number line, where they are given."""


def half_names(half: HalfCell, say: Say) -> Names:
    """The labels and plain texts of a half-cell, by name without its side."""
    key = (id(half.half), half.electrode.bare, say)
    known = _named.get(key)
    if known is None:
        if len(_named) >= _KEPT:
            _named.clear()
        known = _named[key] = (half, _made_names(half, say))
    return known[1]


def _made_names(half: HalfCell, say: Say) -> Names:
    oxidised, reduced = half.half.principal
    labels = (
        ("couple", couple_label(oxidised, reduced, say)),
        ("electrode", inscribe_species(half.electrode, say=say)),
        ("oxidised", inscribe_species(oxidised, say=say)),
        ("reduced", inscribe_species(reduced, say=say)),
        ("reduction", inscribe_equation(half.half.reduction, say=say)),
        ("oxidation", inscribe_equation(half.half.oxidation, say=say)),
    )
    words = (("reduction text", half.half.reduction.bare.text), ("oxidation text", half.half.oxidation.bare.text))
    return labels, words


def couple_label(oxidised: Species, reduced: Species, say: Say = in_english) -> Inscription:
    """``Zn²⁺/Zn`` as it stands in the brackets after E°."""
    first, second = inscribe_species(oxidised, say=say), inscribe_species(reduced, say=say)
    return Inscription(
        "symbol", (*first.pieces, Piece("base", "/"), *second.pieces), f"{first.spoken} {say('to')} {second.spoken}"
    )
