"""Whether a variant tells a common error from the right answer in a choice, an order, an equation or what is written down."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saltbridge.bank.parts import AnyPart, BalancePart, ChoosePart, FindPart, OrderPart, WhichPart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.template import Template
from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.bank.word_part import WordPart
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_ideas import offers
from saltbridge.draw.drawn_orders import node_of
from saltbridge.draw.drawn_sets import node_of as set_node_of
from saltbridge.draw.drawn_species import deciders
from saltbridge.draw.drawn_tables import leaves, shown_leaves
from saltbridge.draw.equation_forms import wrong_forms
from saltbridge.draw.log import Reason
from saltbridge.draw.offered_beliefs import offered_beliefs
from saltbridge.graph.laws import Undefined
from saltbridge.graph.solved import points_of
from saltbridge.scenarios.equation_laws import EQUATIONS
from saltbridge.scenarios.notation_laws import DIAGRAM, EXPRESSION


def unrevealed(template: Template, drawn: Drawn, catalogue: Catalogue) -> Iterator[Reason]:
    """The errors that the template wants to be told and this draw does not, each with why."""
    asked = {leaf.part.find for leaf in shown_leaves(template, drawn) if isinstance(leaf.part, FindPart)}
    outcomes = [each for node, each in drawn.outcomes.items() if node.partition(":")[0] in asked]
    caught = {slip for each in outcomes for value in each.slips for slip in (value.point.slip.id, *value.same)}
    for slip in template.must_reveal:
        if slip not in caught and not reveals(template, drawn, catalogue, slip):
            meets = slip in drawn.once(partial(_possible, template, drawn, catalogue), "possible errors")
            why = "which gives the right answer, or that of another error" if meets else "which no part of the question can show"
            yield Reason(f"{slip}, {why}", "must reveal", template.lines.get("must reveal", 0))


def _possible(template: Template, drawn: Drawn, catalogue: Catalogue) -> frozenset[str]:
    """The common errors that can be made on the way to an answer of this draw, whatever they give."""
    asked = {*drawn.outcomes, *filter(None, (_node(leaf.part, drawn) for leaf in leaves(template, drawn.lists)))} & set(
        drawn.graph.index
    )
    return frozenset(point.slip.id for node in asked for point in points_of(drawn.graph, node, drawn.situation, catalogue))


def _node(part: AnyPart, drawn: Drawn) -> str:
    """The node of an answer that is no number; empty where it has none."""
    match part:
        case OrderPart():
            return node_of(part, drawn)
        case SeveralPart() if part.where is not None:
            return set_node_of(part, drawn)
        case ChoosePart():
            return _deciding(part.choose, drawn)
        case WordPart():
            return _deciding(part.word, drawn)
        case BalancePart():
            return EQUATIONS[part.balance]
        case _:
            return ""


def _deciding(choice: str, drawn: Drawn) -> str:
    """The node of a choice: its name, or the owner of it."""
    return choice if choice in drawn.graph.index else choice.split(".", maxsplit=1)[0]


def reveals(template: Template, drawn: Drawn, catalogue: Catalogue, slip: str) -> bool:
    """Whether some part that is no number tells the slip."""
    shown = shown_leaves(template, drawn)
    return any(slip in offered_beliefs(leaf.part, drawn) or _reveals(leaf.part, drawn, catalogue, slip) for leaf in shown)


def _reveals(part: AnyPart, drawn: Drawn, catalogue: Catalogue, slip: str) -> bool:
    match part:
        case WhichPart():
            return offers(part, drawn, slip)
        case OrderPart():
            return _choice_reveals(node_of(part, drawn), drawn, catalogue, slip)
        case SeveralPart() if part.where is not None:
            return _choice_reveals(set_node_of(part, drawn), drawn, catalogue, slip)
        case ChoosePart() | WordPart():
            node = _node(part, drawn)
            return drawn.once(partial(_choice_reveals, node, drawn, catalogue, slip), "revealed", node, slip)
        case BalancePart():
            node = EQUATIONS[part.balance]
            return drawn.once(partial(_equation_reveals, node, drawn, catalogue, slip), "revealed", node, slip)
        case SpeciesPart():
            return any(_choice_reveals(node, drawn, catalogue, slip) for node in deciders(part))
        case DiagramPart():
            return drawn.once(partial(_equation_reveals, DIAGRAM, drawn, catalogue, slip), "revealed", DIAGRAM, slip)
        case ExpressionPart():
            return drawn.once(partial(_equation_reveals, EXPRESSION, drawn, catalogue, slip), "revealed", EXPRESSION, slip)
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
