"""A table to complete on paper: headings, given texts, and room to write in each blank cell; nothing of an answer goes in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from saltbridge import document as doc
from saltbridge.render.paper_data import Encoder, Node, clean
from saltbridge.render.paper_room import length
from saltbridge.words import Words

_LEAST, _MOST = 8, 34
"""Characters that a column is at least and at most as wide as, for its share of the width."""
_WRITTEN = 12
"""Characters of room to write a number or a word."""


def paper_table(field: doc.TableField, encoder: Encoder, words: Words) -> dict[str, Any]:
    """The table as the layout sets it; ``widths`` are the shares of its columns, ``notes`` stand beneath the headings."""
    shared = [_shared(column, encoder, words) for column in _columns(field)]
    head = [encoder.spans(each) for each in field.head]
    notes = [[*told, *([clean(f"({note})")] if note else [])] for told, note in zip(shared, field.notes, strict=True)]
    rows = [[_cell(cell, bool(field.notes[at]), encoder) for at, cell in enumerate(row)] for row in field.rows]
    for row in rows:
        for at, cell in enumerate(row):
            cell["options"] = [] if shared[at] else cell["options"]
    return {"kind": "table", "head": head, "notes": notes, "rows": rows, "widths": _widths(head, notes, rows)}


def rung_in_cells(field: doc.TableField) -> Iterator[bool]:
    """For each column, whether its choices are printed in its cells, as they differ from row to row."""
    for column in _columns(field):
        options = [cell.field.options for cell in column if isinstance(cell.field, doc.ChoiceField)]
        yield bool(options) and len(set(options)) > 1


def _columns(field: doc.TableField) -> list[list[doc.BlankCell]]:
    """The blank cells by their columns."""
    return [[cell for cell in column if isinstance(cell, doc.BlankCell)] for column in zip(*field.rows, strict=True)]


def _shared(column: Sequence[doc.BlankCell], encoder: Encoder, words: Words) -> list[Node]:
    """What all choices of a column are made from, to stand at its heading; nothing where they differ."""
    options = {cell.field.options for cell in column if isinstance(cell.field, doc.ChoiceField)}
    if len(options) != 1:
        return []
    told: list[Node] = [clean(words("one of:")) + " "]
    for at, option in enumerate(next(iter(options))):
        told += [" · "] if at else []
        told += encoder.spans(option)
    return told


def _cell(cell: doc.Spans | doc.BlankCell, told: bool, encoder: Encoder) -> dict[str, Any]:
    if not isinstance(cell, doc.BlankCell):
        return {"given": encoder.spans(cell), "blank": False, "unit": [], "wanted": "", "options": []}
    match cell.field:
        case doc.ChoiceField(options):
            return {"given": [], "blank": True, "unit": [], "wanted": "", "options": [encoder.spans(each) for each in options]}
        case doc.NumberField(_, unit, _, wanted):
            beside = encoder.spans((unit,)) if unit else []
            return {
                "given": [],
                "blank": True,
                "unit": beside,
                "wanted": "" if told or not wanted else clean(f"({wanted})"),
                "options": [],
            }
        case _:
            return {"given": [], "blank": True, "unit": [], "wanted": "", "options": []}


def _widths(
    head: Sequence[Sequence[Node]], notes: Sequence[Sequence[Node]], rows: Sequence[Sequence[dict[str, Any]]]
) -> list[int]:
    """The share of each column: its longest text, and room to write."""
    found = []
    for at, title in enumerate(head):
        cells = [row[at] for row in rows]
        wide = [length(title), length(notes[at]) // 2]
        for cell in cells:
            room = _WRITTEN + length(cell["unit"]) if cell["blank"] else 0
            wide += [length(cell["given"]), room, *(length(option) + 3 for option in cell["options"])]
        found.append(max(_LEAST, min(_MOST, max(wide))))
    return found
