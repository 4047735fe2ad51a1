"""What the parts that ask for a diagram or an expression add to a drawn scene."""

from __future__ import annotations

from saltbridge.bank.template import Template
from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.draw.drawn_species import deciders
from saltbridge.graph.laws import Balance, Situation
from saltbridge.graph.planner import reachable
from saltbridge.scenarios.equation_laws import EQUATION, FACTOR, WAY
from saltbridge.scenarios.notation_laws import DIAGRAM, EXPRESSION, add_diagram, add_expression
from saltbridge.scenarios.scene import Scene


def add_notations(template: Template, scene: Scene, catalogue: Catalogue) -> None:
    """The laws of what is to be written down, where the scene has a cell or an equation; else the part tells what is wrong."""
    kinds = {type(part) for part in template.parts}
    if DiagramPart in kinds and scene.cell is not None:
        add_diagram(scene.situation, catalogue, scene.cell)
    if ExpressionPart in kinds and EQUATION in _made(scene.situation):
        add_expression(scene.situation, catalogue)


def noted_nodes(template: Template, situation: Situation) -> list[str]:
    """The nodes of what is to be written down, by which power of it a student's own equation has it, and what decides a species."""
    there = _made(situation)
    asked = [node for node in (DIAGRAM, EXPRESSION) if node in there]
    species = [part for part in template.parts if isinstance(part, SpeciesPart)]
    found = reachable(situation) if species else ()
    asked += [node for part in species for node in deciders(part) if node in found]
    return [*asked, *(node for node in (WAY, FACTOR) if EXPRESSION in there and node in there | situation.given.keys())]


def _made(situation: Situation) -> set[str]:
    return {law.node for law in situation.laws if isinstance(law, Balance)}
