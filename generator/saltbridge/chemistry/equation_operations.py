"""The closed list of operations that make an equation: of half-equations as they happen, step by step, and two of them joined."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from math import lcm

from saltbridge.chemistry.balancing import balance_equation, balance_redox
from saltbridge.chemistry.equations import Equation, Term, cancel, lowest
from saltbridge.chemistry.half_reactions import HalfReaction, combine
from saltbridge.chemistry.half_steps import STEPS, Step
from saltbridge.chemistry.reshaping import electrons_of
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty, fault

Operation = Callable[[Sequence[Equation]], Equation]
_WATER = parse_species("H2O(l)")
_JOINED = frozenset({"H^+", "OH^-"})


def half_of(equation: Equation) -> HalfReaction:
    """The half-reaction of a half-equation written either way, balanced or not. Raises ``Faulty`` (code ``no-electrons``)."""
    count = electrons_of(equation)
    if not count:
        raise fault("no-electrons", expected="a half-equation with electrons on one side", found=equation.text)
    sides = [tuple(term for term in side if not term.species.is_electron) for side in (equation.left, equation.right)]
    return HalfReaction(sides[0], -count, sides[1]) if count < 0 else HalfReaction(sides[1], count, sides[0])


def multipliers(reduction: Equation, oxidation: Equation) -> tuple[int, int]:
    """How often each half-equation is taken so that the electrons cancel. Raises ``Faulty`` as ``half_of`` does."""
    taken, given = half_of(reduction).n, half_of(oxidation).n
    both = lcm(taken, given)
    return both // taken, both // given


def as_reduction(made_from: Sequence[Equation]) -> Equation:
    """A half-equation with its electrons on the left."""
    return half_of(made_from[0]).reduction


def as_oxidation(made_from: Sequence[Equation]) -> Equation:
    """A half-equation with its electrons on the right."""
    return half_of(made_from[0]).oxidation


def added(made_from: Sequence[Equation]) -> Equation:
    """A reduction and an oxidation, each taken so often that the electrons cancel, added in lowest whole numbers.

    Two that both stand the other way round add up to the reaction the other way round.
    """
    reduction, oxidation = made_from
    if electrons_of(reduction) > 0 > electrons_of(oxidation):
        reduction, oxidation = oxidation, reduction
    if electrons_of(reduction) > 0 or electrons_of(oxidation) < 0:
        raise fault("no-redox", expected="a reduction and an oxidation", found=f"{reduction.text} and {oxidation.text}")
    return combine(half_of(reduction), half_of(oxidation)).equation


def added_in_one_bath(made_from: Sequence[Equation]) -> Equation:
    """The same, hydrogen and hydroxide ions of one side joined to water."""
    equation = added(made_from)
    same = half_of(made_from[0]) == half_of(made_from[1])
    return equation if same else neutralised(equation)


def turned_round(made_from: Sequence[Equation]) -> Equation:
    """The equation the other way round, as a charging current drives it."""
    return made_from[0].reverse()


def neutralised(equation: Equation) -> Equation:
    """The equation with hydrogen and hydroxide ions of one side joined to water, in lowest whole numbers."""
    sides = []
    water = next((term.species for term in (*equation.left, *equation.right) if term.species.bare == _WATER.bare), _WATER)
    for side in (equation.left, equation.right):
        counts = {term.species.bare: term.coefficient for term in side}
        joined = min(counts.get(name, 0) for name in _JOINED)
        made = (Term(joined, water),) if joined else ()
        kept = [Term(count - (joined if species.bare in _JOINED else 0), species) for count, species in (*side, *made)]
        sides.append(tuple(term for term in kept if term.coefficient))
    return lowest(cancel(sides[0], sides[1]))[0]


def whole_in_acid(made_from: Sequence[Equation]) -> Equation:
    """An equation that does not part into two halves: by its own species, else with water and hydrogen ions."""
    return _whole(made_from[0], "acid")


def whole_in_base(made_from: Sequence[Equation]) -> Equation:
    """The same with water and hydroxide ions."""
    return _whole(made_from[0], "base")


def _whole(equation: Equation, medium: str) -> Equation:
    try:
        return balance_equation(equation).bare
    except Faulty:
        return balance_redox(equation.text, "acid" if medium == "acid" else "base").bare


def _stepped(step: Step, made_from: Sequence[Equation]) -> Equation:
    """One step of the half-reaction method."""
    return step(made_from[0])


OPERATIONS: Mapping[str, Operation] = {
    "as reduction": as_reduction,
    "as oxidation": as_oxidation,
    **{name: partial(_stepped, step) for name, step in STEPS.items()},
    "added": added,
    "turned round": turned_round,
    "added in one bath": added_in_one_bath,
    "whole in acid": whole_in_acid,
    "whole in base": whole_in_base,
}
"""Each takes equations and gives one; raises ``Faulty`` where it can't."""
COUNTING = ("direction", "counted")
"""Operations that give a number: 1 or -1 by the way a reaction runs, and what is counted from an equation."""
