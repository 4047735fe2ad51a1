"""Reads and compares a typed equation: any order of species, whole multiples, what is wrong about the rest.

The notation is that of the chemistry room. More ways to write a charge are read here: ``Zn2+``, ``SO42-``, ``Cu^{2+}``, ``Cu+2``,
``Cu++``. What can be two species (``O2-``, ``I3-``) is doubtful, whichever of them would be right: a reading never tells.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from saltbridge.answers.numbers import cleaned
from saltbridge.chemistry.equations import MOST_TERMS, Equation, Term, imbalance, parse_term
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import Faulty
from saltbridge.tables.kinds import non_metals

LONGEST = 400
_KNOWN = re.compile(r"[ -~·•∙⋅½→⟶➔➜➝⇒⟹⇌⇄↔⟷⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*")
_ARROW = re.compile(r" +(?:--+>|==+>) *| *(?:<=+>|<-+>|->|=>|[→⟶➔➜➝⇒⟹⇌⇄↔⟷=]) *")
_PLUS = re.compile(r" +\+ +")
_TERM = re.compile(r"([0-9]* *)(.*?)( *\((?:s|l|g|aq)\))?")
_JOINED = re.compile(r"\+[0-9]*[A-Ze\[]")
_BROKEN_COUNT = re.compile(r"(?:[0-9]+[.,/][0-9]+|[0-9]*½)")
_CHARGES = tuple(
    (re.compile(pattern), written)
    for pattern, written in (
        (r"([^^{]*)\^?\{([0-9]*)([+-])\}", r"\1^\2\3"),  # Cu^{2+}
        (r"(.*[A-Za-z0-9\])])\^?([+-])([1-9])", r"\1^\3\2"),  # Cu+2, Cu^+2
        (r"(.*[A-Za-z0-9\])])\^?\+\+", r"\1^2+"),  # Cu++
        (r"(.*[A-Za-z0-9\])])\^?\+\+\+", r"\1^3+"),
        (r"([A-Z][a-z]?|.*\])([1-9])(\+|-)", r"\1^\2\3"),  # Zn2+, where the element makes no such cluster
        (r"([^^]*[^0-9^][0-9]+)([1-9])([+-])", r"\1^\2\3"),  # SO42-
    )
)
"""How a charge may be written beside the notation, and what it means; whether the species is right plays no part."""
_ROMAN = re.compile(r"([A-Z][a-z]?) ?\((I|II|III|IV|V|VI|VII)\)")
_CAPITALS = re.compile(r"([A-Z])([A-Z])([^a-z].*)?")
_MOLECULES = {"CO", "NO", "HF"}
_CODES = {
    "species-too-long": "too-long",
    "coefficient-not-whole": "whole-numbers",
    "plus-needs-spaces": "spaces-round-plus",
    "charge-unclear": "charge-unclear",
}

_STATE = re.compile(r" *\((s|l|g|aq)\)$", re.IGNORECASE)
_NUMERALS = {"I": "", "II": "2", "III": "3", "IV": "4", "V": "5", "VI": "6", "VII": "7"}
LONGEST_QUOTE = 24

Contents = tuple[frozenset[tuple[str, int]], int, str]
Side = dict[Contents, int]
ELECTRON: tuple[frozenset[tuple[str, int]], int] = (frozenset(), -1)


@dataclass(frozen=True, slots=True)
class Unreadable:
    """Why a text is no equation, and what a doubtful species could mean."""

    why: str
    readings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """How a typed equation stands to the right one: ``right``, ``right-but`` or ``not-yet``, with the reasons."""

    verdict: str
    why: tuple[str, ...] = ()


# ------------------------------------------------------------------ reading


def read_equation(typed: object) -> Equation | Unreadable:
    """Read a typed equation. Never raises; what can't be read is quoted, with its cure where there is one."""
    if isinstance(typed, str) and len(typed) > LONGEST:
        return Unreadable("too-long")
    text = cleaned(typed) if isinstance(typed, str) else ""
    if not text:
        return Unreadable("empty")
    if not _KNOWN.fullmatch(text):
        return Unreadable("character")
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
        named = _named_fault(piece)
        if named:
            return named
        try:
            terms.append(parse_term(_made_clear(piece)))
        except Faulty as problem:
            return _why(problem.faults[0].code, piece)
    return tuple(terms)


def _why(code: str, term: str) -> Unreadable:
    why = _CODES.get(code, "species")
    if why == "spaces-round-plus" and not _JOINED.search(term):
        why = "species"  # a plus inside a charge
    match = _TERM.fullmatch(term)
    if why == "charge-unclear":
        return Unreadable(why, _readings(match[2]) if match else ())
    return Unreadable(why, (_quoted(term),) if why == "species" else ())


def _quoted(term: str) -> str:
    return term if len(term) <= LONGEST_QUOTE else f"{term[:LONGEST_QUOTE]}…"


def _made_clear(term: str) -> str:
    """The term in our notation, where its charge is written in another that leaves no doubt."""
    match = _TERM.fullmatch(term)
    if not match or _doubtful().fullmatch(match[2]):
        return term
    for pattern, written in _CHARGES:
        if pattern.fullmatch(match[2]):
            return f"{match[1]}{pattern.sub(written, match[2])}{match[3] or ''}"
    return term


@cache
def _doubtful() -> re.Pattern[str]:
    """A bare figure and sign that can mean two species: ``S2-`` is sulfur's ion or a pair of atoms."""
    return re.compile(rf"({'|'.join(sorted(non_metals()))})([0-9])([+-])|([A-Z][a-z]?)([0-9])(-)")


def _readings(body: str) -> tuple[str, ...]:
    """The two species that a bare figure and sign can mean; none where there is no doubt."""
    match = _doubtful().fullmatch(body)
    if not match:
        return ()
    head, figure, sign = match.groups()[:3] if match[1] else match.groups()[3:]
    return f"{head}^{figure}{sign}", f"{head}{figure}^{sign}"


def _named_fault(term: str) -> Unreadable | None:
    """A fault that has a name and a cure: a broken coefficient, a state in capitals, a Roman numeral, an element in capitals."""
    if _BROKEN_COUNT.match(term):
        return Unreadable("whole-numbers")
    count = term[: len(term) - len(term.lstrip("0123456789 "))]
    body = term[len(count) :]
    state = _STATE.search(body)
    if state and state[1].lower() != state[1]:
        return Unreadable("state-case", (_quoted(term), f"{count}{body[: state.start()]}({state[1].lower()})"[:LONGEST_QUOTE]))
    bare = body[: state.start()] if state else body
    roman = _ROMAN.fullmatch(bare)
    if roman:
        return Unreadable("roman", (_quoted(term), f"{count}{roman[1]}^{_NUMERALS[roman[2]]}+"))
    capitals = _CAPITALS.fullmatch(bare)
    if capitals and bare not in _MOLECULES and _is_element(capitals[1] + capitals[2].lower()):
        rest = capitals[3] or ""
        alone = not rest or re.fullmatch(r"\^?[0-9+{}⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻-]+", rest)
        if alone and (re.search("[+⁺]", rest) or not (_is_element(capitals[1]) and _is_element(capitals[2]) and rest)):
            return Unreadable("element-case", (_quoted(term), f"{count}{capitals[1]}{capitals[2].lower()}{rest}"[:LONGEST_QUOTE]))
    return None


def _is_element(symbol: str) -> bool:
    try:
        return parse_species(symbol).atoms == ((symbol, 1),)
    except Faulty:
        return False


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
