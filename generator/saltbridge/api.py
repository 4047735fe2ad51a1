"""The Python surface: ``work`` derives one quantity and gives its working as plain data."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path
from typing import Any, Literal, TypeVar

from saltbridge import units
from saltbridge.catalogue.catalogue import Catalogue, Quantity, catalogue
from saltbridge.catalogue.listing import listing
from saltbridge.chemistry.cells import SIDES, GalvanicCell, Side, cell_reaction, transfer_text
from saltbridge.compose.context import Context
from saltbridge.compose.printing import Printer
from saltbridge.compose.worked_steps import ALREADY, Entry, Telling, notes, telling
from saltbridge.document import Spans, Step
from saltbridge.draw.drawn import Drawn
from saltbridge.faults import Fault, Faulty, fault
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Balance, Law, Rule, Situation, Undefined, Value, flags_of, quantity_of
from saltbridge.graph.node_names import ROLES
from saltbridge.graph.planner import reachable
from saltbridge.graph.precision import figures, measured
from saltbridge.graph.routes import Asked
from saltbridge.graph.solved import Outcome, graph_of, outcome, points_of
from saltbridge.graph.unwritten import unwritten
from saltbridge.graph.walk import picked_sides, walk
from saltbridge.graph.written import GUARD
from saltbridge.records import Settings
from saltbridge.render.text import math_text, spans_text, working_text
from saltbridge.scenarios.assignments import read_told, require_quantity
from saltbridge.scenarios.cell_from_diagram import UNKNOWNS, told_cell, unknown_node
from saltbridge.scenarios.free_situation import loose
from saltbridge.scenarios.joining import DIAGRAM, join
from saltbridge.scenarios.situations import add_print_unit, refuse_unit
from saltbridge.sigfigs import NARROW_SPACE, to_figures
from saltbridge.tables import Sheet
from saltbridge.tables import sheet as sheet_of

EQUATION = "equation"
_SPACES = str.maketrans({NARROW_SPACE: " ", "\N{NO-BREAK SPACE}": " "})
Styled = Callable[[str], str]
One = TypeVar("One")
Two = TypeVar("Two")
Three = TypeVar("Three")


def plain_spaces(text: str) -> str:
    """The text with the spaces of a keyboard, so that a terminal's search and a script find ``1.132 V``."""
    return text.translate(_SPACES)


@dataclass(frozen=True, slots=True)
class Work:
    """A derivation: ``data`` as printed by ``--json``, ``steps``, ``slots``, ``accepted`` and ``notes`` for the terminal."""

    data: dict[str, Any]
    steps: tuple[Step, ...] = ()
    slots: tuple[Spans, ...] = ()
    accepted: str = ""
    notes: tuple[str, ...] = ()

    def text(self, width: int = 80, answer: Styled = str) -> str:
        """The working for a terminal of ``width`` columns, the answer set by ``answer``, then what should be said besides."""
        result = answer(f"{self.data['find']} = {self.data['text']}") + (f"    ({self.accepted})" if self.accepted else "")
        parts = [working_text(self.steps, self.slots, width=width), result]
        parts += [textwrap.fill(note, width) for note in self.notes]
        return plain_spaces("\n\n".join(part for part in parts if part))


def work(
    diagram: str | None,
    given: Sequence[str],
    find: str,
    unit: str | None = None,
    sheet: str = "college",
    *,
    shift_E0: bool = False,
    bank: Path | None = None,
) -> dict[str, Any]:
    """Derive ``find`` from a cell diagram or from quantities given, as plain data.

    ``given`` holds texts such as ``I = 2.50 A`` or ``E0(Cu^2+/Cu) = 0.337 V``; ``unit`` is that of the answer. A ``bank``
    brings its own data sheet, couples and relations. Raises ``Faulty`` for what can't be read, is impossible, or can't be derived.
    """
    return working_out(diagram, given, find, unit, sheet, shift_E0=shift_E0, bank=bank).data


