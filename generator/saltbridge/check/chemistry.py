"""Formulas and equations of the independent route: its own small reader, atom count, molar mass and quotient.

Reads the notation of the project (``Cr2O7^2-``, ``[Ag(NH3)2]^+``, ``CuSO4·5H2O``, ``Zn^2+(aq)``, ``e-``) in a few lines
that share nothing with the chemistry room, so that a slip in one shows against the other.
"""

from __future__ import annotations

import re
from collections import Counter
from math import prod
from typing import TYPE_CHECKING

from saltbridge.faults import fault
from saltbridge.tables import elements

if TYPE_CHECKING:
    from collections.abc import Mapping

CHARGE = "charge"
_PHASE = re.compile(r"\((s|l|g|aq)\)$")
_CHARGE = re.compile(r"(?:\^(\d*))?([+-])$")
_TOKEN = re.compile(r"([A-Z][a-z]?)(\d*)|([(\[])|[)\]](\d*)")
_ARROW = re.compile(r"\s*(?:<=>|->|→|⇌|=)\s*")
_TERM = re.compile(r"^(\d*)\s*(?=\S)(.+)$")


def count(formula: str) -> Counter[str]:
    """Count the atoms of a formula, and its charge under ``charge``; raises ``Faulty`` where it can't be read."""
    bare = _PHASE.sub("", formula.strip())
    sign = _CHARGE.search(bare)
    counts: Counter[str] = Counter()
    if sign:
        counts[CHARGE] = int(sign[1] or 1) * (1 if sign[2] == "+" else -1)
        bare = bare[: sign.start()]
    if bare == "e":
        return counts
    for part in re.split(r"[·*.]", bare):
        times = re.match(r"\d*", part)
        head = times[0] if times else ""
        for symbol, number in _atoms(part[len(head) :], formula).items():
            counts[symbol] += number * int(head or 1)
    return counts


def _atoms(text: str, whole: str) -> Counter[str]:
    """Atoms of a formula without charge or phase; brackets are kept on a stack."""
    stack: list[Counter[str]] = [Counter()]
    at = 0
    while token := _TOKEN.match(text, at):
        symbol, number, opening, times = token.groups()
        if symbol:
            stack[-1][symbol] += int(number or 1)
        elif opening:
            stack.append(Counter())
        elif len(stack) > 1:
            inner = stack.pop()
            for name, atoms in inner.items():
                stack[-1][name] += atoms * int(times or 1)
        else:
            break
        at = token.end()
    if at != len(text) or len(stack) != 1 or not text:
        raise fault("unreadable-formula", expected="a formula such as Cr2O7^2-", found=repr(whole))
    return stack[0]


def molar_mass(formula: str, masses: Mapping[str, float | str] | None = None) -> float:
    """Give the molar mass in g/mol from relative atomic masses (default: the IUPAC table shipped with the tool).

    Raises ``Faulty`` for an unreadable formula or an element without a mass.
    """
    table: Mapping[str, float | str] = masses if masses is not None else {s: e.weight for s, e in elements().items()}
    atoms = {symbol: number for symbol, number in count(formula).items() if symbol != CHARGE}
    missing = sorted(set(atoms) - set(table))
    if missing:
        raise fault("unknown-mass", expected="elements with a relative atomic mass", found=", ".join(missing))
    return sum(number * float(table[symbol]) for symbol, number in atoms.items())


def sides(equation: str) -> tuple[list[tuple[int, str]], list[tuple[int, str]]]:
    """Split an equation into (coefficient, formula) on its left and right; raises ``Faulty`` where it isn't one."""
    halves = _ARROW.split(equation)
    if len(halves) != 2:
        raise fault("unreadable-equation", expected="left -> right", found=repr(equation))
    left, right = (_terms(half, equation) for half in halves)
    return left, right


def _terms(half: str, equation: str) -> list[tuple[int, str]]:
    found = []
    for text in re.split(r"\s+\+\s+", half.strip()):
        term = _TERM.match(text.strip())
        if not term:
            raise fault("unreadable-equation", expected="terms joined by ' + '", found=repr(equation))
        found.append((int(term[1] or 1), term[2].strip()))
    return found


def imbalance(equation: str) -> dict[str, int]:
    """Give what is too much on the right of an equation (below zero: on the left), atoms and charge; empty if balanced."""
    left, right = sides(equation)
    surplus: Counter[str] = Counter()
    for sign, terms in ((-1, left), (1, right)):
        for times, formula in terms:
            for name, number in count(formula).items():
                surplus[name] += sign * times * number
    return {name: number for name, number in surplus.items() if number}


def electrons_moved(half_equation: str) -> int:
    """Give the number of electrons on the one side of a half-equation that has them; raises ``Faulty`` if none has."""
    found = [times for terms in sides(half_equation) for times, formula in terms if formula in {"e-", "e^-"}]
    if len(found) != 1:
        raise fault("no-electrons", expected="e- on one side of the half-equation", found=repr(half_equation))
    return found[0]


def quotient(equation: str, activities: Mapping[str, float]) -> float:
    """Give the reaction quotient of an equation as written: products over reactants, each to its coefficient.

    ``activities`` are by formula without phase (mol/L for solutes, bar for gases); what isn't named counts as 1, as pure
    solids, liquids, water and electrons do. Source: Gold Book R05293 (reaction quotient; entry from memory).
    """
    left, right = sides(equation)
    powers = [(formula, times) for times, formula in right] + [(formula, -times) for times, formula in left]
    return prod(activities.get(_PHASE.sub("", formula), 1.0) ** power for formula, power in powers)


_USUAL = {"O": -2, "H": 1, "F": -1, "Cl": -1}
"""Oxidation numbers of the other element of a species, as taught at school; common practice, no source."""


def oxidation_numbers(formula: str, element: str) -> tuple[float, float]:
    """Give the oxidation number of an element in a species, and what all other atoms add up to.

    Raises ``KeyError`` for a partner whose usual number is not in the list.
    """
    atoms = count(formula)
    charge = atoms.pop(CHARGE, 0)
    rest = sum(number * _USUAL[symbol] for symbol, number in atoms.items() if symbol != element)
    return (charge - rest) / atoms[element], float(rest)
