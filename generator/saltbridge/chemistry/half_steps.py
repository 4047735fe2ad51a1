"""The half-reaction method forwards: what changes, its atoms, oxygen, hydrogen, the charge, and the change to a base.

Each step takes the half-equation as it stands and adds what that step balances, so that whatever went before, right or
wrong, is worked on.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import gcd, lcm

from saltbridge.chemistry.balancing import null_space
from saltbridge.chemistry.equations import Equation, Term, cancel, lowest, totals
from saltbridge.chemistry.half_reactions import HYDROGEN_ION, HYDROXIDE, MEDIUM, WATER, HalfReaction
from saltbridge.chemistry.species import ELECTRON, Species, parse_species

Step = Callable[[Equation], Equation]
Terms = tuple[Term, ...]
_WATER, _PROTON, _HYDROXIDE = parse_species(WATER), parse_species(HYDROGEN_ION), parse_species(HYDROXIDE)


def written(half: HalfReaction, *, oxidation: bool) -> Equation:
    """A half-reaction as it is written for an oxidation or a reduction, without phases."""
    return (half.oxidation if oxidation else half.reduction).bare


def principal_pair(half: HalfReaction) -> tuple[Species, Species]:
    """The oxidised and the reduced species, without phases."""
    oxidised, reduced = half.principal
    return oxidised.in_phase(""), reduced.in_phase("")


def change_of(half: HalfReaction, *, oxidation: bool) -> Equation:
    """What changes, each species once and nothing balanced: ``Cr2O7^2- -> Cr^3+``; where water changes, ``O2 -> H2O``."""
    sides = [tuple(Term(1, one.in_phase("")) for one in _own(terms)) for terms in (half.oxidised, half.reduced)]
    oxidised, reduced = principal_pair(half)
    if not sides[0]:
        sides[0] = (Term(1, _WATER if dict(reduced.atoms).get("O") else _PROTON),)
    if not sides[1]:
        sides[1] = (Term(1, _WATER if dict(oxidised.atoms).get("O") else _PROTON),)
    return Equation(*(sides[::-1] if oxidation else sides))


def _own(terms: Terms) -> tuple[Species, ...]:
    return tuple(dict.fromkeys(term.species for term in terms if term.species.bare not in MEDIUM))


# ------------------------------------------------------------------ the steps


def balance_atoms(equation: Equation) -> Equation:
    """Every element but oxygen and hydrogen balanced, by the one way its species leave; as it stands where there is none."""
    columns = tuple(term.species for term in (*equation.left, *equation.right))
    elements = dict.fromkeys(symbol for species in columns for symbol, _ in species.atoms if symbol not in {"H", "O"})
    if not elements:
        return equation
    if len(columns) == 2 and len(elements) == 1:
        (element,) = elements
        counts = [dict(species.atoms).get(element, 0) for species in columns]
        numbers = [lcm(*counts) // count for count in counts] if all(counts) else [1, 1]
    else:
        basis = null_space([[dict(species.atoms).get(symbol, 0) for species in columns] for symbol in elements])
        numbers = [abs(number) for number in basis[0]] if len(basis) == 1 and all(basis[0]) else [1] * len(columns)
    terms = [Term(number // gcd(*numbers), species) for number, species in zip(numbers, columns, strict=True)]
    return Equation(tuple(terms[: len(equation.left)]), tuple(terms[len(equation.left) :]))


def balance_oxygen(equation: Equation) -> Equation:
    """Water where oxygen lacks."""
    return _with(equation, _WATER, _surplus(equation, "O"))


def balance_hydrogen(equation: Equation) -> Equation:
    """Hydrogen ions where hydrogen lacks."""
    return _with(equation, _PROTON, _surplus(equation, "H"))


def balance_charge(equation: Equation) -> Equation:
    """Electrons where the charge is too high."""
    return _with(equation, ELECTRON, -_surplus(equation, "charge"))


def to_base(equation: Equation) -> Equation:
    """Hydroxide ions on both sides, as many as there are hydrogen ions; the two make water, and water cancels."""
    return _answered(equation, _PROTON, _HYDROXIDE)


def to_acid(equation: Equation) -> Equation:
    """Hydrogen ions on both sides, as many as there are hydroxide ions; the two make water, and water cancels."""
    return _answered(equation, _HYDROXIDE, _PROTON)


def _answered(equation: Equation, ion: Species, other: Species) -> Equation:
    """Every ``ion`` turned into water by as many of the ``other`` on both sides."""
    count = _surplus_of(equation, ion)
    if not count:
        return equation
    sides = [[term for term in side if term.species != ion] for side in (equation.left, equation.right)]
    here, there = (1, 0) if count > 0 else (0, 1)
    sides[here].append(Term(abs(count), _WATER))
    sides[there].append(Term(abs(count), other))
    return lowest(electrons_last(cancel(tuple(sides[0]), tuple(sides[1]))))[0]


def electrons_last(equation: Equation) -> Equation:
    """Electrons at the end of their side."""
    return Equation(*(tuple(sorted(side, key=lambda term: term.species.is_electron)) for side in (equation.left, equation.right)))


def _surplus(equation: Equation, name: str) -> int:
    """How many more of an element, or how much more charge, the left side has."""
    left, right = totals(equation.left), totals(equation.right)
    return left.get(name, 0) - right.get(name, 0)


def _surplus_of(equation: Equation, species: Species) -> int:
    """How many more of a species the right side has."""
    return sum(
        sign * term.coefficient
        for sign, side in ((-1, equation.left), (1, equation.right))
        for term in side
        if term.species == species
    )


def _with(equation: Equation, species: Species, more_right: int) -> Equation:
    """So many of a species added on the right, or on the left where the number is negative."""
    extra = (Term(abs(more_right), species),) if more_right else ()
    left, right = (equation.left, (*equation.right, *extra)) if more_right > 0 else ((*equation.left, *extra), equation.right)
    return cancel(left, right)


STEPS: Mapping[str, Step] = {
    "atoms": balance_atoms,
    "oxygen": balance_oxygen,
    "hydrogen": balance_hydrogen,
    "electrons": balance_charge,
    "base": to_base,
}
"""The steps in their order."""


def steps_of(half: HalfReaction, *, oxidation: bool) -> tuple[str, ...]:
    """The steps that lead from what changes to a half-reaction; those that change nothing are left out, but not the first."""
    names = [name for name in STEPS if name != "base" or any(species.bare == HYDROXIDE for species in half.species)]
    equation, found = change_of(half, oxidation=oxidation), []
    for name in names:
        after = STEPS[name](equation)
        if after != equation or (name == "atoms" and _has_other_elements(equation)):
            found.append(name)
        equation = after
    return tuple(found)


def _has_other_elements(equation: Equation) -> bool:
    """Whether there is an element besides oxygen and hydrogen to look at."""
    return any(symbol not in {"H", "O"} for term in equation.left for symbol, _ in term.species.atoms)
