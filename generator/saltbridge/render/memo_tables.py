"""The filled table of a memorandum: right answers with their ticks, and beneath it what else is accepted in a cell."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from saltbridge import document as doc
from saltbridge.render.paper_data import Encoder, clean
from saltbridge.words import Words

Cell = dict[str, Any]
Notes = Callable[[doc.BlankCell, Mapping[str, Any]], Cell]
Points = Callable[[int, int], str]


def memo_table(field: doc.TableField, marks: int, encoder: Encoder, words: Words, points: Points) -> dict[str, Any]:
    """Headings, rows and the rule by which marks are given; ``points`` numbers the marks from the first, so many."""
    worth = marks // field.units  # nothing where several cells or rows share a mark
    rows, ends, given = [], [], 0
    for row in field.rows:
        cells = []
        for cell in row:
            tick = worth if isinstance(cell, doc.BlankCell) and field.mark == "cell" else 0
            cells.append(_cell(cell, tick, points(given + 1, tick), encoder))
            given += tick
        rows.append(cells)
        tick = worth if field.mark == "row" and any(isinstance(cell, doc.BlankCell) for cell in row) else 0
        ends.append({"tick": tick, "points": points(given + 1, tick)})
        given += tick
    head = [encoder.spans(each) for each in field.head]
    return {
        "head": head,
        "rows": rows,
        "ends": ends if field.mark == "row" and worth else [],
        "rule": clean(_rule(field, marks, words)),
    }


def _cell(cell: doc.Spans | doc.BlankCell, tick: int, points: str, encoder: Encoder) -> Cell:
    blank = isinstance(cell, doc.BlankCell)
    spans = cell.answer if isinstance(cell, doc.BlankCell) else cell
    return {"body": encoder.spans(spans), "blank": blank, "tick": tick, "points": points}


def _rule(field: doc.TableField, marks: int, words: Words) -> str:
    """How marks are given where a tick can't say it."""
    if field.mark == "whole":
        return words("Marks only where the whole table is right.")
    share = field.units // marks
    if share < 2:
        return words("A mark where the whole row is right.") if field.mark == "row" else ""
    if field.mark == "row":
        return words("One mark for every {count} rows that are right.", count=share)
    return words("One mark for every {count} cells that are right.", count=share)


def cell_notes(field: doc.TableField, keys: Sequence[Mapping[str, Any]], encoder: Encoder, notes: Notes) -> list[Cell]:
    """What else is accepted in a cell, and its common errors, under the names of row and column."""
    found = []
    blanks = iter(zip(field.blanks, keys, strict=False))
    for row in field.rows:
        for column, cell in enumerate(row):
            if isinstance(cell, doc.BlankCell):
                told = notes(*next(blanks))
                if told["accepted"] or told["errors"] or told["words"]:
                    name = row[0] if not isinstance(row[0], doc.BlankCell) else ()
                    found.append({"name": [*encoder.spans(name), ", ", *encoder.spans(field.head[column])], **told})
    return found
