"""The expression for Q or K as it is written, right or wrong: concentrations and pressures with their powers above and below the line.

quotient = side [ "/" side ]             (a side of several factors below the line, or of a sum, in brackets)
side     = "1" | factor { "·" factor } | factor { " + " factor }
factor   = [count] ( "[" species "]" | "p(" species ")" ) [ "^" power ]
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from saltbridge.chemistry.cells import has_activity, usual_phase
from saltbridge.chemistry.equations import Equation, Term
from saltbridge.chemistry.species import Phase, Species, parse_species
from saltbridge.faults import fault

TIMES, PLUS = "·", " + "
LONGEST = 400
_FACTOR = re.compile(r"([0-9]{0,3})(?:\[(.+)\]|p\((.+)\))(?:\^([0-9]{1,3}))?")


class Factor(NamedTuple):
    """The concentration of a dissolved species or the pressure of a gas to a power; ``times``: a number that stands before it."""

    species: Species
    power: int = 1
    times: int = 1

    @property
    def text(self) -> str:
        """``[Ag^+]^2``, ``p(H2)``."""
        held = f"p({self.species.bare})" if self.species.phase == "g" else f"[{self.species.bare}]"
        return (str(self.times) if self.times != 1 else "") + held + (f"^{self.power}" if self.power != 1 else "")


@dataclass(frozen=True, slots=True)
class Quotient:
    """Factors above and below the line; ``sign`` joins those of a side, rightly ``·``."""

    above: tuple[Factor, ...]
    below: tuple[Factor, ...]
    sign: str = TIMES

    @property
    def text(self) -> str:
        """Plain text, read back by ``parse_quotient``."""
        above, below = (self.sign.join(factor.text for factor in side) for side in (self.above, self.below))
        if self.sign == PLUS and len(self.above) > 1 and below:
            above = f"({above})"
        if len(self.below) > 1 or any(factor.times != 1 for factor in self.below):
            below = f"({below})"
        return f"{above or '1'}/{below}" if below else above or "1"


@lru_cache(maxsize=1024)
def parse_quotient(text: str) -> Quotient:
    """Read an expression as ``Quotient.text`` prints it. Raises ``Faulty``."""
    above, _, below = text.partition("/") if len(text) <= LONGEST else ("", "", "")
    sign = PLUS if PLUS in text else TIMES
    return Quotient(_side(above, sign), _side(below, sign), sign)


def _side(text: str, sign: str) -> tuple[Factor, ...]:
    plain = text[1:-1] if text.startswith("(") else text
    return tuple(_factor(piece) for piece in plain.split(sign)) if plain not in {"", "1"} else ()


def _factor(text: str) -> Factor:
    match = _FACTOR.fullmatch(text)
    if not match:
        raise fault("expression-unread", expected="factors such as [Zn^2+]^2 and p(H2)", found=repr(text[:40]))
    times, dissolved, gas, power = match.groups()
    species = parse_species(gas).in_phase("g") if gas else parse_species(dissolved)
    return Factor(species, int(power or "1"), int(times or "1"))


# ------------------------------------------------------------------ of an equation, rightly and wrongly


def with_states(equation: Equation, known: Mapping[str, Phase]) -> Equation:
    """The equation with the states known of its species, else the usual ones. Raises ``Faulty`` (``phase-needed``) where one is unclear."""

    def named(term: Term) -> Term:
        species = term.species
        if species.is_electron:
            return term
        return term._replace(species=species.in_phase(known.get(species.bare) or usual_phase(species)))

    return Equation(tuple(map(named, equation.left)), tuple(map(named, equation.right)))


def quotient_of(equation: Equation) -> Quotient:
    """Products above, reactants below, each to its coefficient; solids, pure liquids, water and electrons left out.

    Raises ``Faulty`` for a species without its state.
    """
    return Quotient(_active(equation.right), _active(equation.left))


def _active(terms: tuple[Term, ...]) -> tuple[Factor, ...]:
    return tuple(Factor(species, count) for count, species in terms if has_activity(species))


def left_out(equation: Equation) -> tuple[Species, ...]:
    """The species of an equation that do not stand in its Q."""
    terms = (*equation.left, *equation.right)
    return tuple(dict.fromkeys(term.species for term in terms if not term.species.is_electron and not has_activity(term.species)))


Reshape = Callable[[Equation], "Quotient | None"]


def _upside_down(equation: Equation) -> Quotient:
    """Reactants above, products below."""
    return quotient_of(equation.reverse())


def _without_powers(equation: Equation) -> Quotient:
    """Every factor once."""
    return _each(quotient_of(equation), lambda factor: factor._replace(power=1))


def _solids_kept(equation: Equation) -> Quotient:
    """Solids, liquids and water with a concentration of their own."""
    return Quotient(_all(equation.right), _all(equation.left))


def _all(terms: tuple[Term, ...]) -> tuple[Factor, ...]:
    return tuple(Factor(species, count) for count, species in terms if not species.is_electron)


def _numbers_as_factors(equation: Equation) -> Quotient:
    """The coefficients before the concentrations in place of powers."""
    return _each(quotient_of(equation), lambda factor: Factor(factor.species, 1, factor.power))


def _added(equation: Equation) -> Quotient | None:
    """A sum where a product belongs."""
    right = quotient_of(equation)
    return replace(right, sign=PLUS) if max(len(right.above), len(right.below)) > 1 else None


def _each(quotient: Quotient, change: Callable[[Factor], Factor]) -> Quotient:
    return Quotient(tuple(map(change, quotient.above)), tuple(map(change, quotient.below)))


QUOTIENT_RESHAPES: Mapping[str, Reshape] = {
    "upside down": _upside_down,
    "powers left out": _without_powers,
    "solids kept": _solids_kept,
    "numbers as factors": _numbers_as_factors,
    "sums for products": _added,
}
"""Ways in which the expression for Q is written wrong, each from the equation with its states."""
