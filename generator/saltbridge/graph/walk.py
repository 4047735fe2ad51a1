"""Walking a derivation: which steps a working shows, and which lines each has. Holds no numbers: one walk serves a shape."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import reduce
from typing import Literal

from saltbridge.algebra.expression import Bin, Cells, Fn, Neg, Num, Ref, Tree, substitute
from saltbridge.catalogue.catalogue import Fact
from saltbridge.catalogue.catalogue_records import Flags
from saltbridge.catalogue.rules import RuleEntry
from saltbridge.chemistry.equation_operations import COUNTING
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Balance, Conversion, Instance, Rule, flags_of, quantity_of
from saltbridge.graph.planner import Step
from saltbridge.graph.put_in import put_in

LineKind = Literal["reading", "balance", "conversion", "formula", "rearranged", "substitution", "value", "choice", "equation"]

READ = "Read from the data sheet:"
READ_HINT = "Which values does the data sheet give you for this question?"
READ_COEFFICIENT = "Take the temperature coefficient from a table of potentials:"
READ_COEFFICIENT_HINT = "Which table says how a potential changes with temperature?"
HALF = "Write the half-equation of this electrode as a reduction: {reduction}."
HALF_HINT = "How many electrons stand in the half-equation of this electrode?"
PROTONS = "Count the hydrogen ions in this half-equation: {reduction}."
PROTONS_HINT = "How many hydrogen ions balance the half-equation?"
BALANCE = "Combine the half-equations so that the electrons cancel: {equation}."
BALANCE_HINT = "How many electrons move when the equation runs once?"
ELECTRONS = "Write the half-equation: {half-equation}."
ELECTRONS_HINT = "Write the half-equation. How many electrons go with one particle of the substance?"
COUNTED = {
    "cell equation": (BALANCE, BALANCE_HINT),
    "ion equation": (ELECTRONS, ELECTRONS_HINT),
    "half-equation": (HALF, HALF_HINT),
    "hydrogen ions": (PROTONS, PROTONS_HINT),
}
"""What a number is said to be counted by, and the question that helps to find it."""
CONVERT = "Convert to the unit that the formula needs."
CONVERT_HINT = "Are all quantities in the units that the formula needs?"
CONVERT_RESULT = "Give the result in the unit asked for."
CONVERT_RESULT_HINT = "In which unit is the answer wanted?"


@dataclass(frozen=True, slots=True)
class WalkLine:
    """One line about ``node``; ``subject`` and ``tree`` are the equation shown (trees over node names)."""

    kind: LineKind
    node: str
    subject: str = ""
    tree: Tree | None = None


@dataclass(frozen=True, slots=True)
class WalkStep:
    """One step of the working: its sentence (an English msgid with label holes), its lines, and the question that helps to find it.

    ``says``: where two equations are added, the sentences for the first, the second and both taken several times, after the plain one;
    ``made_from`` are the nodes of the two.
    """

    say: str
    lines: tuple[WalkLine, ...]
    node: str
    law: str
    how: str
    hint: str = ""
    says: tuple[str, ...] = ()
    made_from: tuple[str, ...] = ()


def walk(
    graph: Graph,
    target: str,
    known: frozenset[str] = frozenset(),
    *,
    method: str = "steps",
    put: Mapping[str, Tree] | None = None,
    picked: Mapping[str, str] | None = None,
) -> tuple[WalkStep, ...]:
    """The working of ``target``, leaving out what is already ``known`` (answers of earlier parts).

    ``method`` formula: the relations are put into one another and worked as one line. ``put``: laws overridden by a slip.
    ``picked``: which input each pick took, so that only that branch is shown.
    """
    steps = worked_anew(graph, target, known, picked or {})
    steps = _eliminated(steps, target) if method == "formula" else put_in(steps, target, graph.quantities, put)
    found: list[WalkStep] = []
    for step in steps:
        quantity = quantity_of(step.node, graph.quantities)
        is_number = quantity is not None and quantity.whole
        made = _shown(step, target, put or {}, flags_of(step.node, graph.quantities), graph.rules, is_number=is_number)
        if made is None:
            continue
        if found and made.say == found[-1].say and made.how in {"read", "balance"}:
            found[-1] = WalkStep(made.say, (*found[-1].lines, *made.lines), found[-1].node, made.law, made.how, made.hint)
        else:
            found.append(made)
    return tuple(found)


def picked_sides(graph: Graph, cells: Cells) -> dict[str, str]:
    """Which input each pick of a run took: ``E0_cathode`` → ``right.E0``."""
    found = {}
    for step in graph.steps:
        if isinstance(step.law, Rule) and graph.rules[step.law.rule].macro == "pick":
            role = cells[graph.index[step.inputs[0]]]
            if role in step.law.keys:
                found[step.node] = step.inputs[1 + step.law.keys.index(role)]
    return found


def needs_text(anew: Iterable[Step]) -> bool:
    """Whether these steps start from what the question tells, and not from the sheet's constants alone."""
    return any(step.how in {"given", "balance"} or (step.how == "read" and "." in step.node) for step in anew)


def worked_anew(graph: Graph, target: str, known: frozenset[str], picked: Mapping[str, str]) -> list[Step]:
    """The steps on the way to ``target`` that lead on from what is ``known`` (answers of earlier parts)."""
    needed, found = {target}, []
    for step in reversed(graph.steps):
        if step.node in needed and step.node not in known:
            needed.update((step.inputs[0], picked[step.node]) if step.node in picked else _shown_inputs(step))
            found.append(step)
    return found[::-1]


