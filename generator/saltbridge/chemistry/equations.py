"""Equations: whole numbers of species on two sides, read, checked for balance and put together from half-reactions."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import gcd
from typing import NamedTuple

from saltbridge.chemistry.species import LARGEST_COUNT, Species, parse_species
from saltbridge.faults import Fault, Faulty, fault

LONGEST = 400
MOST_TERMS = 12

_ARROW = re.compile(r"\s*(?:<=>|<->|->|→|⟶|⇌|⇄|=)\s*")
_PLUS = re.compile(r"\s+\+\s+")
_TERM = re.compile(r"([0-9]*)\s*(.*)", re.DOTALL)


class Term(NamedTuple):
    """A whole number of one species."""

    coefficient: int
    species: Species

    @property
    def text(self) -> str:
        """``2Ag^+``; a space stands before an electron: ``2 e-``."""
        gap = " " if self.species.is_electron else ""
        return (f"{self.coefficient}{gap}" if self.coefficient != 1 else "") + self.species.text


@dataclass(frozen=True, slots=True)
class Equation:
    """A chemical equation; balanced or not, see ``imbalance``."""

    left: tuple[Term, ...]
    right: tuple[Term, ...]

    @property
    def text(self) -> str:
        """Plain text with phases where told: ``2Ag^+(aq) + Zn(s) -> 2Ag(s) + Zn^2+(aq)``."""
        return " -> ".join(" + ".join(term.text for term in side) for side in (self.left, self.right))

    @property
    def bare(self) -> Equation:
        """The same equation without phases."""
        return Equation(
            *(tuple(Term(count, species.in_phase("")) for count, species in side) for side in (self.left, self.right))
        )

    def reverse(self) -> Equation:
        """Left and right changed over."""
        return Equation(self.right, self.left)


@lru_cache(maxsize=2048)
def parse_equation(text: str) -> Equation:
    """Read ``2Ag^+ + Zn -> 2Ag + Zn^2+``. Raises ``Faulty`` with every term that can't be read; does not ask for balance."""
    if len(text) > LONGEST:
        raise fault("equation-too-long", expected=f"an equation of at most {LONGEST} characters", found=f"{len(text)} characters")
    sides = _ARROW.split(text.strip())
    if len(sides) != 2 or not all(sides):
        raise fault(
            "equation-unread",
            expected="two sides with one arrow between",
            found=repr(text),
            hint="Write for example: Zn + 2Ag^+ -> Zn^2+ + 2Ag.",
        )
    faults: list[Fault] = []
    left, right = (_read_side(side, faults) for side in sides)
    if faults:
        raise Faulty(faults)
    return Equation(left, right)


def _read_side(side: str, faults: list[Fault]) -> tuple[Term, ...]:
    pieces = _PLUS.split(side)
    if len(pieces) > MOST_TERMS:
        faults.append(Fault("equation-too-long", f"at most {MOST_TERMS} species on a side", f"{len(pieces)}"))
        return ()
    terms: list[Term] = []
    for piece in pieces:
        try:
            terms.append(parse_term(piece))
        except Faulty as problem:
            faults.extend(problem.faults)
    return tuple(terms)


def parse_term(text: str) -> Term:
    """Read ``2Ag^+`` or ``2 e-``. Raises ``Faulty``."""
    match = _TERM.fullmatch(text.strip())
    figures, rest = (match[1], match[2]) if match else ("", text)
    if rest.startswith("/"):
        raise fault(
            "coefficient-not-whole",
            expected="whole numbers before the species",
            found=repr(text),
            hint="Multiply the whole equation.",
        )
    if figures.startswith("0") or len(figures) > len(str(LARGEST_COUNT)):
        raise fault("coefficient-unread", expected=f"a whole number from 1 to {LARGEST_COUNT}", found=repr(text))
    try:
        species = parse_species(rest)
    except Faulty as problem:
        if re.search(r"[+]\S", rest) and "charge-unclear" not in {each.code for each in problem.faults}:
            raise fault("plus-needs-spaces", expected="spaces around the + between species", found=repr(text)) from problem
        raise
    return Term(int(figures or "1"), species)


