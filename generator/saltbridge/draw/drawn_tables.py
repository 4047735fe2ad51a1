"""Tables to complete: their cells as parts of their own, and how a variant shows them.

Which of the written rows stand there, in which order, and which cells are blank is drawn by name, from a few arrangements
of each table: a page keeps one skeleton for each.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.bank.answer_keys import ChooseKeys, FindKeys, SpeciesKeys, WordKeys
from saltbridge.bank.parts import AnyPart, ChoosePart, FindPart
from saltbridge.bank.table_part import AnyCell, AnyColumn, GivenCell, TablePart
from saltbridge.bank.template import Template
from saltbridge.bank.typed_parts import SpeciesPart
from saltbridge.bank.word_part import WordPart
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.seeds import Seed
from saltbridge.forms.prose import Prose
from saltbridge.forms.stand_in import EACH, named_for, text_for

Lists = Mapping[str, tuple[str, ...]]
MOST_ARRANGEMENTS = 24
"""Arrangements of one table among which variants draw."""


class FoundCell(FindPart):
    """A number in a table: a mark stands at the cell, not at the lines of its working."""


class ChosenCell(ChoosePart):
    """A choice in a table: its options stand as written, alike in every row."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One thing that is asked, a part or a cell of a table, with the key where it is written; ``at`` its part, from 0."""

    key: str
    at: int
    part: AnyPart


@dataclass(frozen=True, slots=True)
class TableCell:
    """A cell as it is written: a text that is given, or what is asked."""

    key: str
    content: Prose | AnyPart


@dataclass(frozen=True, slots=True)
class Arrangement:
    """The rows that a variant shows, by their places as written, and the cells of them that are to be answered."""

    rows: tuple[int, ...]
    blank: frozenset[tuple[int, int]]


def leaves(template: Template, lists: Lists | None) -> Iterator[Leaf]:
    """Everything that is asked, the cells of tables one by one; ``lists`` are those of the scene, none for what is asked of ``each``."""
    for at, part in enumerate(template.parts):
        key = f"parts[{at + 1}]"
        if isinstance(part, TablePart):
            cells = (cell for row in cells_of(part, lists) for cell in row)
            yield from (Leaf(f"{key}.{cell.key}", at, cell.content) for cell in cells if not isinstance(cell.content, Prose))
        else:
            yield Leaf(key, at, part)


def finds_of(template: Template, lists: Lists | None) -> list[FindPart]:
    """The numbers that are asked for, those in the cells of tables among them."""
    return [leaf.part for leaf in leaves(template, lists) if isinstance(leaf.part, FindPart)]


def table_texts(part: TablePart, lists: Lists | None) -> Iterator[tuple[str, Prose]]:
    """The headings and given cells of a table, each with its key in the part."""
    for at, column in enumerate(part.table.columns, 1):
        yield f"table.columns[{at}].head", column.head
    for row in cells_of(part, lists):
        for cell in row:
            if isinstance(cell.content, Prose):
                yield cell.key, cell.content
            elif (why := getattr(cell.content, "why", None)) is not None:
                yield f"{cell.key}.why", why


def things_of(part: TablePart, lists: Lists | None) -> tuple[str, ...]:
    """The things of which each has a row, a name that stands for a list taken apart; none where the rows are written out."""
    if lists is None:
        return (EACH,) if part.table.things else ()
    return tuple(thing for name in part.table.things for thing in lists.get(name, (name,)))


def cells_of(part: TablePart, lists: Lists | None) -> tuple[tuple[TableCell, ...], ...]:
    """Every cell of every row that a variant may show; made once for the same things."""
    things = things_of(part, lists)
    known: tuple[tuple[TableCell, ...], ...] | None = part.kept.get(things)
    if known is None:
        known = part.kept[things] = _cells_of(part, things)
    return known


def _cells_of(part: TablePart, things: Sequence[str]) -> tuple[tuple[TableCell, ...], ...]:
    if part.table.written:
        return tuple(
            tuple(
                TableCell(f"table.rows[{row}][{column}]", _content(cell, part.table.columns[column - 1].head))
                for column, cell in enumerate(cells, 1)
            )
            for row, cells in enumerate(part.table.written, 1)
        )
    return tuple(tuple(_cells_of_thing(part, thing)) for thing in things)


