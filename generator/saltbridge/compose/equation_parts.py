"""Parts that ask for an equation: a node of the graph like any other, with its steps, its usual wrong forms and what leads to others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import islice, product
from typing import Any

from saltbridge.bank.parts import BalancePart
from saltbridge.catalogue.catalogue import Catalogue, Fact
from saltbridge.compose.choices import Made
from saltbridge.compose.context import Context
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.workings import equation_of, working
from saltbridge.document import EquationField
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.equation_forms import wrong_forms
from saltbridge.faults import fault
from saltbridge.graph.graph import Graph
from saltbridge.graph.graph import Part as Override
from saltbridge.graph.laws import Balance, Rule
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import walk
from saltbridge.scenarios.equation_laws import EQUATIONS, FACTOR
from saltbridge.words import Words

MOST_PATHS = 32
"""Ways through the choices before an equation for which its own form is kept."""
Deciders = Mapping[str, tuple[str, ...]]
"""The choices on which an equation hangs, and what each may come out as."""


def balance(
    part: BalancePart, drawn: Drawn, setter: MathSetter, catalogue: Catalogue, words: Words, known: frozenset[str],
    earlier: Sequence[tuple[str, str, Mapping[str, int] | None]],
) -> Made:  # fmt: skip
    """An equation part. Raises ``Faulty`` (code ``no-equation``) for an equation that the scenario does not have."""
    node = equation_node(part, drawn)
    points = [each for each in points_of(drawn.graph, node, drawn.situation, catalogue) if _leads_on(each, drawn)]
    deciders = choices_before(drawn.graph, node)
    before = {step.node for name in deciders for step in drawn.graph.upstream(name)}
    following = [[label, each, *([asked] if asked else [])] for label, each, asked in earlier if each in before]

    def share(context: Context) -> Mapping[str, Any]:
        right = str(context.drawn.graph.value(context.drawn.cells, node))
        found: dict[str, Any] = {"right": right, "slips": wrong_forms(context.drawn, node, points)}
        return found | {"led": led_to(context.drawn, node, deciders)} if following else found

    shape: dict[str, Any] = {"kind": "equation", "node": _counted_by(node, drawn.graph), "states": False, "earlier": following}
    shape["hints"] = {point.slip.id: words(point.slip.hint) for point in points}
    read = frozenset(step.node for step in drawn.graph.steps if step.how == "read")
    steps = walk(drawn.graph, node, known | read)
    shown = working(steps, setter, drawn.situation, words, {})
    answer = (setter.slots.slot(f"equation {node}", equation_of(node)),)
    return Made(EquationField(words("Your equation")), shown, answer, 2, shape, share, node, steps)


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


# ------------------------------------------------------------------ equations that a choice leads to


def choices_before(graph: Graph, node: str) -> Deciders:
    """The choices that balancing reads on the way to an equation."""
    found: dict[str, tuple[str, ...]] = {}
    for step in graph.upstream(node):
        if isinstance(step.law, Balance) and step.law.keys:
            decider = graph.step(step.law.inputs[0])
            found[decider.node] = decider.law.keys if isinstance(decider.law, Rule | Fact) else step.law.keys
    return {name: keys for name, keys in found.items() if len(keys) > 1}


def led_to(drawn: Drawn, node: str, deciders: Deciders) -> list[list[Any]]:
    """For each way through the choices the equation that it leads to, but for the right one: [[{choice: outcome}, equation], …]."""
    graph = drawn.graph
    right = graph.value(drawn.cells, node)
    found: list[list[Any]] = []
    for outcomes, part in _ways(graph, node, deciders):
        text = graph.rerun(drawn.cells, part)
        if isinstance(text, str) and text != right:
            found.append([dict(outcomes), text])
    return found


def _ways(graph: Graph, node: str, deciders: Deciders) -> Sequence[tuple[Mapping[str, str], Override]]:
    """The ways through the choices, each with what it changes; found once for each graph."""
    key = ("ways", node)
    if key not in graph.memo:
        paths = [dict(zip(deciders, way, strict=True)) for way in islice(product(*deciders.values()), MOST_PATHS)]
        puts = [{graph.index[name]: outcome for name, outcome in path.items()} for path in paths]
        graph.memo[key] = [(path, graph.part(put, node)) for path, put in zip(paths, puts, strict=True)]
    found: list[tuple[Mapping[str, str], Override]] = graph.memo[key]
    return found
