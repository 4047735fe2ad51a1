"""The Python surface: ``work`` derives one quantity and gives its working as plain data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.chemistry.cells import SIDES, GalvanicCell, Side, cell_reaction, transfer_text
from saltbridge.chemistry.diagrams import diagram as diagram_text
from saltbridge.chemistry.diagrams import parse_diagram
from saltbridge.compose.context import Context
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.printing import Printer
from saltbridge.compose.slots import Slots
from saltbridge.compose.workings import sentence, working
from saltbridge.derivation.catalogue import Catalogue, catalogue
from saltbridge.derivation.galvanic import CellOptions, Temperature, amount_node, galvanic
from saltbridge.derivation.graph import Graph
from saltbridge.derivation.knowns import Told, read_told, with_potentials, with_told_amounts
from saltbridge.derivation.laws import Situation, Undefined, instance, quantity_of
from saltbridge.derivation.loose import loose
from saltbridge.derivation.planner import reachable
from saltbridge.derivation.precision import figures, measured
from saltbridge.derivation.routes import Asked
from saltbridge.derivation.situations import add_given, add_print_unit
from saltbridge.derivation.solved import Outcome, graph_of, outcome, points_of
from saltbridge.derivation.walk import WalkLine, WalkStep, picked_sides, walk
from saltbridge.document import Spans, Step
from saltbridge.draw.drawn import Drawn
from saltbridge.faults import fault
from saltbridge.records import Settings
from saltbridge.render.text import math_text, spans_text, working_text
from saltbridge.tables import sheet as sheet_of

ROLES = ("anode", "cathode")
_UNKNOWNS = ("c_anode", "c_cathode", "p_anode", "p_cathode")
_OF_CELL = frozenset({"E0", "c", "p", "pH", "T"})


@dataclass(frozen=True, slots=True)
class Work:
    """A derivation at the command line: ``data`` as printed by ``--json``, ``steps`` and ``slots`` for the terminal."""

    data: dict[str, Any]
    steps: tuple[Step, ...]
    slots: tuple[Spans, ...]
    notes: tuple[str, ...]

    def text(self, width: int = 80) -> str:
        """The working for a terminal, with the answer on the last line."""
        parts = [working_text(self.steps, self.slots, width=width), f"{self.data['find']} = {self.data['text']}"]
        if "accepted" in self.data:
            lo, hi = self.data["accepted"]
            parts[-1] += f"    (accepted: {lo:.6g} to {hi:.6g})"
        return "\n\n".join(part for part in (*parts, *self.notes) if part)


def work(
    diagram: str | None,
    know: Sequence[str],
    find: str,
    unit: str | None = None,
    sheet: str = "college",
    *,
    shift_E0: bool = False,
) -> dict[str, Any]:
    """Derive ``find`` from a cell diagram or from quantities told, as plain data.

    ``know`` holds texts such as ``I = 2.50 A`` or ``E0(Cu^2+/Cu) = 0.337 V``; ``unit`` is that of the answer. Raises ``Faulty`` for
    what can't be read, is impossible, or can't be derived.
    """
    return working_out(diagram, know, find, unit, sheet, shift_E0=shift_E0).data


def working_out(
    diagram: str | None,
    know: Sequence[str],
    find: str,
    unit: str | None = None,
    sheet: str = "college",
    *,
    shift_E0: bool = False,
) -> Work:
    """``work`` with its document steps; the same arguments and faults."""
    known = catalogue()
    told = read_told(know, known)
    if find not in known.quantities and find not in (*ROLES, *_UNKNOWNS, "equation"):
        raise fault(
            "unknown-quantity", expected="the name of a quantity", found=find, hint="saltbridge work --list names them all."
        )
    settings = Settings(
        sheet=sheet, nernst="lg" if any(each.name == "slope" for each in told) else "ln", concentration_unit="mol/L"
    )
    page = with_potentials(sheet_of(sheet), [each for each in told if each.name == "E0"]) if diagram else sheet_of(sheet)
    if diagram is None:
        situation, cell = loose(told, page, known, nernst=settings.nernst), None
    else:
        cell = with_told_amounts(parse_diagram(diagram, page.rows), [each for each in told if each.name in {"c", "p", "pH"}])
        options = CellOptions(as_written=True, nernst=settings.nernst, electrodes=True, shift_E0=shift_E0)
        situation = galvanic(cell, page, known, _temperature(told), options)
        for each in told:
            if each.name not in _OF_CELL and not each.word:
                add_given(situation, known, each.name, each.quantity.printed, each.quantity.unit)
        if any(each.name == "pH" for each in told) or find == "pH":
            _add_acidity(situation, known, cell, told)
    return _worked(situation, cell, find, unit, Printer(settings, known))


def _temperature(told: Sequence[Told]) -> Temperature | None:
    warm = next((each for each in told if each.name == "T"), None)
    return Temperature(warm.quantity.printed, warm.quantity.unit) if warm else None


def _add_acidity(situation: Situation, known: Catalogue, cell: GalvanicCell, told: Sequence[Told]) -> None:
    """The pH in place of the concentration of hydrogen ions, on each side that holds them."""
    given = next((each for each in told if each.name == "pH"), None)
    if given:
        add_given(situation, known, "pH", given.quantity.printed, given.quantity.unit)
    for side in SIDES:
        acid = next((each for each in cell.side(side).half.species if each.bare == "H^+"), None)
        if acid is not None:
            node = amount_node(side, cell.side(side), acid)
            if given:
                situation.given.pop(node, None)
            situation.laws.append(instance(known.relations["acidity"], {"c": node}))


# ------------------------------------------------------------------ solving


def _worked(situation: Situation, cell: GalvanicCell | None, find: str, unit: str | None, printer: Printer) -> Work:
    known = printer.catalogue
    target = _unknown_node(situation, cell, find) if find in _UNKNOWNS else find
    if find == "equation":
        return _equation(cell)
    quantity = quantity_of(target, known.quantities)
    if quantity is not None:
        target = add_print_unit(situation, known, target, unit or quantity.show)
    also = [role for role in ROLES if cell is not None and _can_tell(situation)]
    graph = graph_of(situation, [target, *also], known)
    start = graph.start(situation.given)
    cells = graph.run(start)
    steps = walk(graph, target, picked=picked_sides(graph, cells))
    context = Context(printer, Drawn(known, situation, graph, start, cells))
    if quantity is None:
        return _told(context, cell, find, str(_defined(graph, cells, target)), steps)
    found = _outcome(context, target)
    context.drawn.outcomes = {target: found}
    return _number(context, cell, find, target, found, steps)


def _can_tell(situation: Situation) -> bool:
    return "anode" in reachable(situation)


def _defined(graph: Graph, cells: list[Any], node: str) -> Any:
    value = graph.value(cells, node)
    if isinstance(value, Undefined):
        raise fault("undefined", expected=f"{node} to exist", found=value.why)
    return value


def _outcome(context: Context, target: str) -> Outcome:
    _defined(context.drawn.graph, context.drawn.cells, target)
    digits = measured(context.drawn.graph, context.drawn.cells, context.situation.given)[target]
    count = figures(digits)
    asked = Asked(figures=min(6, max(3, count)) if count is not None else 4, log=target == "K")
    return outcome(
        context.drawn.graph,
        context.drawn.start,
        target,
        asked,
        points_of(context.drawn.graph, target, context.situation, context.printer.catalogue),
    )


def _unknown_node(situation: Situation, cell: GalvanicCell | None, find: str) -> str:
    """The node of the unknown amount at the anode or cathode; the sign of the known E_cell says which side that is."""
    if cell is None:
        raise fault("needs-diagram", expected="a cell diagram with a ? for the unknown", found=f"only quantities, to find {find}")
    unknown = [(side, species) for side in SIDES for species, amount in cell.side(side).amounts if amount.value is None]
    given = situation.given.get("E_cell") or situation.given.get("E_cell:mV")
    if not unknown or given is None or not isinstance(given.value, float):
        missing = "a ? in the diagram" if not unknown else 'the cell potential, such as "E_cell = 1.05 V"'
        raise fault("not-derivable", expected=f"enough to derive {find}", found="the cell", hint=f"Also give {missing}.")
    letter, role = find.split("_")
    anode: Side = "left" if given.value > 0 else "right"
    wanted = anode if role == "anode" else next(side for side in SIDES if side != anode)
    here = [(side, species) for side, species in unknown if side == wanted and ("p" if species.phase == "g" else "c") == letter]
    if not here:
        side = unknown[0][0]
        other = f"{'p' if unknown[0][1].phase == 'g' else 'c'}_{'anode' if side == anode else 'cathode'}"
        raise fault(
            "not-derivable",
            expected=f"the unknown at the {role}",
            found=f"a ? in the {side} half-cell, which is the other one",
            hint=f"Find {other}.",
        )
    side, species = here[0]
    return amount_node(side, cell.side(side), species)


# ------------------------------------------------------------------ telling


def _number(
    context: Context, cell: GalvanicCell | None, find: str, target: str, found: Outcome, walked: tuple[WalkStep, ...]
) -> Work:
    unit = context.printer.shown_unit(context.unit(target))
    data: dict[str, Any] = {
        "find": find, "value": found.exact, "unit": unit, "text": spans_text((context.quantity(target),)),
        "accepted": [float(found.right.lo), float(found.right.hi)], **_cell_data(context, cell),
    }  # fmt: skip
    slots = Slots()
    steps, data["steps"] = _steps(context, walked, slots)
    data["slips"] = [{"id": each.point.slip.id, "value": each.exact, "hint": each.point.slip.hint} for each in found.slips]
    return Work(data, steps, slots.fill(context), _notes(context, cell))


def _told(context: Context, cell: GalvanicCell | None, find: str, value: str, walked: tuple[WalkStep, ...]) -> Work:
    data: dict[str, Any] = {"find": find, "text": value, **_cell_data(context, cell)}
    if find in ROLES:
        data["text"] = f"{data[find]} ({value})"
    slots = Slots()
    steps, data["steps"] = _steps(context, walked, slots)
    return Work(data, steps, slots.fill(context), _notes(context, cell))


def _equation(cell: GalvanicCell | None) -> Work:
    if cell is None:
        raise fault("needs-diagram", expected="a cell diagram", found="none, to find the equation")
    text = _equation_text(cell)
    return Work({"find": "equation", "text": text, "equation": text, "steps": []}, (), (), ())


def _cell_data(context: Context, cell: GalvanicCell | None) -> dict[str, Any]:
    if cell is None:
        return {}
    data: dict[str, Any] = {}
    if "anode" in context.drawn.graph.index and not isinstance(
        context.drawn.graph.value(context.drawn.cells, "anode"), Undefined
    ):
        sides: dict[str, Side] = {
            role: "left" if context.drawn.graph.value(context.drawn.cells, role) == "left" else "right" for role in ROLES
        }
        data = {role: cell.side(side).half.couple_label for role, side in sides.items()} | {
            f"{role}_side": side for role, side in sides.items()
        }
    return data | {"equation": _equation_text(cell), "diagram": diagram_text(cell)}


def _equation_text(cell: GalvanicCell) -> str:
    return transfer_text(cell) if cell.is_concentration_cell else cell_reaction(cell).equation.bare.text


def _notes(context: Context, cell: GalvanicCell | None) -> tuple[str, ...]:
    notes = []
    if "E_cell" in context.drawn.graph.index:
        value = context.drawn.graph.value(context.drawn.cells, "E_cell")
        if cell is not None and isinstance(value, float) and value < 0:
            notes.append(
                "The cell potential is negative: as written the reaction does not run by itself; oxidation really happens at the right-hand electrode."
            )
    metal = context.situation.words.get("product.metal")
    if metal:
        ion = context.situation.labels["product.ion"]
        notes.append(
            f"{metal.capitalize()} is taken as its usual ion {spans_text((ion,))}, z = {context.situation.given['z'].printed}."
        )
    return tuple(notes)


def _steps(context: Context, walked: tuple[WalkStep, ...], slots: Slots) -> tuple[tuple[Step, ...], list[dict[str, Any]]]:
    _name_sides(context)
    setter = MathSetter(context.printer, context.situation, slots)
    words = context.printer.words
    steps = working(walked, setter, context.situation, words, {})
    plain: list[dict[str, Any]] = []
    for walked_step in walked:
        say = sentence(walked_step.say, slots, context.situation, words)
        plain.extend(_plain_step(context, setter, walked_step, say, lines) for lines in _by_node(walked_step))
    filled = slots.fill(context)
    return steps, [{key: value(filled) if callable(value) else value for key, value in entry.items()} for entry in plain]


def _name_sides(context: Context) -> None:
    """Anode and cathode by name, once the run has told them."""
    for role in ROLES:
        if role in context.drawn.graph.index and f"{role}.couple" not in context.situation.labels:
            side = context.drawn.graph.value(context.drawn.cells, role)
            label = context.situation.labels.get(f"{side}.couple")
            if label is not None:
                context.situation.labels[f"{role}.couple"] = label


def _by_node(step: WalkStep) -> list[list[WalkLine]]:
    groups: dict[str, list[WalkLine]] = {}
    for line in step.lines:
        groups.setdefault(line.node, []).append(line)
    return list(groups.values())


def _plain_step(context: Context, setter: MathSetter, step: WalkStep, say: Spans, lines: list[WalkLine]) -> dict[str, Any]:
    node = lines[0].node
    entry: dict[str, Any] = {"how": step.how, "say": lambda filled: spans_text(say, filled)}
    value = context.drawn.graph.value(context.drawn.cells, node)
    formula = next((line for line in reversed(lines) if line.kind in {"formula", "rearranged"}), None)
    numbers = next((line for line in lines if line.kind == "substitution"), None)
    symbol = setter.symbol(lines[-1].node)
    if formula is not None and formula.tree is not None:
        left, right = setter.symbol(formula.subject), setter.symbols(formula.tree)
        entry["symbolic"] = lambda filled: f"{math_text(left, filled)} = {math_text(right, filled)}"
    if numbers is not None and numbers.tree is not None:
        put = setter.numbers(numbers.tree)
        entry["numbers"] = lambda filled: f"{math_text(symbol, filled)} = {math_text(put, filled)}"
    entry["value"] = value
    if isinstance(value, float):
        entry["unit"] = context.printer.shown_unit(context.unit(node))
    return entry
