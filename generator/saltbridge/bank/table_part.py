"""A table to complete: columns, rows, and in each cell a text that is given or something to answer.

Rows are either the things of a list of the scenario, one row each, or are written out cell by cell.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import BeforeValidator, Discriminator, Field, PrivateAttr, Tag, model_validator

from saltbridge.bank.answer_keys import ChooseKeys, FindKeys, SpeciesKeys, WordKeys
from saltbridge.bank.part_base import PartKeys
from saltbridge.forms.fields import Counted, Keys, Name, Whole
from saltbridge.forms.stand_in import EACH
from saltbridge.forms.validation_messages import KeyedValues, nearest, shown, wrong
from saltbridge.forms.value_types import Markdown, Options, UnitText

MOST_COLUMNS, MOST_ROWS, MOST_WRITTEN = 8, 12, 40
"""Columns and rows of a table as a student meets it, and rows written out to draw from."""
CELL_KINDS = ("given", "find", "choose", "word", "species")
SHARED = {"in": "find", "figures": "find", "decimals": "find", "from": "choose"}
"""What a column may say for all its cells that are written out, and the kind of cell that takes it."""


# ------------------------------------------------------------------ cells


class GivenCell(Keys):
    """A text that stands in the table."""

    given: Markdown = Field(description="What stands in the cell, in Markdown with holes.")


class FindCell(FindKeys):
    """A number to calculate."""


class ChooseCell(ChooseKeys):
    """One of several things to choose."""


class WordCell(WordKeys):
    """A short word to write."""


class SpeciesCell(SpeciesKeys):
    """A formula to type."""


class _Headed(Keys):
    """A column, or one whose cells are all alike."""

    head: Markdown = Field(description="The heading of the column.")


class _Alike(_Headed):
    except_: dict[Name, Markdown] = Field(
        {}, description="Things in whose row a text stands instead, as `m1: –` where nothing is asked."
    )


class GivenColumn(_Alike, GivenCell):
    """A column of texts that stand in the table."""


class FindColumn(_Alike, FindCell):
    """A column of numbers to calculate."""


class ChooseColumn(_Alike, ChooseCell):
    """A column of choices."""


class WordColumn(_Alike, WordCell):
    """A column of short words to write."""


class SpeciesColumn(_Alike, SpeciesCell):
    """A column of formulas to type."""


class WrittenColumn(_Headed):
    """A column whose cells are written out in the rows; what it says here counts for those that say nothing else."""

    options: Options | None = Field(None, alias="from", description="What its choices are made from.")
    unit: UnitText | None = Field(None, alias="in", description="The unit in which its numbers are wanted.")
    figures: Whole | None = Field(None, description="Significant figures of its numbers.")
    decimals: Whole | None = Field(None, description="Decimals of its numbers, instead of figures.")


def _kinds(value: object) -> list[str]:
    held = type(value).model_fields if isinstance(value, Keys) else value if isinstance(value, dict) else ()
    return [kind for kind in CELL_KINDS if kind in held]


def _one_kind(value: object, *, none: bool) -> object:
    if isinstance(value, str):
        return {"head": value} if none else {"given": value}
    if not isinstance(value, dict | Keys):
        raise wrong("wrong-type", "a text, or keys with values", shown(value))
    kinds = _kinds(value)
    if len(kinds) > 1 or not (kinds or none):
        found = " and ".join(f"`{kind}`" for kind in kinds) or "none of them"
        guessed = next((hint for key in value if (hint := nearest(str(key), CELL_KINDS))), "") if isinstance(value, dict) else ""
        hint = "Make it two columns." if kinds else guessed or "As `find: each.E0_vs`; a text alone is given."
        raise wrong("cell-kind", f"one of {', '.join(f'`{kind}`' for kind in CELL_KINDS)} in a cell", found, hint)
    return value


def _cell(value: object) -> object:
    return _one_kind(value, none=False)


def _column(value: object) -> object:
    return _one_kind(value, none=True)


def _tag(value: object) -> str:
    return f"<{(_kinds(value) or ['written'])[0]}>"


AnyCell = GivenCell | FindCell | ChooseCell | WordCell | SpeciesCell
Cell = Annotated[
    Annotated[GivenCell, Tag("<given>")]
    | Annotated[FindCell, Tag("<find>")]
    | Annotated[ChooseCell, Tag("<choose>")]
    | Annotated[WordCell, Tag("<word>")]
    | Annotated[SpeciesCell, Tag("<species>")],
    Discriminator(_tag),
    BeforeValidator(_cell),
]
AnyColumn = GivenColumn | FindColumn | ChooseColumn | WordColumn | SpeciesColumn | WrittenColumn
Column = Annotated[
    Annotated[GivenColumn, Tag("<given>")]
    | Annotated[FindColumn, Tag("<find>")]
    | Annotated[ChooseColumn, Tag("<choose>")]
    | Annotated[WordColumn, Tag("<word>")]
    | Annotated[SpeciesColumn, Tag("<species>")]
    | Annotated[WrittenColumn, Tag("<written>")],
    Discriminator(_tag),
    BeforeValidator(_column),
]


# ------------------------------------------------------------------ the table


def _things(value: object) -> object:
    """One name may stand without brackets."""
    return [value] if isinstance(value, str) else value


def _which_rows(value: object) -> str:
    """Names of things, or rows written out."""
    lists = isinstance(value, list | tuple) and any(isinstance(each, list | tuple) for each in value)
    return "<written>" if lists else "<things>"


def _counted(least: int, most: int, what: str, hint: str = "") -> BeforeValidator:
    def check(value: object) -> object:
        if not isinstance(value, list | tuple):
            raise wrong("wrong-type", f"a list of {what}", shown(value), hint)
        if not least <= len(value) <= most:
            raise wrong("list-length", f"{least} to {most} {what}", f"{len(value)}")
        return value

    return BeforeValidator(check)


WrittenRow = Annotated[tuple[Cell, ...], _counted(2, MOST_COLUMNS, "cells", "As `- [In the wire, {choose: in_wire}]`.")]
Things = Annotated[tuple[Name, ...], _counted(1, MOST_ROWS, "names")]
WrittenRows = Annotated[tuple[WrittenRow, ...], _counted(1, MOST_WRITTEN, "rows")]
Rows = Annotated[
    Annotated[Things, Tag("<things>")] | Annotated[WrittenRows, Tag("<written>")],
    Discriminator(_which_rows),
    BeforeValidator(_things),
]


def _filled(values: object) -> object:
    """The cells of written rows with what their column says for them."""
    if not isinstance(values, dict):
        return values
    columns, rows = values.get("columns"), values.get("rows")
    if not isinstance(columns, list) or not isinstance(rows, list):
        return values
    for row in rows:
        for column, cell in zip(columns, row if isinstance(row, list) else (), strict=False):
            if isinstance(column, KeyedValues) and isinstance(cell, KeyedValues):
                _take(column, cell)
    return values


def _take(column: KeyedValues, cell: KeyedValues) -> None:
    """What a cell takes from its column; of `figures` and `decimals` its own goes first."""
    rounded = {"figures", "decimals"}
    for key, kind in SHARED.items():
        if key in column and kind in cell and key not in cell and not (key in rounded and rounded & cell.keys()):
            cell[key] = column[key]


class TableKeys(Keys):
    """The columns and rows of a table."""

    columns: Annotated[tuple[Column, ...], _counted(2, MOST_COLUMNS, "columns")] = Field(
        description="The columns: a heading alone, or `head` with what stands in the cells. The first names the rows."
    )
    rows: Rows = Field(
        description="A list of the scenario, such as `metals`, one row a thing, for which `each` stands in the columns; or the rows, each a list of cells."
    )
    drawn_rows: Counted | None = Field(
        None, description="How many of the written rows are drawn, in a drawn order; without it all, as written."
    )
    blanks: Counted | None = Field(
        None, description="How many of the cells that can be asked are drawn to be left blank; the others are printed."
    )
    mark: Literal["cell", "row", "whole"] = Field(
        "cell", description="What a mark is given for: each right `cell`, each `row` that is right, or the `whole` table."
    )

    @model_validator(mode="before")
    @classmethod
    def _cells_take_from_columns(cls, values: object) -> object:
        return _filled(values)

    @property
    def things(self) -> tuple[str, ...]:
        """The names of the things that have a row each; none where the rows are written out."""
        return tuple(row for row in self.rows if isinstance(row, str))

    @property
    def written(self) -> tuple[tuple[AnyCell, ...], ...]:
        """The rows that are written out; none where each is a thing of a list."""
        return tuple(row for row in self.rows if not isinstance(row, str))

    @model_validator(mode="after")
    def _fits(self) -> Self:
        if self.written:
            self._check_written()
        else:
            self._check_things()
        if not any(self._asks(cell) for cell in self._cells()):
            raise wrong("table-asks-nothing", "a cell to answer", "given texts only", "As `find: each.E0_vs` in a column.")
        return self

    def _cells(self) -> list[Any]:
        return [cell for row in self.written for cell in row] if self.written else list(self.columns)

    @staticmethod
    def _asks(cell: object) -> bool:
        return isinstance(cell, FindKeys | ChooseKeys | WordKeys | SpeciesKeys)

    def _check_written(self) -> None:
        for at, column in enumerate(self.columns, 1):
            if not isinstance(column, WrittenColumn):
                kind = _kinds(column)[0]
                hint = f"Write `{kind}` in the cells of the rows; a column may say `from`, `in`, `figures` or `decimals` for all."
                raise wrong("table-column", "headings of columns, as the rows are written out", f"`{kind}` in column {at}", hint)
        for at, row in enumerate(self.written, 1):
            if len(row) != len(self.columns):
                found = f"{len(row)} in row {at}"
                raise wrong("table-row", f"{len(self.columns)} cells in each row, as many as columns", found)
            if not isinstance(row[0], GivenCell):
                raise wrong("table-row", "a text in the first cell, which names the row", f"`{_kinds(row[0])[0]}` in row {at}")
        if self.drawn_rows and self.drawn_rows > len(self.written):
            raise wrong("table-rows", f"at most {len(self.written)} drawn rows, as many as are written", f"{self.drawn_rows}")
        if (shown_rows := self.drawn_rows or len(self.written)) > MOST_ROWS:
            raise wrong("table-rows", f"at most {MOST_ROWS} rows", f"{shown_rows}", f"As `drawn rows: {MOST_ROWS // 2}`.")

    def _check_things(self) -> None:
        if not isinstance(self.columns[0], GivenColumn):
            hint = f"As `{{head: Metal, given: '{{{{ {EACH}.metal }}}}'}}`."
            raise wrong(
                "table-column", "a text in the first column, which names the rows", shown(str(self.columns[0].head.source)), hint
            )
        for column in self.columns:
            if isinstance(column, WrittenColumn):
                hint = f"`{EACH}` stands for the thing of the row: `find: {EACH}.E0_vs`."
                raise wrong("table-column", "what stands in each column", f"the heading `{column.head.source}` alone", hint)
        if self.drawn_rows:
            raise wrong(
                "table-rows",
                "`drawn rows` beside rows that are written out",
                "a list of things",
                "The scenario draws the things.",
            )


class TablePart(PartKeys):
    """A table to complete."""

    table: TableKeys = Field(description="The table: columns, rows, and what a mark is given for.")
    _kept: dict[tuple[str, ...], Any] = PrivateAttr(default_factory=dict)

    @property
    def kept(self) -> dict[tuple[str, ...], Any]:
        """What was made of it for the things of a draw, by their names."""
        return self._kept
