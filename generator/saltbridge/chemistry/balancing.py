"""Balancing by the half-reaction method, in acid or base.

The atoms and charge of a half-reaction leave one way to balance it, found as the null space of its matrix. A whole
equation often leaves more: MnO4⁻ and H2O2 balance in endless ratios, and only their halves give 2 to 5. So a skeleton is
first parted into an oxidation and a reduction by the elements its species share.
"""

from __future__ import annotations

from functools import lru_cache
from importlib import import_module
from math import gcd
from typing import Literal, NamedTuple

from saltbridge.chemistry.equations import Equation, Term, cancel, lowest, parse_equation
from saltbridge.chemistry.half_reactions import HYDROGEN_ION, HYDROXIDE, MEDIUM, WATER, HalfReaction, combine
from saltbridge.chemistry.species import ELECTRON, Species, parse_species
from saltbridge.faults import Faulty, fault

Medium = Literal["acid", "base"]

_LENT = MEDIUM | {"H3O^+"}


class _Skeleton(NamedTuple):
    """The species that matter, without electrons, water and its ions."""

    left: tuple[Species, ...]
    right: tuple[Species, ...]


@lru_cache(maxsize=512)
def balance_half(skeleton: str, medium: Medium = "acid") -> HalfReaction:
    """Balance ``MnO4^- -> Mn^2+`` with electrons, water and H⁺ (acid) or OH⁻ (base); an oxidation comes back turned round.

    Raises ``Faulty``: ``no-redox`` where no electrons pass, ``not-to-balance`` where an element has no partner,
    ``several-balances`` where the species leave the ratio open.
    """
    return _half(_skeleton(skeleton), medium, skeleton)


@lru_cache(maxsize=512)
def balance_redox(skeleton: str, medium: Medium = "acid") -> Equation:
    """Balance ``MnO4^- + H2O2 -> Mn^2+ + O2`` by its two halves, in lowest whole numbers.

    Water and its ions may be left out. A skeleton that does not part into two halves is balanced as a whole where that
    leaves one way only. Raises ``Faulty`` as ``balance_half`` does.
    """
    whole = _skeleton(skeleton)
    if len(_part(whole)) != 2:
        return _whole(whole, medium, skeleton)
    return combine(*redox_halves(skeleton, medium)).equation


@lru_cache(maxsize=512)
def redox_halves(skeleton: str, medium: Medium = "acid") -> tuple[HalfReaction, HalfReaction]:
    """The reduction and the oxidation of a skeleton, each balanced; both are written as reductions.

    Raises ``Faulty``: ``no-halves`` where the skeleton does not part into two, else as ``balance_half`` does.
    """
    parts = _part(_skeleton(skeleton))
    if len(parts) != 2:
        raise fault("no-halves", expected="one oxidation and one reduction", found=f"{len(parts)} in {skeleton!r}")
    (first, first_reduces), (second, second_reduces) = (_directed(part, medium, skeleton) for part in parts)
    if first_reduces == second_reduces:
        way = "reduced" if first_reduces else "oxidised"
        raise fault("no-redox", expected="one half oxidised and one reduced", found=f"both halves {way} in {skeleton!r}")
    return (first, second) if first_reduces else (second, first)


def is_oxidation(change: str, half: HalfReaction) -> bool:
    """Whether a change goes from the reduced form of its half to the oxidised one; water and its ions may be the start."""
    whole = _skeleton(change)
    start, end = whole.left, whole.right
    oxidised, reduced = ({term.species.bare for term in side} for side in (half.oxidised, half.reduced))
    if start:
        return any(species.bare in reduced for species in start)
    return any(species.bare in oxidised for species in end)


def balance_equation(equation: Equation) -> Equation:
    """Find the coefficients of an equation from its own species alone. Raises ``Faulty`` as ``balance_half`` does."""
    return _signed_sum(
        _Skeleton(*(tuple(term.species for term in side) for side in (equation.left, equation.right))), (), equation.text
    )


# ------------------------------------------------------------------ parting a skeleton


def _skeleton(text: str) -> _Skeleton:
    equation = parse_equation(text)
    left, right = (
        tuple(dict.fromkeys(term.species for term in side if not term.species.is_electron and term.species.bare not in _LENT))
        for side in (equation.left, equation.right)
    )
    if not left and not right:
        raise fault("no-redox", expected="a species other than water and its ions", found=repr(text))
    if both := {species.bare for species in left} & {species.bare for species in right}:
        raise fault("species-twice", expected="each species on one side", found=f"{', '.join(sorted(both))} on both in {text!r}")
    return _Skeleton(left, right)


def _hearts(species: Species) -> frozenset[str]:
    """Tell what ties a species to its half: its elements but hydrogen and oxygen, or these two where it has no other."""
    return frozenset(symbol for symbol, _ in species.atoms if symbol not in {"H", "O"}) or frozenset({"H", "O"})


def _part(whole: _Skeleton) -> list[_Skeleton]:
    """Part a skeleton by shared elements; one that goes from or to two species of an element parts there."""
    ties: list[set[str]] = []
    for species in (*whole.left, *whole.right):
        mine = set(_hearts(species))
        for other in [tie for tie in ties if tie & mine]:
            mine |= other
            ties.remove(other)
        ties.append(mine)
    parts = [_Skeleton(*(tuple(one for one in side if _hearts(one) <= tie) for side in whole)) for tie in ties]
    if len(parts) == 1 and sorted((len(whole.left), len(whole.right))) == [1, 2]:
        return [_Skeleton((one,), (other,)) for one in whole.left for other in whole.right]
    if len(parts) == 1 and [one.bare for one in whole.left] == ["H2O2"] and whole.right:
        return [_Skeleton(whole.left, ()), whole]  # the other product is water, which the medium lends
    return parts


