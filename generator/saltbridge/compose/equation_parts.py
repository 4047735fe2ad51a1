"""Parts that ask for an equation: a node of the graph like any other, with its steps, its usual wrong forms and what leads to others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.bank.parts import BalancePart
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.keys import Earlier, followed
from saltbridge.compose.led_equations import before, led_to
from saltbridge.compose.made import Made
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.workings import working
from saltbridge.compose.written_forms import equation_with_states, stated, written_at
from saltbridge.document import EquationField, Part
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.equation_forms import wrong_forms
from saltbridge.faults import fault
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Balance, Rule
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import shown_nodes, walk
from saltbridge.scenarios.equation_laws import EQUATIONS, FACTOR
from saltbridge.words import Words


def balance_part(label: str, part: BalancePart, desk: Desk) -> Part:
    """An equation part. Raises ``Faulty`` as ``balance`` does."""
    made = balance(part, desk.drawn, desk.setter, desk.catalogue, desk.words, frozenset(desk.known), desk.earlier)
    desk.shares.append(made.share)
    desk.known.update((made.node, "n" if made.node == "equation" else "z"), shown_nodes(made.walked))
    if made.shape["earlier"]:
        for name in made.needs:
            desk.following.need(name, ())
    desk.earlier.append((label, made.shape["node"], None))
    return desk.part(label, part, made, desk.policy.equation)


def balance(
    part: BalancePart, drawn: Drawn, setter: MathSetter, catalogue: Catalogue, words: Words, known: frozenset[str],
    earlier: Sequence[Earlier],
) -> Made:  # fmt: skip
    """An equation part. Raises ``Faulty`` (code ``no-equation``) for an equation that the scenario does not have."""
    node = equation_node(part, drawn)
    points = [each for each in points_of(drawn.graph, node, drawn.situation, catalogue) if _leads_on(each, drawn)]
    hung_on = before(drawn, node, [each for _, each, _ in earlier], catalogue)
    upstream = {step.node for name in hung_on.choices for step in drawn.graph.upstream(name)} | hung_on.equations.keys()
    following = followed(earlier, upstream)

    def right(context: Context) -> str:
        text = str(context.drawn.graph.value(context.drawn.cells, node))
        return equation_with_states(text, context.situation) if part.states else text

    def share(context: Context) -> Mapping[str, Any]:
        found: dict[str, Any] = {"right": right(context), "slips": wrong_forms(context.drawn, node, points)}
        return found | {"led": led_to(context.drawn, node, hung_on, points)} if following else found

    counted = _counted_by(node, drawn.graph)
    shape: dict[str, Any] = {"kind": "equation", "node": counted or node, "states": part.states, "earlier": following}
    shape |= {"own": "factor" if counted else "text"}
    shape["hints"] = {point.slip.id: words(point.slip.hint) for point in points}
    steps = walk(drawn.graph, node, known | _uncompared(drawn.graph, node))
    shown = working(steps, setter, drawn.situation, words, {})
    answer = setter.slots.slot(f"equation {node}", written_at(node))
    if part.states:
        answer = setter.slots.slot(f"equation {node} with states", lambda context: stated(right(context), context))
    return Made(
        EquationField(words("Your equation with state symbols") if part.states else words("Your equation")),
        shown,
        (answer,),
        shape,
        share,
        node,
        steps,
        needs=(*hung_on.choices, *hung_on.equations),
    )


def _uncompared(graph: Graph, node: str) -> frozenset[str]:
    """Readings that no choice on the way compares: of those that are compared the working gives the values first."""
    compared = {name for step in graph.upstream(node) if isinstance(step.law, Rule) for name in step.inputs}
    return frozenset(step.node for step in graph.steps if step.how == "read") - compared


def equation_node(part: BalancePart, drawn: Drawn) -> str:
    """The node of the equation asked for. Raises ``Faulty`` (code ``no-equation``) where the scenario has another one or none."""
    node = EQUATIONS[part.balance]
    if node in drawn.graph.index:
        return node
    made = {law.node for law in drawn.situation.laws if isinstance(law, Balance)}
    there = {each: f"`balance: {name}`" for name, each in EQUATIONS.items() if each in made}
    hint = f"It has {' and '.join(there.values())}." if there else "It has no equation to balance."
    raise fault("no-equation", expected="an equation that this scenario has", found=f"balance: {part.balance}", hint=hint)


def _counted_by(node: str, graph: Graph) -> str | None:
    """The factor that the student's own equation is put at, where something is counted from it."""
    return FACTOR if node == "equation" and FACTOR in graph.index else None


def _leads_on(point: SlipPoint, drawn: Drawn) -> bool:
    """Whether an error on the way leaves an equation to write, and not two halves that can't be added."""
    return isinstance(drawn.graph.rerun(drawn.cells, point.part), str)
