"""What is written down of a scenario as nodes: the diagram of its cell, by the anode; the expression for Q, by its equation."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import GalvanicCell, swap
from saltbridge.chemistry.written_diagrams import written_diagram
from saltbridge.graph.laws import Given, Situation, balance
from saltbridge.scenarios.equation_laws import EQUATION

DIAGRAM = "written.diagram"
"""The diagram with the anode on the left."""
EXPRESSION = "written.expression"
"""The expression for Q of the equation."""
STATES = "written.states"
_SIDES = {"left": "written.left", "right": "written.right"}
"""The diagram for each side that may be the anode, with the numbers of its reaction."""


def add_diagram(situation: Situation, catalogue: Catalogue, cell: GalvanicCell) -> None:
    """The diagram of a cell as the choice of its anode has it; each is told with the numbers of its reaction."""
    for side, written in (("left", cell), ("right", swap(cell))):
        text = written_diagram(written, counted=True).text
        situation.given[_SIDES[side]] = Given(text, "", text, "balance")
    situation.laws.append(balance(catalogue, "cell-diagram", DIAGRAM, ("anode", *_SIDES.values()), tuple(_SIDES)))


def add_expression(situation: Situation, catalogue: Catalogue) -> None:
    """The expression for Q of the equation, whichever the student has; the states of its species are those of the half-reactions."""
    states = ", ".join(f"{species}({state})" for species, state in situation.states.items() if state)
    situation.given[STATES] = Given(states, "", states, "balance")
    situation.laws.append(balance(catalogue, "expression", EXPRESSION, (EQUATION, STATES)))