def working_out(
    diagram: str | None,
    given: Sequence[str],
    find: str,
    unit: str | None = None,
    sheet: str = "college",
    *,
    shift_E0: bool = False,
    bank: Path | None = None,
) -> Work:
    """``work`` with its document steps; the same arguments and faults."""
    known = catalogue(bank) if bank else catalogue()
    told, page, unit = _all(
        lambda: read_told(given, known), lambda: _sheet(sheet, bank), lambda: _unit_of_answer(find, unit, known)
    )
    concentration: Literal["mol/dm3", "mol/L"] = "mol/dm3" if unit == "mol/dm3" else "mol/L"
    nernst: Literal["lg", "ln"] = "lg" if any(each.name == "slope" for each in told) else "ln"
    printer = Printer(Settings(sheet=sheet, nernst=nernst, concentration_unit=concentration), known)
    cell: GalvanicCell | None = None
    if diagram is None:
        situation = loose(told, page, known, nernst=nernst, wanted=find)
    else:
        cell, situation = told_cell(diagram, told, page, known, find, nernst=nernst, shift_E0=shift_E0)
        join(situation, known, DIAGRAM, nernst)
    names = tuple(each.name for each in told)
    return _worked(_Wanted(find, unit, names), situation, cell, printer)


def _all(first: Callable[[], One], second: Callable[[], Two], third: Callable[[], Three]) -> tuple[One, Two, Three]:
    """The results of all three, each read twice at most; raises ``Faulty`` with the faults of all."""
    faults: list[Fault] = []
    for read in (first, second, third):
        try:
            read()
        except Faulty as error:
            faults.extend(error.faults)
    if faults:
        raise Faulty(faults)
    return first(), second(), third()


def _sheet(name: str, bank: Path | None) -> Sheet:
    """The bank's own data sheet with its couples, or the shipped sheet of that name."""
    if bank is None:
        return sheet_of(name)
    from saltbridge.bank.bank import load_bank  # noqa: PLC0415 - the template model is slow to import, and rarely needed here

    return load_bank(bank).sheet


def known_names(bank: Path | None = None) -> str:
    """What ``work`` can be given and can find, by family, with name and unit, for a terminal; a ``bank`` adds its own."""
    if bank is not None:
        from saltbridge.bank.bank import require_bank  # noqa: PLC0415 - the template model is slow to import, and rarely needed here

        require_bank(bank)
    return listing(catalogue(bank) if bank else catalogue())


def _unit_of_answer(find: str, unit: str | None, known: Catalogue) -> str | None:
    """The unit asked for, in the project's writing; raises ``Faulty`` where ``find`` or its unit can't be meant."""
    others = (*ROLES, *UNKNOWNS, EQUATION)
    if find not in others:
        require_quantity(find, known, others)
    if unit is None:
        return None
    if not unit.strip():
        raise fault(
            "no-unit", expected="a unit after --in, such as kJ/mol", found="nothing", hint="Write the unit, or leave out --in."
        )
    quantity = known.quantities.get(find)
    if quantity is None:
        raise fault("no-unit", expected=f"no unit for the {find}", found=unit, hint="Leave out --in.")
    refuse_unit(quantity, unit)
    return units.unit_text(unit)


# ------------------------------------------------------------------ solving


@dataclass(frozen=True, slots=True)
class _Wanted:
    """What is asked, in which unit, and the names given."""

    find: str
    unit: str | None
    told: tuple[str, ...]


def _worked(wanted: _Wanted, situation: Situation, cell: GalvanicCell | None, printer: Printer) -> Work:
    find = wanted.find
    known = printer.catalogue
    balanced = cell is None and find == EQUATION and EQUATION in situation.words
    if cell is None and find in (*ROLES, EQUATION) and not balanced:
        raise fault("needs-diagram", expected=f"a cell diagram to find the {find}", found="none")
    counted = find == EQUATION and not any(law.node == EQUATION for law in situation.laws if isinstance(law, Balance))
    target = unknown_node(situation, cell, find) if find in UNKNOWNS else "n" if counted else find
    quantity = quantity_of(target, known.quantities)
    if quantity is not None and quantity.word:
        quantity = None
    if quantity is not None and find != EQUATION:
        # A bank prints litres or cubic decimetres by its settings; the two are one unit.
        unit = "mol/L" if wanted.unit == "mol/dm3" else wanted.unit
        target = add_print_unit(situation, known, target, unit or quantity.show)
    also = [role for role in ROLES if cell is not None and "anode" in reachable(situation)]
    graph = graph_of(situation, [target, *also], known)
    start = graph.start(situation.given)
    context = Context(printer, Drawn(known, situation, graph, start, graph.run(start)))
    value = _defined(graph, context.drawn.cells, target, find, known)
    plain = find == EQUATION or isinstance(value, str)
    done = _named(context, cell, find, _told(context, target)) if plain else _number(context, cell, find, target)
    unused = _unused(wanted.told, graph, [target], known)
    note = (f"Not needed for this: {', '.join(unused)}.",) if unused else ()
    return replace(done, data={**done.data, "unused": unused}, notes=(*done.notes, *note))


