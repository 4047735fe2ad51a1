"""A derivation told step by step for the command line: the document steps, and the same as plain entries."""

from __future__ import annotations

from dataclasses import dataclass

from saltbridge.chemistry.cells import GalvanicCell
from saltbridge.compose.context import Context
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.slots import Slots
from saltbridge.compose.workings import said, shown_lines, working
from saltbridge.document import Inscription, MathNode, Row, Sign, Spans, Step, Text
from saltbridge.graph.laws import Undefined, Value
from saltbridge.graph.node_names import ROLES
from saltbridge.graph.walk import WalkLine, WalkStep
from saltbridge.tables import constant

NEGATIVE = (
    "The cell potential is negative: as written the reaction does not run by itself. "
    "Oxidation really happens at the right-hand electrode, which is the anode."
)
UNSHIFTED = "E° is that of 25 °C; --shift-E0 moves it to the temperature given."
ALREADY = "{symbol} is already given; nothing is left to derive."
NEAR = 1.0  # K
_EQUALS = Sign("=", "equals")


@dataclass(frozen=True, slots=True)
class Entry:
    """One step as plain data: how it is got, its sentence, the equation with symbols and with numbers, value and unit."""

    how: str
    say: Spans
    symbolic: MathNode | None
    numbers: MathNode | None
    value: Value
    unit: str


@dataclass(frozen=True, slots=True)
class Telling:
    """A told derivation; ``slots`` are the values for steps and entries."""

    steps: tuple[Step, ...]
    entries: tuple[Entry, ...]
    slots: tuple[Spans, ...]


def telling(context: Context, walked: tuple[WalkStep, ...]) -> Telling:
    """The steps of a walked derivation with this run's values."""
    _name_roles(context)
    slots = Slots()
    setter = MathSetter(context.printer, context.situation, slots)
    words = context.printer.words
    steps = working(walked, setter, context.situation, words, {})
    entries = []
    for step in walked:
        say = said(step, slots, context.situation, words)
        for lines in _by_node(shown_lines(step, context.situation)):
            entries.append(_entry(context, setter, step, say, lines))  # noqa: PERF401 - two loops read better than a nest
    return Telling(steps, tuple(entries), slots.fill(context))


def _name_roles(context: Context) -> None:
    """Anode and cathode by name, once the run has told them."""
    graph, labels = context.drawn.graph, context.situation.labels
    for role in ROLES:
        if role in graph.index and f"{role}.couple" not in labels:
            side = str(graph.value(context.drawn.cells, role))
            if f"{side}.couple" in labels:
                labels |= {f"{role}.{name}": labels[f"{side}.{name}"] for name in ("couple", "oxidised", "reduced")}
                context.situation.words[f"{role}.side"] = side


def _by_node(lines: tuple[WalkLine, ...]) -> list[list[WalkLine]]:
    groups: dict[str, list[WalkLine]] = {}
    for line in lines:
        groups.setdefault(line.node, []).append(line)
    return list(groups.values())


def _entry(context: Context, setter: MathSetter, step: WalkStep, say: Spans, lines: list[WalkLine]) -> Entry:
    node = lines[0].node
    value = context.drawn.graph.value(context.drawn.cells, node)
    if lines[0].kind in {"choice", "equation"}:
        return Entry(step.how, say, None, None, value, "")
    symbol = setter.symbol(node)
    formula = next((line for line in reversed(lines) if line.kind in {"formula", "rearranged"}), None)
    put = next((line for line in lines if line.kind == "substitution"), None)
    converted = next((line for line in lines if line.kind == "conversion"), None)
    symbolic: MathNode = symbol
    numbers: MathNode | None = None
    if formula is not None and formula.tree is not None:
        symbolic = _equal(setter.symbol(formula.subject), setter.symbols(formula.tree))
    if put is not None and put.tree is not None:
        numbers = _equal(symbol, setter.numbers(put.tree))
    elif converted is not None:
        numbers = _equal(symbol, setter.quantity(converted.subject))
    return Entry(step.how, say, symbolic, numbers, value, context.printer.shown_unit(context.unit(node)))


def _equal(left: MathNode, right: MathNode) -> Row:
    return Row((left, _EQUALS, right))


def _is_unshifted(context: Context) -> bool:
    """Whether potentials read at 25 °C stand in a calculation at another temperature."""
    graph, given = context.drawn.graph, context.situation.given
    if "T" not in graph.index or not any(name in given and given[name].how == "read" for name in ("left.E0", "right.E0")):
        return False
    kelvin = graph.value(context.drawn.cells, "T")
    return not isinstance(kelvin, Undefined | str) and abs(kelvin - constant("T_25")) > NEAR


def notes(context: Context, cell: GalvanicCell | None) -> tuple[tuple[Text | Inscription, ...], ...]:
    """What should be said besides: a negative cell potential, the ion that a metal was taken to have."""
    found: list[tuple[Text | Inscription, ...]] = []
    if cell is not None and "E_cell" in context.drawn.graph.index:
        value = context.drawn.graph.value(context.drawn.cells, "E_cell")
        if not isinstance(value, Undefined | str) and value < 0:
            found.append((Text(NEGATIVE),))
    if _is_unshifted(context):
        found.append((Text(UNSHIFTED),))
    metal, charge = context.situation.words.get("product.metal"), context.situation.given.get("z")
    if metal and charge is not None and charge.how == "balance" and "z" in context.drawn.graph.index:
        ion = context.situation.labels["product.ion"]
        found.append((Text(f"{metal.capitalize()} is taken as its usual ion "), ion, Text(f", z = {charge.printed}.")))
    if "caution" in context.situation.words:
        found.append((Text(context.printer.words(context.situation.words["caution"])),))
    return tuple(found)
