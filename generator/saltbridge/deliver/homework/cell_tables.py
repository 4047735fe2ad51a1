"""Tables for spreadsheets: CSV with the locale's marks, and XLSX for people.

A text that a spreadsheet would take for a formula is guarded; a number stays a number.
"""

from __future__ import annotations

import csv
import io
import re
import zipfile
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

Cell = str | int | Decimal | None
_STARTS = ("=", "+", "-", "@", "\t", "\r", "\uff1d", "\uff0b", "\uff0d", "\uff20")
_MOMENT = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class CellTable:
    """A heading and rows; ``sums`` are columns (from 0) of which a last column shows the sum in XLSX."""

    name: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    sums: tuple[int, ...] = ()


def csv_bytes(table: CellTable, decimal_mark: str) -> bytes:
    """The table as CSV in UTF-8 with a byte order mark; with a decimal comma the cells are parted by semicolons."""
    made = io.StringIO()
    writer = csv.writer(made, delimiter=";" if decimal_mark == "," else ",", lineterminator="\r\n")
    writer.writerow([_guarded(each) for each in table.head])
    for row in table.rows:
        writer.writerow([_csv_cell(each, decimal_mark) for each in row])
    return made.getvalue().encode("utf-8-sig")


def _csv_cell(cell: Cell, mark: str) -> str:
    if cell is None:
        return ""
    return _guarded(cell) if isinstance(cell, str) else digits(cell).replace(".", mark)


def digits(number: int | Decimal) -> str:
    """A number with its closing zeros, a hyphen as its sign, and a power of ten only where it has many zeros."""
    if isinstance(number, int) or -7 < number.adjusted() < 12:
        return f"{number:f}" if isinstance(number, Decimal) else str(number)
    return f"{number:e}".replace("e+", "E+").replace("e-", "E-")


def _guarded(text: str) -> str:
    """The text, after an apostrophe where a spreadsheet would work it out."""
    return f"'{text}" if text.lstrip().startswith(_STARTS) else text


def xlsx_bytes(table: CellTable) -> bytes:
    """The table as a workbook of one sheet; texts are stored as texts, numbers as numbers with their decimals. The same bytes every time."""
    import openpyxl  # noqa: PLC0415 - only a set writes workbooks
    from openpyxl.styles import Alignment, Font  # noqa: PLC0415 - the same
    from openpyxl.utils import get_column_letter  # noqa: PLC0415 - the same

    book = openpyxl.Workbook()
    sheet: Any = book.active
    sheet.title = table.name
    for column, text in enumerate(table.head, 1):
        cell = _text_cell(sheet, 1, column, text)
        cell.font = Font(bold=True)
        cell.alignment = Alignment(wrap_text=True, vertical="bottom")
    for number, row in enumerate(table.rows, 2):
        for column, value in enumerate(row, 1):
            _put(sheet, number, column, value)
        if table.sums:
            first, last = (sheet.cell(number, at + 1).coordinate for at in (table.sums[0], table.sums[-1]))
            sheet.cell(number, len(table.head), f"=SUM({first}:{last})")
    for column, width in enumerate(_widths(table), 1):
        sheet.column_dimensions[get_column_letter(column)].width = width
    sheet.freeze_panes = "A2"
    return _saved(book)


def _put(sheet: Any, row: int, column: int, value: Cell) -> None:
    if isinstance(value, str):
        _text_cell(sheet, row, column, value)
    elif isinstance(value, Decimal):
        exponent = value.as_tuple().exponent
        places = max(0, -exponent) if isinstance(exponent, int) else 0
        cell = sheet.cell(row, column, float(value))
        cell.number_format = "0.00E+00" if not -5 < value.adjusted() < 9 else "0." + "0" * places if places else "0"
    elif value is not None:
        sheet.cell(row, column, value)


def _text_cell(sheet: Any, row: int, column: int, text: str) -> Any:
    """A cell whose text is never a formula, a date or a number."""
    cell = sheet.cell(row, column)
    cell.value = "".join(mark if mark.isprintable() else " " for mark in text)
    cell.data_type = "s"
    cell.number_format = "@"
    cell.quotePrefix = text.lstrip().startswith(_STARTS)
    return cell


def _widths(table: CellTable) -> list[int]:
    columns = zip(table.head, *table.rows, strict=True)
    return [min(40, max(6, *(len(str(each)) + 2 for each in column if each is not None))) for column in columns]


def _saved(book: Any) -> bytes:
    """The workbook without the moment of its making: neither in its properties nor in the zip around it."""
    moment = datetime(*_MOMENT)  # noqa: DTZ001 - no moment at all
    book.properties.creator = "saltbridge"
    book.properties.created = book.properties.modified = moment
    raw, made = io.BytesIO(), io.BytesIO()
    book.save(raw)
    with zipfile.ZipFile(raw) as old, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for name in sorted(old.namelist(), key=lambda each: (each != "[Content_Types].xml", each)):
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _undated(content)
            info = zipfile.ZipInfo(name, _MOMENT)
            info.compress_type, info.create_system = zipfile.ZIP_DEFLATED, 3
            new.writestr(info, content)
    return made.getvalue()


def _undated(core: bytes) -> bytes:
    """The properties with their moments set to the first that a zip knows."""
    return re.sub(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*", rb"\g<1>1980-01-01T00:00:00Z", core)
