"""The half-reaction method step by step: what stands after atoms, oxygen, hydrogen, charge, and the change to a base."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from saltbridge.chemistry.equations import Equation, Term
from saltbridge.chemistry.half_reactions import HYDROGEN_ION, HYDROXIDE, WATER, HalfReaction, combine
from saltbridge.chemistry.species import Species


@dataclass(frozen=True, slots=True)
class HalfStep:
    """One step: ``atoms``, ``oxygen``, ``hydrogen``, ``electrons`` or ``base``, and the half-equation after it."""

    name: str
    equation: Equation


_LENT_LATER = {"atoms": {WATER, HYDROGEN_ION, HYDROXIDE, "e-"}, "oxygen": {HYDROGEN_ION, HYDROXIDE, "e-"}, "hydrogen": {"e-"}}


def half_steps(in_acid: HalfReaction, half: HalfReaction, *, oxidation: bool) -> tuple[HalfStep, ...]:
    """The steps to a half-equation that change something; ``in_acid`` is the same half balanced with H⁺.

    The last step is always the whole half-equation: ``electrons``, or ``base`` where OH⁻ took the place of H⁺.
    """
    whole = written(in_acid, oxidation=oxidation)
    found: list[HalfStep] = []
    for name, later in _LENT_LATER.items():
        equation = Equation(*(_without(side, later) for side in (whole.left, whole.right)))
        if equation.left and equation.right and (not found or equation != found[-1].equation):
            found.append(HalfStep(name, equation))
    found.append(HalfStep("electrons", whole))
    if half != in_acid:
        found.append(HalfStep("base", written(half, oxidation=oxidation)))
    return tuple(found)


def written(half: HalfReaction, *, oxidation: bool) -> Equation:
    """A half-reaction as it is written for an oxidation or a reduction, without phases."""
    return (half.oxidation if oxidation else half.reduction).bare


def _without(side: tuple[Term, ...], names: set[str]) -> tuple[Term, ...]:
    kept = tuple(term for term in side if term.species.bare not in names)
    return kept or tuple(term for term in side if term.species.bare == WATER and "e-" in names and len(names) == 1)


# ------------------------------------------------------------------ usual wrong equations


def wrong_halves(
    half: HalfReaction, in_acid: HalfReaction, charge_change: int, *, oxidation: bool
) -> Iterator[tuple[str, Equation]]:
    """(slip, wrong half-equation): electrons on the wrong side, electrons counted by charge, H⁺ left in a base."""
    right = written(half, oxidation=oxidation)
    electrons = tuple(term for term in (*right.left, *right.right) if term.species.is_electron)
    left, others = _bare_sides(right)
    if oxidation:
        yield "electrons-on-wrong-side", Equation((*left, *electrons), others)
    else:
        yield "electrons-on-wrong-side", Equation(left, (*others, *electrons))
    if charge_change and charge_change != half.n:
        wrong = (Term(charge_change, electrons[0].species),)
        yield (
            "charge-change-counts-electrons",
            Equation(left, (*others, *wrong)) if oxidation else Equation((*left, *wrong), others),
        )
    yield "atoms-balanced-charge-ignored", Equation(left, others)
    if half != in_acid:
        yield "acid-particles-in-base", written(in_acid, oxidation=oxidation)


def wrong_equations(
    halves: tuple[HalfReaction, HalfReaction], in_acid: tuple[HalfReaction, HalfReaction], charge_changes: tuple[int, int]
) -> Iterator[tuple[str, Equation]]:
    """(slip, wrong equation) of a reduction joined to an oxidation: added as they stand, electrons by charge, H⁺ in a base."""
    reduction, oxidation = halves
    added = _sum(reduction, oxidation, 1, 1)
    yield "electrons-left-unbalanced", added
    if not any(species.bare in {HYDROGEN_ION, HYDROXIDE, WATER} for half in halves for species in half.species):
        yield "atoms-balanced-charge-ignored", added
    first, second = charge_changes
    if first and second:
        yield "charge-change-counts-electrons", _sum(reduction, oxidation, second, first)
    if halves != in_acid:
        yield "acid-particles-in-base", combine(*in_acid).equation.bare


def _sum(reduction: HalfReaction, oxidation: HalfReaction, forward: int, backward: int) -> Equation:
    """The two halves taken so many times and added, electrons crossed out whether or not they are as many."""
    one = HalfReaction(_times(reduction.oxidised, forward), 1, _times(reduction.reduced, forward))
    other = HalfReaction(_times(oxidation.oxidised, backward), 1, _times(oxidation.reduced, backward))
    return combine(one, other).equation.bare


def _times(side: tuple[Term, ...], factor: int) -> tuple[Term, ...]:
    return tuple(Term(count * factor, species) for count, species in side)


def _bare_sides(equation: Equation) -> tuple[tuple[Term, ...], tuple[Term, ...]]:
    left, right = (tuple(term for term in side if not term.species.is_electron) for side in (equation.left, equation.right))
    return left, right


def principal_pair(half: HalfReaction) -> tuple[Species, Species]:
    """The oxidised and the reduced species, without phases."""
    oxidised, reduced = half.principal
    return oxidised.in_phase(""), reduced.in_phase("")
