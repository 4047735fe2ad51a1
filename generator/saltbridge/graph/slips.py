"""Slips as overrides: where in a graph each usual wrong way can happen, and what it then gives."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, NamedTuple

from saltbridge.algebra.expression import Cells, Ref, Tree, names, substitute, to_json
from saltbridge.algebra.programs import Program, bare
from saltbridge.algebra.rearrange import solve
from saltbridge.catalogue.catalogue import Catalogue, Fact, Slip, slip_tree
from saltbridge.catalogue.rules import Taken
from saltbridge.graph.balances import reshaped_law
from saltbridge.graph.graph import Graph, Part, Rounded
from saltbridge.graph.laws import Balance, Conversion, Instance, Rule
from saltbridge.graph.planner import Step
from saltbridge.graph.routes import Accepted, Asked, accepted

WITHOUT_POWERS = "without powers"


@dataclass(frozen=True, slots=True)
class SlipPoint:
    """A slip at the step that gives ``node``, as override, as tree and as JSON for the page.

    ``part`` is what it changes on the way to the target; ``others`` the same slip made in another form of the relation (with
    0.0592 V in place of RT ln 10/F).
    """

    slip: Slip
    node: str
    put: Mapping[int, Any]
    tree: Tree | None
    json: Any
    part: Part
    others: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class SlipValue:
    """What a slip gives in one variant, as printed and as a range; ``same`` are other slips that give the same."""

    point: SlipPoint
    exact: float
    printed: Decimal
    lo: Decimal
    hi: Decimal
    same: tuple[str, ...] = ()


def slip_points(graph: Graph, target: str, catalogue: Catalogue, flat: Mapping[str, Tree]) -> tuple[SlipPoint, ...]:
    """All slips that can happen on the way to ``target``, in file order of the slips.

    ``flat``: wrong quotients, by node; those other than without powers as ``without gases: Q``.
    """
    steps = graph.upstream(target)
    return tuple(
        point
        for slip in catalogue.slips.values()
        for step in steps
        if (point := _point(graph, target, step, slip, catalogue, flat))
    )


def slip_names(steps: Sequence[Step], catalogue: Catalogue) -> tuple[str, ...]:
    """Names that a slip at these steps may need beyond them, to be planned beside them."""
    found: dict[str, None] = {}
    for step in steps:
        if isinstance(step.law, Instance):
            for slip in catalogue.slips.values():
                tree = _equation_tree(step, step.law, slip, catalogue)
                found.update(dict.fromkeys(names(tree) if tree is not None else ()))
    return tuple(found)


def _point(graph: Graph, target: str, step: Step, slip: Slip, catalogue: Catalogue, flat: Mapping[str, Tree]) -> SlipPoint | None:
    found = None if slip.only_asked and step.node != target else _override(graph, step, slip, catalogue, flat)
    if found is None:
        return None
    law, tree, json = found
    place = graph.index[step.node]
    others = tuple(
        graph.part({place: graph.compile_tree(other)}, target) for other in _in_other_forms(graph, step, tree, catalogue)
    )
    return SlipPoint(slip, step.node, {place: law}, tree, json, graph.part({place: law}, target), others)


def _in_other_forms(graph: Graph, step: Step, tree: Tree | None, catalogue: Catalogue) -> Iterator[Tree]:
    """A slip's equation with the constants of the relation's other forms, where a student may use those."""
    if tree is None or not isinstance(step.law, Instance) or not step.law.forms or step.law.law not in catalogue.relations:
        return
    for form in catalogue.relations[step.law.law].forms:
        for constant, definition in form.constant.items():
            replaced = names(definition)[0]
            other = substitute(tree, {replaced: solve(constant, definition, replaced)})
            if other != tree and all(name in graph.index for name in names(other)):
                yield other


def _override(
    graph: Graph, step: Step, slip: Slip, catalogue: Catalogue, flat: Mapping[str, Tree]
) -> tuple[Any, Tree | None, Any] | None:
    """The law or value that a slip puts at a step, as tree and as JSON; ``None`` where it can't happen there."""
    match step.law:
        case Rule(rule=rule) if rule in slip.rules:
            return _rule_override(graph, step.law, slip.rules[rule])
        case Fact(id=name) if slip.fact == name and slip.takes in step.law.keys:
            return slip.takes, None, ["text", slip.takes]
        case Balance() if slip.reshape and step.law.kind in slip.balances:
            law = reshaped_law(step.law, graph.index, slip.reshape)
            return None if law is None else (law, None, None)
        case Conversion() if (step.law.unit_from, step.law.unit_to) in slip.conversions:
            tree: Tree | None = Ref(step.law.source)
        case Instance() if slip.quotient and step.law.law == "quotient":
            tree = flat.get(step.node if slip.quotient == WITHOUT_POWERS else f"{slip.quotient}: {step.node}")
            tree = None if tree == step.law.tree or step.node != step.law.subject else tree
        case Instance():
            tree = _equation_tree(step, step.law, slip, catalogue)
        case _:
            return None
    if tree is None or any(name not in graph.index for name in names(tree)):
        return None
    return graph.compile_tree(tree), tree, to_json(tree)


