"""Equations as nodes: the half-equations at two electrodes, their sum, and what is counted from it."""

from __future__ import annotations

from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.equations import Equation
from saltbridge.graph.laws import Given, Situation, balance
from saltbridge.graph.node_names import Role

EQUATION = "equation"
"""The whole equation of a cell, a bath or a redox reaction."""
EQUATIONS: Mapping[str, str] = {
    "cell equation": EQUATION,
    "equation": EQUATION,
    "cathode half": "half_cathode",
    "anode half": "half_anode",
    "reduction half": "half_reduction",
    "oxidation half": "half_oxidation",
    "half-equation": "half_equation",
    "negative plate on charge": "half_negative_charge",
    "positive plate on charge": "half_positive_charge",
    "charging equation": "equation_charge",
}
"""What a template may ask to be balanced, and its node."""
FACTOR = "equation.factor"
"""By which factor the whole equation, as the student wrote it, is a multiple of the one that follows from the choices before it."""
WAY = "equation.way"
"""The same with its sign: -1 where an earlier choice has the reaction run the other way."""
COUNT = "equation.count"
"""The electrons that pass when the right equation runs once."""
INNER = frozenset({FACTOR, WAY, COUNT})
"""Names that no template asks for."""
WRITTEN = "written"
"""The owner of the names of what is to be written down, which no template asks for either."""


def is_inner(name: str) -> bool:
    """Whether a name is none for a template."""
    return name in INNER or name.partition(".")[0] == WRITTEN


def give_equation(situation: Situation, name: str, equation: Equation) -> None:
    """An equation that a step starts from, as text without phases."""
    text = equation.bare.text
    for _, species in (*equation.left, *equation.right):
        situation.states[species.bare] = species.phase
    situation.given[name] = Given(text, "", text)


def add_half(
    situation: Situation, catalogue: Catalogue, role: Role, kind: str, inputs: tuple[str, ...], keys: tuple[str, ...] = ()
) -> None:
    """The half-equation at an electrode, as it happens there; with ``keys`` the first input is the choice that decides."""
    situation.laws.append(balance(catalogue, kind, f"half_{role}", inputs, keys))


def add_sum(situation: Situation, catalogue: Catalogue, kind: str = "cell-equation") -> None:
    """The sum of the two half-equations."""
    situation.laws.append(balance(catalogue, kind, "equation", ("half_cathode", "half_anode")))


def add_electrons(situation: Situation, catalogue: Catalogue, count: int) -> None:
    """The electrons of the equation: so many for the right one, as many times more for a multiple of it."""
    situation.given[COUNT] = Given(float(count), "", str(count), "balance")
    situation.given[FACTOR] = Given(1.0, "", "1", "balance")
    situation.laws.append(balance(catalogue, "electrons-of-equation", "n", (COUNT, FACTOR)))


def add_way(situation: Situation, catalogue: Catalogue, choice: str, right: str, other: str) -> None:
    """In which direction the reaction is written: as it should where the choice comes out ``right``, else the other way round."""
    situation.laws.append(balance(catalogue, "direction", WAY, (choice, FACTOR), (right, other)))
