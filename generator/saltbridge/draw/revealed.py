"""Whether a variant tells a common error from the right answer in a choice, an order or an equation."""

from __future__ import annotations

from functools import partial

from saltbridge.bank.parts import AnyPart, BalancePart, ChoosePart, OrderPart, WhichPart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_ideas import offers
from saltbridge.draw.drawn_orders import node_of
from saltbridge.draw.equation_forms import wrong_forms
from saltbridge.graph.laws import Undefined
from saltbridge.graph.solved import points_of
from saltbridge.scenarios.equation_laws import EQUATIONS


def reveals(template: Template, drawn: Drawn, catalogue: Catalogue, slip: str) -> bool:
    """Whether some part that is no number tells the slip."""
    return any(_reveals(part, drawn, catalogue, slip) for part in template.parts)


def _reveals(part: AnyPart, drawn: Drawn, catalogue: Catalogue, slip: str) -> bool:
    match part:
        case WhichPart():
            return offers(part, drawn, slip)
        case OrderPart():
            return _choice_reveals(node_of(part, drawn), drawn, catalogue, slip)
        case ChoosePart():
            node = part.choose.split(".")[0]
            return drawn.once(partial(_choice_reveals, node, drawn, catalogue, slip), "revealed", node, slip)
        case BalancePart():
            node = EQUATIONS[part.balance]
            return drawn.once(partial(_equation_reveals, node, drawn, catalogue, slip), "revealed", node, slip)
        case _:
            return False


def _choice_reveals(node: str, drawn: Drawn, catalogue: Catalogue, slip: str) -> bool:
    """Whether the rule that the slip takes gives another thing than the right one."""
    if node not in drawn.graph.index:
        return False
    right = drawn.graph.value(drawn.cells, node)
    points = [point for point in points_of(drawn.graph, node, drawn.situation, catalogue) if point.slip.id == slip]
    taken = [drawn.graph.rerun(drawn.cells, point.part) for point in points]
    return any(not isinstance(each, Undefined) and each != right for each in taken)


def _equation_reveals(node: str, drawn: Drawn, catalogue: Catalogue, slip: str) -> bool:
    if node not in drawn.graph.index:
        return False
    points = points_of(drawn.graph, node, drawn.situation, catalogue)
    return any(slip in ids for ids in wrong_forms(drawn, node, points).values())