def _unused(told: Sequence[str], graph: Graph, targets: Sequence[str], known: Catalogue) -> list[str]:
    """What was given for nothing, so that a mistyped plan is seen."""
    used = {name for target in targets for step in graph.upstream(target) for name in (step.node.split(":", 1)[0], step.node)}
    by_owner = {"E0", "c", "p"} | ({"metal"} if used & {"z", "M", "main.E0"} else set())
    if any((quantity := quantity_of(name, known.quantities)) and quantity.symbol == "c" for name in used):
        by_owner |= {"c_H", "c_OH"}  # told of a couple or cell they are the amounts of their ions
    read = {name for name in told if name != "metal" and name in known.quantities and known.quantities[name].word}
    return [name for name in told if name not in used | by_owner | read]


def _told(context: Context, target: str) -> Telling:
    drawn = context.drawn
    return telling(context, walk(drawn.graph, target, picked=picked_sides(drawn.graph, drawn.cells)))


def _defined(graph: Graph, cells: list[Any], node: str, find: str, known: Catalogue) -> Value:
    value = graph.value(cells, node)
    quantity = quantity_of(node, known.quantities)
    if value == 0 and quantity is not None and quantity.least == "positive":
        value = Undefined("a number too small to hold")
    if isinstance(value, float) and quantity is not None and value < 0 and quantity.least != "any":
        shown = f"{to_figures(value, 3)} {graph_unit(node, quantity)}".strip()
        raise fault("impossible", expected=f"{find} not below zero", found=f"{shown} from what is given")
    if isinstance(value, Undefined):
        raise fault(
            "undefined",
            expected=f"{find} to exist",
            found=value.why,
            hint=f"Find lg{find}." if f"lg{find}" in known.quantities else "",
        )
    return value


def graph_unit(node: str, quantity: Quantity) -> str:
    """The unit of a node: the one in its name, else the quantity's own."""
    return node.split(":", 1)[1] if ":" in node else quantity.unit


def _outcome(context: Context, target: str) -> Outcome:
    drawn = context.drawn
    count = figures(measured(drawn.graph, drawn.cells, drawn.situation.given)[target])
    quantity, value = quantity_of(target, drawn.catalogue.quantities), drawn.cells[drawn.graph.index[target]]
    if quantity is not None and quantity.whole and isinstance(value, float) and value == round(value):
        asked = Asked(decimals=0)
    else:
        asked = Asked(
            figures=min(6, max(3, count)) if count is not None else 4,
            log=flags_of(target, drawn.catalogue.quantities).by_logarithm,
        )
    points = points_of(drawn.graph, target, drawn.situation, drawn.catalogue)
    return outcome(drawn.graph, drawn.start, target, asked, points)


# ------------------------------------------------------------------ plain data


def _number(context: Context, cell: GalvanicCell | None, find: str, target: str) -> Work:
    """A number with what belongs to it; one that is given, read or counted has no accepted range and no slips."""
    how = context.drawn.graph.step(target).how
    found = None if how == "balance" or target in context.situation.given else _outcome(context, target)
    if found is not None:
        _judge(context.drawn, target, found)
    told = _told(context, target)
    value = found.exact if found else _plain(context.drawn.cells[context.drawn.graph.index[target]], how)
    data: dict[str, Any] = {"find": find, "value": value, "unit": context.printer.shown_unit(context.unit(target))}
    data["text"] = spans_text((context.answer(target),))
    accepted = ""
    if found:
        lo, hi = found.right.lo, found.right.hi
        data["accepted"] = [float(lo), float(hi)]
        accepted = f"accepted: {_bound(context.printer, lo)} to {_bound(context.printer, hi)}"
    data |= _cell_data(context, cell) | {"steps": _steps(told)}
    if found:
        data["slips"] = [{"id": each.point.slip.id, "value": each.exact, "hint": each.point.slip.hint} for each in found.slips]
    known = () if told.steps else (ALREADY.replace("{symbol}", find),)
    return Work(_tidy(data), told.steps, told.slots, accepted, (*known, *_notes(context, cell)))


