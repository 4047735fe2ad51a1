"""Names that keys, quantities and options of a template had before: refused, each with the name that stands in its place."""

from __future__ import annotations

KEYS = {
    "must catch": "must reveal",
    "further": "further quantities",
    "works": "industrial plant",
    "cells in series": "electrolytic cells in series",
    "levelled cell": "run-down concentration cell",
    "scratched coat": "scratched coating",
    "coats": "coatings",
    "helpers": "protecting metals",
    "rust tubes": "rusting test tubes",
    "strings": "parallel strings",
    "portion": "aliquot",
}
"""Keys of a template."""

OF_KINDS = frozenset({"cells in series"})
"""Old names of kinds that a key of another kind bears today."""

NAMES = {
    "coat": "coating",
    "coats": "coatings",
    "coat_metal": "coating_metal",
    "V_coat": "V_coating",
    "helper": "protecting_metal",
    "c_strong": "c_conc",
    "c_weak": "c_dil",
    "V_strong": "V_conc",
    "V_weak": "V_dil",
    "U_heat": "U_tn",
    "object_pole": "object_terminal",
    "structure_pole": "structure_terminal",
    "plus_strip": "positive_strip",
    "minus_on_charge": "negative_on_charge",
    "plus_on_charge": "positive_on_charge",
    "charge_minus.half": "charge_negative.half",
    "charge_plus.half": "charge_positive.half",
    "discharge_minus.half": "discharge_negative.half",
    "discharge_plus.half": "discharge_positive.half",
    "minus": "negative",
    "plus": "positive",
}
"""Names of quantities, lists and choices, as they stand in holes, conditions, `find`, `choose`, `from` and at the command line."""


def now_called(word: str) -> str:
    """The name that stands in the place of an old one, or nothing."""
    return KEYS.get(word) or NAMES.get(word, "")