def _cells_of_thing(part: TablePart, thing: str) -> Iterator[TableCell]:
    for at, column in enumerate(part.table.columns, 1):
        key = f"table.columns[{at}]"
        instead = getattr(column, "except_", {}).get(thing)
        content = instead if instead is not None else _content(column, column.head)
        yield TableCell(key, _for(content, thing))


def _content(cell: AnyCell | AnyColumn, head: Prose) -> Prose | AnyPart:
    """What stands in a cell: the text that is given, or a part whose question is the heading of its column."""
    told: dict[str, Any] = {"ask": head, "marks": 1, "hint": None}
    match cell:
        case GivenCell():
            return cell.given
        case FindKeys():
            return FoundCell.model_construct(**told, **_values(cell, FindKeys))
        case ChooseKeys():
            return ChosenCell.model_construct(**told, **_values(cell, ChooseKeys))
        case WordKeys():
            return WordPart.model_construct(**told, **_values(cell, WordKeys))
        case SpeciesKeys():
            return SpeciesPart.model_construct(**told, **_values(cell, SpeciesKeys))
        case _:
            raise TypeError(f"no content in a cell of {type(cell).__name__}")


def _values(cell: object, keys: type[FindKeys | ChooseKeys | WordKeys | SpeciesKeys]) -> dict[str, Any]:
    return {name: getattr(cell, name) for name in keys.model_fields}


def _for(content: Prose | AnyPart, thing: str) -> Prose | AnyPart:
    """The content with the thing in place of ``each``."""
    if isinstance(content, Prose):
        return text_for(content, thing)
    values = {name: getattr(content, name) for name in type(content).model_fields}
    return content.model_copy(update={name: _value_for(value, thing) for name, value in values.items()})


def _value_for(value: Any, thing: str) -> Any:
    """A name, a text or a tuple of them with the thing in place of ``each``; anything else as it is."""
    if isinstance(value, str):
        return named_for(value, thing)
    return tuple(_value_for(each, thing) for each in value) if isinstance(value, tuple) else text_for(value, thing)


# ------------------------------------------------------------------ what a variant shows


def arrangement(part: TablePart, drawn: Drawn) -> Arrangement:
    """The rows and blanks of a variant."""
    rows = cells_of(part, drawn.lists)
    place = Seed("table", part.ask.source, drawn.seed).number("arrangement") % MOST_ARRANGEMENTS
    seed = Seed("table", part.ask.source, f"arrangement {place}")
    places = tuple(range(len(rows)))
    shown = seed.sample("rows", places, part.table.drawn_rows) if part.table.drawn_rows else places
    asked = tuple((row, at) for row in shown for at, cell in enumerate(rows[row]) if not isinstance(cell.content, Prose))
    blank = seed.sample("blanks", asked, min(part.table.blanks, len(asked))) if part.table.blanks else asked
    return Arrangement(shown, frozenset(blank))


def arrangements(template: Template, drawn: Drawn) -> tuple[Arrangement, ...]:
    """Those of all tables of a template."""
    return tuple(arrangement(part, drawn) for part in template.parts if isinstance(part, TablePart))


def shown_rows(part: TablePart, drawn: Drawn) -> tuple[tuple[TableCell, ...], ...]:
    """The rows of a variant, in the order in which they stand."""
    rows = cells_of(part, drawn.lists)
    return tuple(rows[at] for at in arrangement(part, drawn).rows)


def shown_leaves(template: Template, drawn: Drawn) -> Iterator[Leaf]:
    """Everything that a variant asks: each part, and each blank cell of a table, in the order in which they stand."""
    for at, part in enumerate(template.parts):
        key = f"parts[{at + 1}]"
        if isinstance(part, TablePart):
            yield from (Leaf(f"{key}.{cell.key}", at, asked) for _, cell, asked in blanks_of(part, drawn))
        else:
            yield Leaf(key, at, part)


def blanks_of(part: TablePart, drawn: Drawn) -> Iterator[tuple[tuple[int, int], TableCell, AnyPart]]:
    """The cells to be answered, each with its row and column as shown and what it asks."""
    rows, found = cells_of(part, drawn.lists), arrangement(part, drawn)
    for at, row in enumerate(found.rows):
        for column, cell in enumerate(rows[row]):
            if (row, column) in found.blank and not isinstance(cell.content, Prose):
                yield (at, column), cell, cell.content
