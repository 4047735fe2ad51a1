"""Reads and compares a typed equation: any order of species, whole multiples, what is wrong about the rest.

The notation is that of the chemistry room, species as ``typed_species`` reads them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from saltbridge.answers.typed_species import Finding, Unreadable, made_clear, named_fault, text_of, why_unread
from saltbridge.chemistry.equations import MOST_TERMS, Equation, Term, imbalance, parse_term
from saltbridge.chemistry.species import Species
from saltbridge.faults import Faulty

LONGEST = 400
_KNOWN = re.compile(r"[ -~·•∙⋅½→⟶➔➜➝⇒⟹⇌⇄↔⟷⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*")
_ARROW = re.compile(r" +(?:--+>|==+>) *| *(?:<=+>|<-+>|->|=>|[→⟶➔➜➝⇒⟹⇌⇄↔⟷=]) *")
_PLUS = re.compile(r" +\+ +")
_JOINED = re.compile(r"\+[0-9]*[A-Ze\[]")
_CODES = {
    "species-too-long": "too-long",
    "coefficient-not-whole": "whole-numbers",
    "plus-needs-spaces": "spaces-round-plus",
    "charge-unclear": "charge-unclear",
}

Contents = tuple[frozenset[tuple[str, int]], int, str]
Side = dict[Contents, int]
ELECTRON: tuple[frozenset[tuple[str, int]], int] = (frozenset(), -1)


# ------------------------------------------------------------------ reading


def read_equation(typed: object) -> Equation | Unreadable:
    """Read a typed equation. Never raises; what can't be read is quoted, with its cure where there is one."""
    text = text_of(typed, LONGEST, _KNOWN, "character")
    if isinstance(text, Unreadable):
        return text
    sides = _ARROW.split(text)
    if len(sides) != 2 or not all(sides):
        return Unreadable("arrow")
    read: list[tuple[Term, ...]] = []
    for side in sides:
        terms = _read_side(side)
        if isinstance(terms, Unreadable):
            return terms
        read.append(terms)
    return Equation(read[0], read[1])


def _read_side(side: str) -> tuple[Term, ...] | Unreadable:
    """The terms of one side, or why its first unreadable term can't be read."""
    pieces = _PLUS.split(side)
    if len(pieces) > MOST_TERMS:
        return Unreadable("too-long")
    terms: list[Term] = []
    for piece in pieces:
        named = named_fault(piece)
        if named:
            return named
        try:
            terms.append(parse_term(made_clear(piece)))
        except Faulty as problem:
            return _why(problem.faults[0].code, piece)
    return tuple(terms)


def _why(code: str, term: str) -> Unreadable:
    why = _CODES.get(code, "species")
    if why == "spaces-round-plus" and not _JOINED.search(term):
        why = "species"  # a plus inside a charge
    return why_unread(why, term)


# ------------------------------------------------------------------ comparing


def compare(typed: Equation, right: Equation, *, states: bool = False) -> Finding:
    """How a typed equation stands to the right one; state symbols count only if ``states``."""
    mine, theirs = _sides(typed, states=states), _sides(right, states=states)
    ratio = _ratio(mine, theirs)
    if ratio is not None:
        return Finding("right") if ratio == 1 else Finding("right-but", ("reduce",))
    if states and _ratio(_sides(typed, states=False), _sides(right, states=False)) is not None:
        return Finding("right-but", ("states",))
    spare_electrons = _has_electrons(mine[0]) and _has_electrons(mine[1])
    cancelled = _ratio(_cancelled(mine), theirs)
    if cancelled is not None and not spare_electrons:
        return Finding("right-but", ("cancel",))
    return Finding("not-yet", _reasons(typed, mine, theirs))


def _reasons(typed: Equation, mine: tuple[Side, Side], theirs: tuple[Side, Side]) -> tuple[str, ...]:
    """Why a typed equation is not the right one, the most telling reason first."""
    if _ratio(_cancelled(mine)[::-1], theirs) is not None:
        return ("reversed",)
    why: list[str] = []
    sides_with_electrons = sum(map(_has_electrons, mine))
    if sides_with_electrons > sum(map(_has_electrons, theirs)):
        why.append("electrons-left")
    off = imbalance(typed)
    if any(name != "charge" for name in off):
        why.append("atoms")
    if "charge" in off:
        why.append("charge")
    if not why and set(mine[0]) | set(mine[1]) != set(theirs[0]) | set(theirs[1]):
        why.append("species-differ")
    return tuple(why)


def same(one: Equation, other: Equation) -> bool:
    """Whether two equations agree but for order, state symbols and a common factor."""
    return _ratio(_sides(one, states=False), _sides(other, states=False)) is not None


def _sides(equation: Equation, *, states: bool) -> tuple[Side, Side]:
    return _side(equation.left, states=states), _side(equation.right, states=states)


def _side(terms: tuple[Term, ...], *, states: bool) -> Side:
    counts: Side = {}
    for coefficient, species in terms:
        name = _identity(species, states=states)
        counts[name] = counts.get(name, 0) + coefficient
    return counts


def _identity(species: Species, *, states: bool) -> Contents:
    """Electrons have no state, even where one was typed."""
    return (*species.contents, "" if species.is_electron or not states else species.phase)


def _has_electrons(side: Mapping[Contents, int]) -> bool:
    return (*ELECTRON, "") in side


def _ratio(mine: tuple[Side, Side], theirs: tuple[Side, Side]) -> Fraction | None:
    """The one factor between all coefficients; None where species or proportions differ."""
    if mine[0].keys() != theirs[0].keys() or mine[1].keys() != theirs[1].keys():
        return None
    ratios = {Fraction(side[name], other[name]) for side, other in zip(mine, theirs, strict=True) for name in side}
    return ratios.pop() if len(ratios) == 1 else None


def _cancelled(sides: tuple[Side, Side]) -> tuple[Side, Side]:
    """Without what stands on both sides."""
    left, right = sides
    return (
        {name: count - right.get(name, 0) for name, count in left.items() if count > right.get(name, 0)},
        {name: count - left.get(name, 0) for name, count in right.items() if count > left.get(name, 0)},
    )