def _shown_inputs(step: Step) -> tuple[str, ...]:
    """What a step is made from; the factor that would turn it round is not shown with it."""
    power = step.law.power if isinstance(step.law, Instance) else ""
    return tuple(name for name in step.inputs if name != power)


def _shown(
    step: Step, target: str, put: Mapping[str, Tree], flags: Flags, rules: Mapping[str, RuleEntry], *, is_number: bool
) -> WalkStep | None:
    match step.law:
        case None if step.how == "read" and not flags.silent:
            say, hint = (READ_COEFFICIENT, READ_COEFFICIENT_HINT) if step.node.endswith(".dEdT") else (READ, READ_HINT)
            return WalkStep(say, (WalkLine("reading", step.node),), step.node, "read", "read", hint)
        case None if step.how == "balance" and flags.counted_by:
            owner, dot, _ = step.node.rpartition(".")  # of an owner it is counted by the owner's own half-equation
            one = (HALF.replace("{reduction}", f"{{{owner}.reduction}}"), HALF_HINT)
            say, hint = one if dot else COUNTED[flags.counted_by]
            return WalkStep(say, (WalkLine("balance", step.node),), step.node, "balance", "balance", hint)
        case Rule(rule=name) if rules[name].say:
            kind: LineKind = "balance" if is_number else "choice"
            return WalkStep(rules[name].say, (WalkLine(kind, step.node),), step.node, name, "rule", rules[name].hint)
        case Fact(say=say):
            return WalkStep(say, (WalkLine("choice", step.node),), step.node, step.law.id, "rule", step.law.hint)
        case Balance() if step.law.says:
            return _balanced(step, step.law)
        case Conversion():
            say, hint = (CONVERT_RESULT, CONVERT_RESULT_HINT) if step.node == target else (CONVERT, CONVERT_HINT)
            line = WalkLine("conversion", step.node, step.law.source)
            return WalkStep(say, (line,), step.node, step.law_id, "convert", hint)
        case Instance():
            return WalkStep(
                step.law.say, _relation_lines(step, step.law, put), step.node, step.law.law, "relation", step.law.hint
            )
        case _:
            return None


def _balanced(step: Step, law: Balance) -> WalkStep:
    kind: LineKind = "equation" if law.op not in COUNTING else "balance"
    lines = (WalkLine(kind, step.node),)
    return WalkStep(law.say, lines, step.node, law.kind, "balance", law.hint, law.says, law.inputs)


def _relation_lines(step: Step, law: Instance, put: Mapping[str, Tree]) -> tuple[WalkLine, ...]:
    tree = put.get(step.node, step.tree)
    if isinstance(tree, Num) and step.node == law.subject:
        return (WalkLine("value", step.node, step.node),)
    lines = [WalkLine("formula", step.node, law.subject, law.tree if step.node not in put else tree)]
    if _says_itself(step.node, tree):
        lines.clear()
    elif step.node != law.subject and step.node not in put:
        lines.append(WalkLine("rearranged", step.node, step.node, tree))
    if tree is not None and not isinstance(tree, Num | Ref):
        lines.append(WalkLine("substitution", step.node, step.node, tree))
    lines.append(WalkLine("value", step.node, step.node))
    return tuple(lines)


def _says_itself(node: str, tree: Tree | None) -> bool:
    """Whether the equation would read lg K = lg K, the name of the node being its formula."""
    return isinstance(tree, Fn) and tree.name == "lg" and tree.args == (Ref(node.removeprefix("lg")),)


# ------------------------------------------------------------------ one formula


def _eliminated(steps: list[Step], target: str) -> list[Step]:
    """The relations between the givens and the target put into one another; quotients and molar masses stay steps."""
    trees: dict[str, Tree] = {}
    kept: list[Step] = []
    last = next((step.node for step in reversed(steps) if isinstance(step.law, Instance)), target)
    for step in steps:
        if not isinstance(step.law, Instance) or step.law.law in {"quotient", "molar-mass"} or step.tree is None:
            kept.append(step)
            continue
        trees[step.node] = one_fraction(substitute(step.tree, trees))
        if step.node == last:
            law = Instance(step.law.law, step.node, trees[step.node], step.law.say, hint=step.law.hint)
            kept.append(Step(step.node, step.how, step.inputs, law, trees[step.node]))
    return kept


def one_fraction(tree: Tree) -> Tree:
    """Nested products and quotients as one fraction, factors in their order: ((I t)/F)/z · M → I t M/(F z)."""
    if isinstance(tree, Neg):
        return Neg(one_fraction(tree.body))
    if not isinstance(tree, Bin) or tree.op not in {"*", "/"}:
        return tree
    above, below = _factors(tree)
    top = reduce(lambda a, b: Bin("*", a, b), above) if above else Num("1")
    return Bin("/", top, reduce(lambda a, b: Bin("*", a, b), below)) if below else top


def _factors(tree: Tree) -> tuple[list[Tree], list[Tree]]:
    if isinstance(tree, Bin) and tree.op in {"*", "/"}:
        above, below = _factors(tree.left)
        other_above, other_below = _factors(tree.right)
        if tree.op == "/":
            other_above, other_below = other_below, other_above
        return [*above, *other_above], [*below, *other_below]
    return ([] if tree == Num("1") else [tree]), []


def shown_nodes(steps: tuple[WalkStep, ...]) -> frozenset[str]:
    """The nodes that a working shows, so that a later part need not show them again."""
    return frozenset(line.node for step in steps for line in step.lines)
