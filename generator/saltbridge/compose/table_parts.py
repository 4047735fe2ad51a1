"""Tables to complete: each blank cell is composed as a part of its kind, and may follow from the cells before it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from saltbridge.bank.parts import AnyPart, ChoosePart, FindPart
from saltbridge.bank.table_part import TablePart
from saltbridge.bank.typed_parts import SpeciesPart
from saltbridge.bank.word_part import WordPart
from saltbridge.compose import filled_prose as prose
from saltbridge.compose.choices import choose, choose_part, own_words
from saltbridge.compose.desk import Desk
from saltbridge.compose.notation_parts import species_part
from saltbridge.compose.number_parts import number_part
from saltbridge.compose.word_parts import word, word_part
from saltbridge.document import BlankCell, Part, Spans, Step, TableField, Text
from saltbridge.draw.drawn_options import without
from saltbridge.draw.drawn_tables import ChosenCell, FoundCell, blanks_of, shown_rows
from saltbridge.faults import Fault, Faulty, fault
from saltbridge.forms.prose import Prose

MOST_HINTS = 3
_COMPOSERS: Mapping[type[AnyPart], Callable[[str, Any, Desk], Part]] = {
    FoundCell: number_part,
    ChosenCell: choose_part,
    WordPart: word_part,
    SpeciesPart: species_part,
}


@dataclass
class _Filled:
    """What the blank cells come to: their keys, workings, and hints by their column."""

    keys: list[dict[str, Any]] = field(default_factory=list)
    working: list[Step] = field(default_factory=list)
    hints: dict[int, tuple[Spans, ...]] = field(default_factory=dict)


def table_part(label: str, part: TablePart, desk: Desk) -> Part:
    """A table. Raises ``Faulty`` as its cells do, each fault at its cell, and where its marks can't be shared out (``table-marks``)."""
    before, filled = len(desk.shares), _Filled()
    blank = {place for place, _, _ in blanks_of(part, desk.drawn)}
    at_part = f"parts[{1 + next(at for at, each in enumerate(desk.template.parts) if each is part)}]"
    rows = tuple(
        tuple(
            _blank(f"{label}.{len(filled.keys) + 1}", (row, column), f"{at_part}.{cell.key}", cell.content, desk, filled)
            if (row, column) in blank and not isinstance(cell.content, Prose)
            else _given(cell.content, desk, f"{at_part}.{cell.key}")
            for column, cell in enumerate(cells)
        )
        for row, cells in enumerate(shown_rows(part, desk.drawn))
    )
    shares = desk.shares[before:]
    desk.shares[before:] = [lambda context: {"cells": [share(context) for share in shares]}]
    head = tuple(own_words(column.head, desk.drawn, desk.setter) for column in part.table.columns)
    table = TableField(head, _notes(rows), rows, part.table.mark, desk.words("Complete the table"))
    shape = {"kind": "table", "mark": part.table.mark, "cells": filled.keys}
    marks = _marks(part, table)
    hints = (*desk.own_hint(part), *_hints(filled))
    body = prose.blocks(part.ask, desk.slots, desk.drawn)
    return Part(label, marks, body, table, hints, tuple(filled.working), _answer(table), shape)


def _blank(label: str, place: tuple[int, int], key: str, asked: AnyPart, desk: Desk, filled: _Filled) -> BlankCell:
    """A cell to answer, made as a part of its kind; its one mark stands at the cell, not at the lines of its working."""
    try:
        made = _COMPOSERS[type(asked)](label, _as_it_is_here(asked, key, desk), desk)
    except Faulty as error:
        raise Faulty(_at(desk, key, error)) from error
    filled.keys.append({**_without_itself(made.judge), "label": label, "row": place[0]})
    filled.working += [replace(step, marks={}) for step in made.working if step not in filled.working]
    filled.hints.setdefault(place[1], made.hints)
    return BlankCell(label, made.field, made.answer, made.errors)  # type: ignore[arg-type] # the composers above make no other field


