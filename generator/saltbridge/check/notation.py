"""Diagrams and expressions of the independent route: their own small readers, and what they must hold by a half-equation or an equation.

Sources: IUPAC Green Book, 3rd edition, sections 2.11 and 2.13 (from memory): electrodes at the ends, oxidation on the left; products over
reactants, each to its coefficient, without solids, pure liquids and water.
"""

from __future__ import annotations

import re
from collections import Counter
from typing import TYPE_CHECKING

from saltbridge.check.chemistry import CHARGE, count, sides
from saltbridge.faults import fault
from saltbridge.tables.kinds import usual_phases

if TYPE_CHECKING:
    from collections.abc import Mapping

WATER = "H2O"
_STATE = re.compile(r"\((?:(s|l|g|aq)(?:, [^()]*)?|[0-9][^()]*)\)$")
_POWER = re.compile(r"(\]|\))\^([0-9]+)$")


def bare(species: str) -> str:
    """A species without its state."""
    return _STATE.sub("", species.strip())


def halves_of(diagram: str) -> tuple[list[list[str]], list[list[str]]]:
    """The phases of both half-cells from left to right, species without states. Raises ``Faulty`` where there are not two."""
    halves = diagram.split(" || ")
    if len(halves) != 2:
        raise fault("unreadable-diagram", expected="two half-cells with || between", found=repr(diagram))
    left, right = ([[bare(each) for each in re.split(r", (?![^(]*\))", phase)] for phase in half.split(" | ")] for half in halves)
    return left, right


def fault_of_half(phases: list[list[str]], half_equation: str) -> str:
    """What a half-cell, from its electrode outwards, lacks or has too much by its half-equation; "" where it fits."""
    needed = {bare(formula) for terms in sides(half_equation) for _, formula in terms} - {"e-", "e^-", WATER}
    there = {species for phase in phases for species in phase}
    electrode = phases[0]
    if len(electrode) != 1 or count(electrode[0])[CHARGE] or len(count(electrode[0])) != 1:
        return f"no electrode at the end but {', '.join(electrode)}"
    if missing := sorted(needed - there):
        return f"without {', '.join(missing)}"
    if foreign := sorted(there - needed - set(electrode)):
        return f"with {', '.join(foreign)}"
    return ""


def powers_of(expression: str) -> dict[str, int]:
    """The power of each species in an expression such as ``[Zn^2+]/([Ag^+]^2·p(H2))``, below the line negative."""
    above, _, below = expression.partition("/")
    found: dict[str, int] = {}
    for side, sign in ((above, 1), (below, -1)):
        for factor in side.removeprefix("(").split("·") if side not in {"", "1"} else ():
            power = _POWER.search(factor.removesuffix(")") if factor.count(")") > factor.count("(") else factor)
            body = factor[: power.start(2) - 1] if power else factor
            body = body.removesuffix(")") if body.count(")") > body.count("(") else body
            species = body[1:-1] if body.startswith("[") else body.removeprefix("p(").removesuffix(")")
            found[species] = sign * int(power[2] if power else 1)
    return found


def powers_by(equation: str, states: Mapping[str, str]) -> dict[str, int]:
    """The powers that an equation asks for: ions, and neutral species that ``states``, or the table of usual ones, tell dissolved or gases."""
    left, right = sides(equation)
    found: Counter[str] = Counter()
    for terms, sign in ((right, 1), (left, -1)):
        for times, formula in terms:
            species = bare(formula)
            if species not in {"e-", "e^-", WATER} and (
                count(species)[CHARGE] or (states.get(species) or usual_phases().get(species)) in {"aq", "g"}
            ):
                found[species] += sign * times
    return {species: power for species, power in found.items() if power}
