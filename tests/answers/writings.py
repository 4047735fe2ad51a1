"""Species in the ways that students type them, and the form of a made case."""

from __future__ import annotations

Case = dict[str, object]
Made = tuple[str, object, str, list[str]]
"""Key, what was typed, verdict, reasons."""

RAISED = str.maketrans("0123456789+-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")


def bare(species: str) -> str:
    """``Zn2+`` for ``Zn^2+``."""
    return species.replace("^", "")


def raised(species: str) -> str:
    formula, _, charge = species.partition("^")
    return formula + charge.translate(RAISED)


def braced(species: str) -> str:
    formula, caret, charge = species.partition("^")
    return f"{formula}^{{{charge}}}" if caret else formula
