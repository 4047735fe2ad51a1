"""Species and equations as inscriptions: the pieces to set, and the words to say them.

Words are said in English; ``say`` puts each of ``WORDS`` into another language.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from saltbridge.document import Inscription, Piece

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from saltbridge.chemistry.equations import Equation, Term
    from saltbridge.chemistry.species import Species

    Say = Callable[[str], str]

MINUS = "\u2212"
THIN = "\u202f"
PHASE_WORDS = {"s": "solid", "l": "liquid", "g": "gas", "aq": "aqueous"}
ARROW_WORDS = {"→": "gives", "⇌": "in equilibrium with", "=": "equals"}
WORDS = (
    *PHASE_WORDS.values(),
    *ARROW_WORDS.values(),
    "plus",
    "minus",
    "and",
    "dot",
    "bracket",
    "close bracket",
    "electron",
    "electrons",
)
WORDS += ("phase boundary", "salt bridge", "unknown")
"""Every word that spoken forms of species, equations and diagrams are made of."""

_TOKEN = re.compile(r"[A-Z][a-z]?|[0-9]+|[()\[\]·]")
_SAID = {"(": "bracket", "[": "bracket", ")": "close bracket", "]": "close bracket", "·": "dot"}


def in_english(word: str) -> str:
    """Give the word as it is."""
    return word


def merged(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Join neighbours of one kind."""
    joined: list[Piece] = []
    for piece in pieces:
        if joined and joined[-1].kind == piece.kind:
            joined[-1] = Piece(piece.kind, joined[-1].text + piece.text)
        elif piece.text:
            joined.append(piece)
    return tuple(joined)


@lru_cache(maxsize=4096)
def formula_pieces(species: Species, *, phase: bool = False) -> tuple[Piece, ...]:
    """Symbols on the line, counts below, the charge above; the phase on the line in brackets."""
    pieces: list[Piece] = []
    after_dot = True
    for mark in _TOKEN.findall(species.formula) if not species.is_electron else ["e"]:
        counts = mark.isdigit() and not after_dot
        pieces.append(Piece("sub" if counts else "base", mark))
        after_dot = mark == "·"
    if species.charge:
        size = "" if abs(species.charge) == 1 else str(abs(species.charge))
        pieces.append(Piece("sup", size + ("+" if species.charge > 0 else MINUS)))
    if phase and species.phase:
        pieces.append(Piece("base", f"({species.phase})"))
    return merged(pieces)


@lru_cache(maxsize=4096)
def spoken_formula(species: Species, *, phase: bool = False, say: Say = in_english) -> str:
    """Words for a species: ``Zn 2 plus aqueous``, ``S O 4, 2 minus``."""
    if species.is_electron:
        return say("electron")
    marks = _TOKEN.findall(species.formula)
    words = " ".join(say(_SAID[mark]) if mark in _SAID else mark for mark in marks)
    if species.charge:
        sign = say("plus" if species.charge > 0 else "minus")
        size = f" {abs(species.charge)}" if abs(species.charge) > 1 else ""
        words += ("," if len(marks) > 1 else "") + f"{size} {sign}"
    return f"{words} {say(PHASE_WORDS[species.phase])}" if phase and species.phase else words


@lru_cache(maxsize=4096)
def inscribe_species(species: Species, phase: bool = False, say: Say = in_english) -> Inscription:
    """Set a species, with its phase where asked."""
    return Inscription("species", formula_pieces(species, phase=phase), spoken_formula(species, phase=phase, say=say))


@lru_cache(maxsize=4096)
def inscribe_equation(equation: Equation, arrow: str = "→", phase: bool = False, say: Say = in_english) -> Inscription:
    """Set an equation: coefficients, signs and an arrow such as → or ⇌."""
    pieces = (*_side_pieces(equation.left, phase), Piece("base", f" {arrow} "), *_side_pieces(equation.right, phase))
    words = " ".join(
        (
            _side_words(equation.left, phase, say),
            say(ARROW_WORDS.get(arrow, "gives")),
            _side_words(equation.right, phase, say),
        )
    )
    return Inscription("equation", merged(pieces), words)


def _side_pieces(side: tuple[Term, ...], phase: bool) -> list[Piece]:
    pieces: list[Piece] = []
    for place, (coefficient, species) in enumerate(side):
        lead = " + " if place else ""
        pieces.append(Piece("base", lead + (f"{coefficient}{THIN}" if coefficient != 1 else "")))
        pieces.extend(formula_pieces(species, phase=phase))
    return pieces


def _side_words(side: tuple[Term, ...], phase: bool, say: Say) -> str:
    return f", {say('and')} ".join(_term_words(term, phase, say) for term in side)


def _term_words(term: Term, phase: bool, say: Say) -> str:
    if term.species.is_electron:
        return f"{term.coefficient} {say('electron' if term.coefficient == 1 else 'electrons')}"
    words = spoken_formula(term.species, phase=phase, say=say)
    return f"{term.coefficient} {words}" if term.coefficient != 1 else words
