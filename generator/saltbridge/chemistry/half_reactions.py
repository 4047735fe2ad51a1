"""Half-reactions, written as reductions, and the cell equation two of them make."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import lcm

from saltbridge.chemistry.equations import Equation, Term, cancel, lowest, parse_equation, require_balance, times
from saltbridge.chemistry.species import ELECTRON, Species, parse_species
from saltbridge.faults import fault
from saltbridge.tables.kinds import non_metals

HYDROGEN_ION = "H^+"
HYDROXIDE = "OH^-"
WATER = "H2O"
MEDIUM = frozenset({HYDROGEN_ION, HYDROXIDE, WATER})
"""Species that a solution lends to a half-reaction."""


@dataclass(frozen=True, slots=True)
class HalfReaction:
    """``oxidised`` + n e⁻ → ``reduced``; neither side lists the electrons."""

    oxidised: tuple[Term, ...]
    n: int
    reduced: tuple[Term, ...]

    @property
    def reduction(self) -> Equation:
        """Electrons on the left."""
        return Equation((*self.oxidised, Term(self.n, ELECTRON)), self.reduced)

    @property
    def oxidation(self) -> Equation:
        """Electrons on the right, at the end."""
        return Equation(self.reduced, (*self.oxidised, Term(self.n, ELECTRON)))

    @property
    def text(self) -> str:
        """``Zn^2+(aq) + 2 e- -> Zn(s)``."""
        return self.reduction.text

    @property
    def species(self) -> tuple[Species, ...]:
        """All species, oxidised side first, without the electron."""
        return tuple(term.species for term in (*self.oxidised, *self.reduced))

    @property
    def principal(self) -> tuple[Species, Species]:
        """The oxidised and the reduced species that name the couple."""
        oxidised, reduced = (_naming([term.species for term in side]) for side in (self.oxidised, self.reduced))
        for one in oxidised:
            for other in reduced:
                if _heart(one) & _heart(other):
                    return one, other
        return oxidised[0], reduced[0]

    @property
    def couple_label(self) -> str:
        """``Zn^2+/Zn``."""
        return "/".join(species.bare for species in self.principal)


def _naming(side: list[Species]) -> list[Species]:
    """List the species of a side that may name the couple: not those of the medium, unless there is nothing else."""
    own = [species for species in side if species.bare not in MEDIUM]
    return own or sorted(side, key=lambda species: species.bare == WATER)


def _heart(species: Species) -> set[str]:
    """Find the elements other than hydrogen and oxygen."""
    return {symbol for symbol, _ in species.atoms} - {"H", "O"}


@lru_cache(maxsize=1024)
def parse_half_reaction(text: str) -> HalfReaction:
    """Read a reduction such as ``Zn^2+(aq) + 2 e- -> Zn(s)``.

    Raises ``Faulty``: ``unbalanced`` tells atoms and charge of each side, ``written-as-oxidation`` electrons on the
    right, ``no-electrons`` none at all.
    """
    equation = parse_equation(text)
    electrons = sum(term.coefficient for term in equation.left if term.species.is_electron)
    if any(term.species.is_electron for term in equation.right):
        raise fault(
            "written-as-oxidation",
            expected="a reduction, electrons on the left",
            found=repr(text),
            hint=f"Write {equation.reverse().text}.",
        )
    if not electrons:
        raise fault(
            "no-electrons", expected="electrons on the left of a half-reaction", found=repr(text), hint="Write them as 2 e-."
        )
    oxidised = tuple(term for term in equation.left if not term.species.is_electron)
    if not oxidised:
        raise fault("equation-unread", expected="an oxidised species beside the electrons", found=repr(text))
    require_balance(equation)
    return HalfReaction(oxidised, electrons, equation.right)


def electrode(half: HalfReaction) -> Species:
    """Choose the conductor: the metal of the couple itself, else platinum."""
    metals = [species for species in half.species if species.phase in {"s", "l"} and is_metal(species)]
    return metals[-1] if metals else parse_species("Pt(s)")


def is_metal(species: Species) -> bool:
    """Whether this is a metallic element, uncharged: one atom, and not one of the non-metals."""
    return (
        species.charge == 0 and len(species.atoms) == 1 and species.atoms[0][1] == 1 and species.atoms[0][0] not in non_metals()
    )


@dataclass(frozen=True, slots=True)
class Combined:
    """A cell equation in lowest whole numbers.

    ``n`` electrons pass for the equation as written. The halves were taken ``cathode_times`` and ``anode_times``, added,
    and the sum divided by ``divided_by`` (almost always 1).
    """

    equation: Equation
    n: int
    cathode_times: int
    anode_times: int
    divided_by: int = 1


@lru_cache(maxsize=4096)
def combine(cathode: HalfReaction, anode: HalfReaction) -> Combined:
    """Reduction of ``cathode`` with the oxidation of ``anode``; species on both sides cancel.

    Where both are the same half-reaction (a concentration cell) nothing cancels.
    """
    n = lcm(cathode.n, anode.n)
    forward, backward = n // cathode.n, n // anode.n
    left = (*times(cathode.oxidised, forward), *times(anode.reduced, backward))
    right = (*times(cathode.reduced, forward), *times(anode.oxidised, backward))
    if cathode == anode:
        return Combined(Equation(left, right), n, 1, 1)
    equation, shared = lowest(cancel(*_agree_on_phases(left, right)), n)
    return Combined(equation, n // shared, forward, backward, shared)


def _agree_on_phases(left: tuple[Term, ...], right: tuple[Term, ...]) -> tuple[tuple[Term, ...], tuple[Term, ...]]:
    """Give a species without phase the phase it has elsewhere in the equation, so that the two cancel."""
    known = {term.species.bare: term.species.phase for term in (*left, *right) if term.species.phase}
    first, second = (
        tuple(Term(count, species if species.phase else species.in_phase(known.get(species.bare, ""))) for count, species in side)
        for side in (left, right)
    )
    return first, second
