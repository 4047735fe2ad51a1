"""The closed list of ways in which an equation is written wrong: each takes what a step is made from and what it rightly gives.

A common error of the data names one of them (``reshape: added as they stand``). Each gives the equation that a student
writes, or ``None`` where this error can't be made at that step.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from saltbridge.chemistry.equations import Equation, Term, cancel, lowest
from saltbridge.chemistry.half_reactions import MEDIUM, HalfReaction
from saltbridge.chemistry.half_steps import principal_pair, to_acid
from saltbridge.chemistry.species import ELECTRON

Reshape = Callable[[Sequence[Equation], Equation], Equation | None]


def electrons_of(equation: Equation) -> int:
    """The electrons on the right less those on the left."""
    return sum(
        sign * term.coefficient
        for sign, side in ((-1, equation.left), (1, equation.right))
        for term in side
        if term.species.is_electron
    )


def _without_electrons(equation: Equation) -> Equation:
    return Equation(*(tuple(term for term in side if not term.species.is_electron) for side in (equation.left, equation.right)))


def _reversed(_made_from: Sequence[Equation], right: Equation) -> Equation:
    """Left and right changed over, electrons with them."""
    return right.reverse()


def _other_side(_made_from: Sequence[Equation], right: Equation) -> Equation | None:
    """The electrons, as many as they are, on the side where they do not belong."""
    count = electrons_of(right)
    return _with_electrons(right, -count) if count else None


def _with_electrons(right: Equation, count: int) -> Equation:
    """The equation with so many electrons on the right, or on the left where the number is negative."""
    plain, electrons = _without_electrons(right), (Term(abs(count), ELECTRON),)
    return Equation(plain.left, (*plain.right, *electrons)) if count > 0 else Equation((*plain.left, *electrons), plain.right)


def _by_charge(_made_from: Sequence[Equation], right: Equation) -> Equation | None:
    """As many electrons as the charge of the whole species changes by, whatever the oxygen carries."""
    count = electrons_of(right)
    if not count:
        return None
    left, other = _without_electrons(right).left, _without_electrons(right).right
    oxidised, reduced = principal_pair(HalfReaction(*((left, 1, other) if count < 0 else (other, 1, left))))
    changed = abs(oxidised.charge - reduced.charge)
    return _with_electrons(right, changed if count > 0 else -changed) if changed else None


def _charge_ignored(made_from: Sequence[Equation], right: Equation) -> Equation | None:
    """No electrons, once the atoms fit; a whole equation so, where neither water nor its ions take part."""
    if electrons_of(right):
        return _without_electrons(right)
    if len(made_from) != 2 or any(term.species.bare in MEDIUM for each in made_from for term in (*each.left, *each.right)):
        return None
    return _added_as_they_stand(made_from, right)


def _protons_kept(_made_from: Sequence[Equation], right: Equation) -> Equation | None:
    """The equation as in acid, though the solution is a base: hydrogen ions in place of the hydroxide ions."""
    acid = to_acid(right)
    return None if acid == right else acid


def _added_as_they_stand(made_from: Sequence[Equation], _right: Equation) -> Equation | None:
    """Two half-equations added, neither multiplied; the electrons crossed out whether or not they are as many."""
    return _without_electrons(_sum(made_from)) if len(made_from) == 2 else None


def _electrons_left_over(made_from: Sequence[Equation], _right: Equation) -> Equation | None:
    """Two half-equations added, neither multiplied; the electrons that remain are written down."""
    summed = _sum(made_from) if len(made_from) == 2 else None
    return summed if summed is not None and electrons_of(summed) else None


def _sum(made_from: Sequence[Equation]) -> Equation:
    first, second = made_from
    return lowest(cancel((*first.left, *second.left), (*first.right, *second.right)))[0]


RESHAPES: Mapping[str, Reshape] = {
    "reversed": _reversed,
    "electrons on the other side": _other_side,
    "electrons by the charge of the species": _by_charge,
    "charge ignored": _charge_ignored,
    "hydrogen ions kept": _protons_kept,
    "added as they stand": _added_as_they_stand,
    "electrons left over": _electrons_left_over,
}


def reshaped(name: str, made_from: Sequence[Equation], right: Equation) -> Equation | None:
    """The equation that an error of this name makes; ``None`` where it makes none, or one with an empty side."""
    found = RESHAPES[name](made_from, right)
    return found if found is not None and found.left and found.right else None