def _equation_tree(step: Step, law: Instance, slip: Slip, catalogue: Catalogue) -> Tree | None:
    if law.law not in slip.relations:
        return None
    relation = catalogue.relations[law.law]
    binding = dict(law.binding)
    unknown = next((symbol for symbol in relation.symbols if binding.get(symbol, symbol) == step.node), None)
    if unknown is None:
        return None
    tree = slip_tree(slip, relation, unknown, catalogue.relations[slip.relations[0]])
    return None if tree is None else substitute(tree, {name: Ref(to) for name, to in binding.items()})


def _rule_override(graph: Graph, law: Rule, taken: Taken) -> tuple[Any, Tree | None, Any] | None:
    tree = _tree_taken(graph, law, taken)
    if tree is None:
        return None
    return (tree[1] if tree[0] == "text" else graph.compile_program(tree)), None, bare(tree)


def _tree_taken(graph: Graph, law: Rule, taken: Taken) -> Program | None:
    """What a slip takes at a rule: a wrong way that the rule has, one of the keys of this use, or words as they stand."""
    if taken.kind == "takes":
        return graph.rules[law.rule].way(taken.what, law.inputs, law.keys)
    return ["text", taken.what] if taken.kind == "says" or taken.what in law.keys else None


class Runs(NamedTuple):
    """Two whole runs of one variant: at full precision, and with every step but the target rounded by ``rounded``."""

    base: Cells
    rough: Cells
    rounded: Rounded


def slip_values(graph: Graph, runs: Runs, points: Sequence[SlipPoint], right: Accepted, asked: Asked) -> tuple[SlipValue, ...]:
    """The slips of this variant that a marker can tell apart.

    A slip is dropped where it is not defined or its range meets the accepted range or the range of an earlier slip; a declared
    twin with the same value joins the earlier one instead. One that can happen at several like steps is told by the first.
    """
    kept: list[SlipValue] = []
    told: set[str] = set()
    for point in points:
        found = None if point.slip.id in told else _value(graph, runs, point, asked)
        if found is None or (found.lo < right.hi and right.lo < found.hi):
            continue
        clash = next((place for place, other in enumerate(kept) if found.lo < other.hi and other.lo < found.hi), None)
        if clash is None:
            kept.append(found)
            told.add(point.slip.id)
        elif _are_twins(point.slip, kept[clash]):
            other = kept[clash]
            kept[clash] = SlipValue(other.point, other.exact, other.printed, other.lo, other.hi, (*other.same, point.slip.id))
    return tuple(kept)


def _are_twins(slip: Slip, kept: SlipValue) -> bool:
    """Whether either says that it gives the same number as the other."""
    return slip.id in kept.point.slip.twins or not {kept.point.slip.id, *kept.same}.isdisjoint(slip.twins)


def _value(graph: Graph, runs: Runs, point: SlipPoint, asked: Asked) -> SlipValue | None:
    """A slip's value, with the range that a student who rounds at every step would reach too; ``None`` where there is none."""
    plain = graph.rerun(runs.base, point.part)
    if not isinstance(plain, float) or (asked.log and plain <= 0):
        return None
    found = [plain, graph.rerun(runs.rough, point.part, runs.rounded)]
    for other in point.others:
        found += [graph.rerun(runs.base, other), graph.rerun(runs.rough, other, runs.rounded)]
    values = [value for value in found if isinstance(value, float)]
    if asked.log and any(value <= 0 for value in values):
        return None
    own = accepted(values, asked)
    return SlipValue(point, plain, own.printed, own.lo, own.hi)