_MOST_GUARD = 8


def _judge(drawn: Drawn, target: str, found: Outcome) -> None:
    """Take the answer over, its working written with as many figures as lead to it digit for digit."""
    passed = unwritten(drawn.graph, (target,), "steps", picked_sides(drawn.graph, drawn.cells))
    for guard in range(GUARD, _MOST_GUARD):
        drawn.judge({target: found}, passed, guard)
        if not drawn.unlike_written():
            return


def _bound(printer: Printer, value: Decimal) -> str:
    return spans_text((printer.number(to_figures(value, 3) if len(value.as_tuple().digits) > 7 else value),))


def _named(context: Context, cell: GalvanicCell | None, find: str, told: Telling) -> Work:
    data: dict[str, Any] = {"find": find, "text": "", **_cell_data(context, cell), "steps": _steps(told)}
    if find == EQUATION:
        data[EQUATION] = data.get(EQUATION) or context.situation.words[EQUATION]
    data["text"] = data[EQUATION] if find == EQUATION else _said(context, data, find)
    return Work(_tidy(data), told.steps, told.slots, notes=_notes(context, cell))


def _said(context: Context, data: Mapping[str, Any], find: str) -> str:
    """A named thing in words: a role with its side, or what a rule gave, by its label where it has one."""
    if find in ROLES:
        return f"{data[find]} ({data[f'{find}_side']})"
    drawn = context.drawn
    value = str(drawn.graph.value(drawn.cells, find))
    labels = context.situation.labels
    label = labels.get(f"{value}.{find}") or labels.get(value)
    picked = next((each for law in context.situation.laws for each in _among(law, find, value)), None)
    if picked is not None and not label and value not in SIDES:
        return spans_text((context.shown(picked),))
    return spans_text((label,)) if label else value


def _among(law: Law, find: str, key: str) -> tuple[str, ...]:
    """What a rule that picks one of several things looked at on the thing of that key: its number tells which one is meant."""
    return tuple(name for name in law.inputs if name.startswith(f"{key}.")) if isinstance(law, Rule) and law.node == find else ()


def _cell_data(context: Context, cell: GalvanicCell | None) -> dict[str, Any]:
    if cell is None:
        return {}
    data: dict[str, Any] = {}
    drawn = context.drawn
    if "anode" in drawn.graph.index and not isinstance(drawn.graph.value(drawn.cells, "anode"), Undefined):
        for role in ROLES:
            side: Side = "left" if drawn.graph.value(drawn.cells, role) == "left" else "right"
            data |= {role: cell.side(side).half.couple_label, f"{role}_side": side}
    text = transfer_text(cell) if cell.is_concentration_cell else cell_reaction(cell).equation.bare.text
    return data | {EQUATION: text}


def _steps(told: Telling) -> list[dict[str, Any]]:
    return [_tidy(_step(each, told.slots)) for each in told.entries]


def _step(entry: Entry, slots: tuple[Spans, ...]) -> dict[str, Any]:
    return {
        "how": entry.how, "say": spans_text(entry.say, slots), "symbolic": math_text(entry.symbolic, slots) if entry.symbolic else "",
        "numbers": math_text(entry.numbers, slots) if entry.numbers else "", "value": _plain(entry.value, entry.how), "unit": entry.unit,
    }  # fmt: skip


def _plain(value: Value, how: str) -> float | str | int:
    """A value for JSON; what was counted is a whole number."""
    if isinstance(value, Undefined):
        return value.why
    return int(value) if how == "balance" and isinstance(value, float) else value


def _tidy(data: dict[str, Any]) -> dict[str, Any]:
    """The data with plain spaces, without texts that would be empty."""
    plain = {key: plain_spaces(value) if isinstance(value, str) else value for key, value in data.items()}
    return {key: value for key, value in plain.items() if value != ""}


def _notes(context: Context, cell: GalvanicCell | None) -> tuple[str, ...]:
    return tuple(spans_text(each) for each in notes(context, cell))