def _directed(part: _Skeleton, medium: Medium, text: str) -> tuple[HalfReaction, bool]:
    """Balance a part; also whether it is reduced in the direction of the skeleton."""
    half = _half(part, medium, text)
    start = {species.bare for species in half.species[: len(half.oxidised)]}
    reduces = all(species.bare in start for species in part.left) and not any(species.bare in start for species in part.right)
    return half, reduces


# ------------------------------------------------------------------ the matrix


def _half(part: _Skeleton, medium: Medium, text: str) -> HalfReaction:
    """Balance one half in acid, then add OH⁻ for every H⁺ where the medium is a base."""
    water, proton = _lent(part, WATER, "l"), _lent(part, HYDROGEN_ION, "aq")
    try:
        equation = _signed_sum(part, (proton, water, ELECTRON), text)
    except Faulty as problem:
        if problem.faults[0].code != "several-balances":
            raise
        equation = _signed_sum(part, (proton, ELECTRON), text)
    if medium == "base":
        equation = _in_base(equation, water, proton, _lent(part, HYDROXIDE, "aq"))
    if any(term.species.is_electron for term in equation.right):
        equation = equation.reverse()
    electrons = sum(term.coefficient for term in equation.left if term.species.is_electron)
    if not electrons:
        raise fault("no-redox", expected="electrons taken up or given off", found=f"none in {equation.text!r}")
    return HalfReaction(tuple(term for term in equation.left if not term.species.is_electron), electrons, equation.right)


def _lent(part: _Skeleton, name: str, phase: Literal["l", "aq"]) -> Species:
    """Give a species of the medium its phase where the skeleton tells phases."""
    species = parse_species(name)
    return species.in_phase(phase) if any(one.phase for one in (*part.left, *part.right)) else species


def _in_base(equation: Equation, water: Species, proton: Species, hydroxide: Species) -> Equation:
    """Add one OH⁻ on both sides for every H⁺, which makes water of it."""
    number = sum(term.coefficient for term in (*equation.left, *equation.right) if term.species == proton)
    if not number:
        return equation
    ionic = any(term.species == proton for term in equation.left)
    sides = [[term for term in side if term.species != proton] for side in (equation.left, equation.right)]
    sides[0 if ionic else 1].append(Term(number, water))
    sides[1 if ionic else 0].append(Term(number, hydroxide))
    return lowest(cancel(tuple(sides[0]), tuple(sides[1])))[0]


def _whole(whole: _Skeleton, medium: Medium, text: str) -> Equation:
    water = _lent(whole, WATER, "l")
    ion = _lent(whole, HYDROGEN_ION if medium == "acid" else HYDROXIDE, "aq")
    return _signed_sum(whole, (ion, water), text)


def _signed_sum(part: _Skeleton, lent: tuple[Species, ...], text: str) -> Equation:
    """Balance with the species lent, which go to whichever side needs them."""
    columns = (*part.left, *part.right, *lent)
    basis = _null_space(columns)
    if len(basis) > 1:
        raise fault(
            "several-balances",
            expected="one way to balance",
            found=f"{len(basis)} independent ones for {text!r}",
            hint="Balance the two half-reactions one by one and combine them.",
        )
    numbers = basis[0] if basis else ()
    if numbers and numbers[0 if part.left else len(part.left)] * (1 if part.left else -1) < 0:
        numbers = tuple(-number for number in numbers)
    own = numbers[: len(part.left) + len(part.right)]
    if (
        not numbers
        or any(number <= 0 for number in own[: len(part.left)])
        or any(number >= 0 for number in own[len(part.left) :])
    ):
        raise fault(
            "not-to-balance",
            expected="species that can be balanced",
            found=repr(text),
            hint="Each element but hydrogen and oxygen must stand on both sides.",
        )
    paired = list(zip(numbers, columns, strict=True))
    return Equation(
        tuple(Term(number, species) for number, species in paired if number > 0),
        tuple(Term(-number, species) for number, species in paired if number < 0),
    )


def _null_space(columns: tuple[Species, ...]) -> list[tuple[int, ...]]:
    """Find whole-number vectors that keep every element and the charge."""
    symbols = list(dict.fromkeys(symbol for species in columns for symbol, _ in species.atoms))
    rows = [[dict(species.atoms).get(symbol, 0) for species in columns] for symbol in symbols]
    return null_space([*rows, [species.charge for species in columns]])


def null_space(rows: list[list[int]]) -> list[tuple[int, ...]]:
    """A basis of the whole-number vectors that every row takes to zero."""
    matrix = import_module("sympy").Matrix  # half a second that only balancing pays
    found = []
    for vector in matrix(rows).nullspace():
        shared = 1
        for entry in vector:
            shared = shared * int(entry.q) // gcd(shared, int(entry.q))
        whole = [int(entry * shared) for entry in vector]
        found.append(tuple(number // gcd(*whole) for number in whole))
    return found
