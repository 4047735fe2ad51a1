"""A table to complete as HTML: each blank cell holds a field named by its row and column, and room for its own verdict.

The script finds a blank cell by ``data-cell`` (its label) and ``data-cell-kind``, its name by ``data-name``, its verdict by
``data-cell-verdict``. On narrow screens a row stands as a block, each cell under its heading (styles/table.css).
"""

from __future__ import annotations

from saltbridge.document import BlankCell, ChoiceField, Grid, NotationField, NumberField, Spans, TableField
from saltbridge.render.field_place import Place, box
from saltbridge.render.html import block_html, spans_html
from saltbridge.render.skeleton import escape
from saltbridge.words import Words

_MANY = 5
"""From so many columns on a table is stacked on wider screens too."""


def table_markup(field: TableField, place: Place) -> str:
    """The table; its caption is the question."""
    heads = "".join([_head(head, note) for head, note in zip(field.head, field.notes, strict=True)])
    rows = "".join([_row(row, field, place) for row in field.rows])
    looks = "to-fill to-fill-wide" if len(field.head) >= _MANY else "to-fill"
    return (
        f'<div class="table-room" data-line><table class="{looks}" role="table">{place.asked}'
        f'<thead role="rowgroup"><tr role="row">{heads}</tr></thead><tbody role="rowgroup">{rows}</tbody></table></div>'
        '<ul class="cell-notes" data-cell-notes></ul>'
    )


def filled_table(field: TableField, words: Words) -> str:
    """The table with the right answers."""
    rows = tuple(tuple(cell.answer if isinstance(cell, BlankCell) else cell for cell in row) for row in field.rows)
    return block_html(Grid((), field.head, rows, row_heads=True), words)


def _head(head: Spans, note: str) -> str:
    told = f' <span class="note quiet">({escape(note)})</span>' if note else ""
    return f'<th scope="col" role="columnheader">{spans_html(head)}{told}</th>'


def _row(row: tuple[Spans | BlankCell, ...], field: TableField, place: Place) -> str:
    named = row[0] if not isinstance(row[0], BlankCell) else ()
    cells = [f'<th scope="row" role="rowheader">{spans_html(named)}</th>']
    for column, cell in enumerate(row[1:], 1):
        told = f'<span class="cell-head" aria-hidden="true">{spans_html(field.head[column])}</span>'
        if isinstance(cell, BlankCell):
            cells.append(_blank(cell, named, field.head[column], field.notes[column], told, place))
        else:
            cells.append(f'<td role="cell">{told}<span>{spans_html(cell)}</span></td>')
    return f'<tr role="row">{"".join(cells)}</tr>'


def _blank(cell: BlankCell, row: Spans, column: Spans, note: str, told: str, place: Place) -> str:
    name = f"{place.name}-{cell.label.rpartition('.')[2]}"
    called = f"({escape(place.label)}) <span data-name>{spans_html(row)}, {spans_html(column)}</span>"
    kind, controls = _controls(cell, name, called, note)
    verdict = f'<p class="cell-verdict" id="{name}-verdict" data-cell-verdict></p>'
    return f'<td role="cell" data-cell="{escape(cell.label)}" data-cell-kind="{kind}">{told}{controls}{verdict}</td>'


def _controls(cell: BlankCell, name: str, called: str, note: str) -> tuple[str, str]:
    match cell.field:
        case ChoiceField() as field:
            options = "".join(
                [
                    f'<div class="option"><input type="radio" name="{name}" value="{at}" id="{name}-{at}">'
                    f'<label for="{name}-{at}">{spans_html(option)}</label></div>'
                    for at, option in enumerate(field.options)
                ]
            )
            legend = f'<legend class="unseen">{called}</legend>'
            return "choice", f'<fieldset aria-describedby="{name}-verdict">{legend}{options}</fieldset>'
        case NumberField() as field:
            unit = f", {escape(field.unit.spoken)}" if field.unit else ""
            wanted = f" ({escape(field.wanted)})" if field.wanted else ""
            label = f'<label class="unseen" for="{name}-typed">{called}{unit}{wanted}</label>'
            beside = f'<span class="unit">{spans_html((field.unit,))}</span>' if field.unit else ""
            below = f'<span class="wanted quiet" aria-hidden="true">{wanted.strip()}</span>' if wanted and not note else ""
            return "number", f'{label}<span class="boxed">{box(name, "short")}{beside}</span>{below}'
        case NotationField() as field:
            label = f'<label class="unseen" for="{name}-typed">{called}, {escape(field.label)}</label>'
            how = f'<span class="wanted quiet">{spans_html(field.how)}</span>' if field.how else ""
            return "species", f"{label}{box(name, 'short')}{how}"
        case _:
            return "word", f'<label class="unseen" for="{name}-typed">{called}</label>{box(name, "short")}'
