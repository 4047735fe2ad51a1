"""Class sheets and marking grids → plain data for their layouts."""

from __future__ import annotations

from typing import Any

from saltbridge import document as doc
from saltbridge.render.paper_data import Encoder, Node, clean
from saltbridge.words import Words

_LEAST = 14.0
_BOLD, _RANGE, _SMALL, _GAP = 1.52, 1.18, 1.12, 1.2
"""Millimetres of a character of an answer, of a range, of what an error gives, and between two of these: measured on print."""

_SPOKEN = frozenset({"q", "w", "a"})
_TAGS = frozenset({"b", "i", "c", "r", "d", "u", "s", "=", "o", "f", "t", "(", "fn", "v"})
_SPACED = frozenset({"=", "o"})
"""Tags of nodes whose first text is spoken and not printed, of the others, and of signs with a space on either side."""


def _no_figures(figure: doc.Figure) -> str:
    raise ValueError(f"a class sheet holds no figure, but {figure.name} stands in it")


def class_sheet_data(sheet: doc.ClassSheet) -> dict[str, Any]:
    """A printed list; its tables break between rows, and each column is as wide as what stands in it asks for."""
    encoder = Encoder(None, _no_figures)
    return {
        "title": clean(sheet.title),
        "set": clean(sheet.set_title),
        "footer": clean(sheet.footer),
        "lead": [encoder.spans(each) for each in sheet.lead],
        "entries": [clean(each) for each in sheet.entries],
        "landscape": sheet.landscape,
        "open": sheet.open_rows,
        "tables": [_table(each, encoder) for each in sheet.tables],
    }


def _table(table: doc.Grid, encoder: Encoder) -> dict[str, Any]:
    return {
        "caption": encoder.spans(table.caption),
        "head": [encoder.spans(each) for each in table.head],
        "rows": [[encoder.spans(each) for each in row] for row in table.rows],
        "numeric": list(table.numeric),
    }


def grid_data(grid: doc.MarkingGrid, words: Words) -> dict[str, Any]:
    """A marking grid; columns are as wide as what stands in them asks for."""
    rows = [_grid_row(row) for row in grid.rows]
    key = Encoder(grid.rows[0].variant if grid.rows else None, _no_figures)
    return {
        "number": grid.number,
        "title": clean(grid.title),
        "set": clean(grid.set_title),
        "policy": clean(grid.policy),
        "version": words("version {number}", number=str(grid.version)),
        "footer": clean(grid.footer),
        "marks": words("Marks"),
        "code": words("Code"),
        "parts": [
            {"label": clean(label), "marks": marks, "width": _width(grid, at)} for at, (label, marks) in enumerate(grid.parts)
        ],
        "rows": rows,
        "key": [[letter, key.spans(said)] for letter, said in grid.key],
        "points": [[clean(label), key.spans(said)] for label, said in grid.points],
        "follows": words("with an arrow: what follows from that error in an earlier part"),
        "total": sum(marks for _, marks in grid.parts),
    }


def _grid_row(row: doc.GridRow) -> dict[str, Any]:
    encoder = Encoder(row.variant, _no_figures)
    return {
        "code": clean(row.code),
        "number": clean(row.number),
        "cells": [
            {
                "answer": encoder.spans(cell.answer),
                "accepted": encoder.spans(cell.accepted),
                "wrong": [_wrong(each, encoder) for each in cell.wrong],
            }
            for cell in row.cells
        ],
    }


def _wrong(each: doc.WrongValue, encoder: Encoder) -> list[Node]:
    return [each.letter + ("→" if each.follows else ""), encoder.spans(each.value)]


def _width(grid: doc.MarkingGrid, at: int) -> float:
    """Millimetres that a column asks for, so that answer and range stand on one line and what errors give on another."""
    widths = [_LEAST]
    for row in grid.rows:
        cell, encoder = row.cells[at], Encoder(row.variant, _no_figures)
        above = _BOLD * _length(encoder.spans(cell.answer)) + _RANGE * (_length(encoder.spans(cell.accepted)) + 2)
        below = sum(_SMALL * (_length(encoder.spans(each.value)) + (4 if each.follows else 2)) + _GAP for each in cell.wrong)
        widths.append(max(above, below))
    return round(max(widths), 1)


def _length(node: Any) -> int:
    """Characters of a node, without its tags, flags and spoken words."""
    if isinstance(node, str):
        return len(node)
    if not isinstance(node, list):
        return 0
    tag = node[0] if len(node) > 1 and isinstance(node[0], str) else ""
    shown = node[2:] if tag in _SPOKEN else node[1:] if tag in _TAGS else node
    return sum(map(_length, shown)) + (2 if tag in _SPACED else 0)