def totals(side: tuple[Term, ...]) -> dict[str, int]:
    """Atoms by element and ``charge`` of one side."""
    sums = {"charge": 0}
    for coefficient, species in side:
        sums["charge"] += coefficient * species.charge
        for symbol, count in species.atoms:
            sums[symbol] = sums.get(symbol, 0) + coefficient * count
    return sums


def imbalance(equation: Equation) -> dict[str, tuple[int, int]]:
    """Tell what differs, element or ``charge`` → (left, right); empty for a balanced equation."""
    left, right = totals(equation.left), totals(equation.right)
    names = [*left, *(name for name in right if name not in left)]
    return {name: (left.get(name, 0), right.get(name, 0)) for name in names if left.get(name, 0) != right.get(name, 0)}


def tell_imbalance(differences: dict[str, tuple[int, int]]) -> str:
    """``3 O on the left and 4 on the right, charge +1 on the left and +2 on the right``."""
    return "; ".join(
        f"charge {left:+d} on the left and {right:+d} on the right"
        if name == "charge"
        else f"{left} {name} on the left and {right} on the right"
        for name, (left, right) in sorted(differences.items(), key=lambda item: item[0] == "charge")
    )


def require_balance(equation: Equation) -> None:
    """Raise ``Faulty`` with code ``unbalanced`` unless atoms and charge agree."""
    if differences := imbalance(equation):
        raise fault(
            "unbalanced",
            expected="the same atoms and charge on both sides",
            found=f"{tell_imbalance(differences)} in {equation.text!r}",
        )


def lowest(equation: Equation, electrons: int = 0) -> tuple[Equation, int]:
    """Give the equation in lowest whole numbers and what it was divided by; ``electrons`` passed for it stay whole too."""
    shared = gcd(electrons, *(term.coefficient for term in (*equation.left, *equation.right)))
    if shared <= 1:
        return equation, 1
    return Equation(
        *(tuple(Term(count // shared, species) for count, species in side) for side in (equation.left, equation.right))
    ), shared


def times(side: tuple[Term, ...], factor: int) -> tuple[Term, ...]:
    """Every coefficient multiplied."""
    return tuple(Term(coefficient * factor, species) for coefficient, species in side)


def cancel(left: tuple[Term, ...], right: tuple[Term, ...]) -> Equation:
    """Add up equal species on each side and take away what stands on both; order of first appearance is kept."""
    amounts = [_gather(side) for side in (left, right)]
    sides: list[tuple[Term, ...]] = []
    for mine, other in (amounts, amounts[::-1]):
        sides.append(
            tuple(
                Term(count - other.get(species, 0), species) for species, count in mine.items() if count > other.get(species, 0)
            )
        )
    return Equation(sides[0], sides[1])


def multiple_of(one: Equation, other: Equation) -> Fraction | None:
    """By which factor ``one`` is ``other``, whatever the order and phases: 2 doubled, -1 the other way round; else ``None``."""
    mine, theirs = (_counts(each) for each in (one, other))
    if mine.keys() != theirs.keys() or not mine:
        return None
    factors = {Fraction(count, theirs[name]) for name, count in mine.items()}
    return factors.pop() if len(factors) == 1 else None


def _counts(equation: Equation) -> dict[object, int]:
    """What is made less what is used up, by atoms and charge; what stands on both sides alike counts nothing."""
    sums: dict[object, int] = {}
    for sign, side in ((-1, equation.left), (1, equation.right)):
        for coefficient, species in side:
            sums[species.contents] = sums.get(species.contents, 0) + sign * coefficient
    return {name: count for name, count in sums.items() if count}


def _gather(side: tuple[Term, ...]) -> dict[Species, int]:
    sums: dict[Species, int] = {}
    for coefficient, species in side:
        sums[species] = sums.get(species, 0) + coefficient
    return sums