def _without_itself(key: Mapping[str, Any]) -> dict[str, Any]:
    """The key without earlier answers that ask the very same: the same wrong answer twice follows from nothing."""
    earlier = [each for each in key.get("earlier", ()) if each[1] != key.get("node")]
    return {**key, "earlier": earlier} if "earlier" in key else dict(key)


def _given(content: Prose | AnyPart, desk: Desk, key: str) -> Spans:
    """A text that is given, or the right answer of a cell that is not left blank."""
    try:
        match content:
            case Prose():
                return own_words(content, desk.drawn, desk.setter)
            case FindPart():
                node = desk.drawer.find(content).node
                desk.known.add(node)
                return (desk.setter.answer(node),)
            case ChoosePart():
                known = frozenset(desk.known)
                made = choose(_as_it_is_here(content, key, desk), desk.drawn, desk.setter, desk.catalogue, desk.words, known)
            case WordPart():
                made = word(content, desk)
            case SpeciesPart(species=name):
                return (desk.slots.slot(f"species {name} as it is given", lambda context: (context.shown(name),)),)
            case _:
                raise TypeError(f"no cell of {type(content).__name__}")
    except Faulty as error:
        raise Faulty(_at(desk, key, error)) from error
    desk.known.update((made.node,) if made.node else ())
    return made.answer


def _as_it_is_here(asked: AnyPart, key: str, desk: Desk) -> Any:
    """What is asked, without the options that this draw lacks."""
    return without(asked, desk.fallen.get(key, frozenset())) if isinstance(asked, ChoosePart) else asked


_KEY_OF = {"no-right-option": ".from"}


def _at(desk: Desk, key: str, error: Faulty) -> Iterator[Fault]:
    """The faults at their cell; names that are unknown are placed where they stand."""
    for each in error.faults:
        if each.key or each.code == "unknown-name":
            yield each
        else:
            where = f"{key}{_KEY_OF.get(each.code, '')}"
            yield desk.template.fault(where, each.code, expected=each.expected, found=each.found, hint=each.hint)


# ------------------------------------------------------------------ the whole


def _notes(rows: Sequence[Sequence[Spans | BlankCell]]) -> tuple[str, ...]:
    """How the numbers of each column are wanted, where all are wanted alike."""
    columns = [
        [getattr(cell.field, "wanted", "") for cell in column if isinstance(cell, BlankCell)]
        for column in zip(*rows, strict=True)
    ]
    return tuple(wanted[0] if len(set(wanted)) == 1 else "" for wanted in columns)


def _marks(part: TablePart, table: TableField) -> int:
    """The marks of the table: one a cell, a row or the whole, or what its author says if that can be shared out evenly."""
    units = table.units
    marks = part.marks or units
    if marks % units and units % marks:
        even = sorted({each for each in range(1, units + 1) if units % each == 0} | {2 * units})
        what = "cells to fill in" if part.table.mark == "cell" else "rows"
        raise fault(
            "table-marks",
            expected=f"marks that {units} {what} share evenly: {', '.join(map(str, even))}",
            found=f"`marks: {marks}`",
            hint="Leave `marks` out for one mark each.",
        )
    return marks


def _hints(filled: _Filled) -> tuple[Spans, ...]:
    """The hints of the first blank cell of each column, each once."""
    return tuple(dict.fromkeys(hint for _, hints in sorted(filled.hints.items()) for hint in hints))[:MOST_HINTS]


def _answer(table: TableField) -> Spans:
    """The right answers row by row, each row named."""
    spans: list[Any] = []
    for row in table.rows:
        answers = [cell.answer for cell in row if isinstance(cell, BlankCell)]
        name = row[0] if not isinstance(row[0], BlankCell) else ()
        if answers:
            spans += [Text("; ")] if spans else []
            spans += [*name, Text(": ")]
            for at, answer in enumerate(answers):
                spans += [*([Text(", ")] if at else []), *answer]
    return tuple(spans)
