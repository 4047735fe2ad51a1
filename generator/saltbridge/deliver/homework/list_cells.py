"""The rows of a list (a class, readings) as plain text: CSV as spreadsheets save it, or the first sheet of an XLSX file.

Whatever can't be read for certain is refused with its row: another encoding than UTF-8 or UTF-16, a broken quotation mark, a
date or an error in a cell. Nothing of a cell is ever worked out.
"""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Collection, Iterator
from datetime import date, time, timedelta
from pathlib import Path

from saltbridge.faults import Fault, Faulty

MOST_BYTES = 5_000_000
MOST_UNPACKED = 60_000_000  # bytes of an XLSX file: 5 000 rows have some 2 000 000
MOST_ROWS = 5_000
MOST_COLUMNS = 100
LONGEST_CELL = 200  # characters

Row = tuple[int, list[str]]
"""A row's number in its file, from 1, and its cells."""


def read_rows(path: Path, wanted: Collection[str]) -> list[Row]:
    """The rows that hold anything; the first is the heading, in which the ``wanted`` columns are looked for. Raises ``Faulty``."""
    raw = _bytes(path)
    if raw.startswith(b"PK\x03\x04"):
        rows = list(_workbook_rows(raw, path.name))
    elif raw.startswith(b"\xd0\xcf\x11\xe0"):
        raise _refused(path.name, 0, "a CSV or XLSX file", "an old spreadsheet", "Save it as XLSX, or as CSV in UTF-8.")
    else:
        rows = list(_text_rows(raw, path.name, wanted))
    if len(rows) > MOST_ROWS + 1:
        raise _refused(path.name, rows[MOST_ROWS + 1][0], f"at most {MOST_ROWS} rows", f"{len(rows) - 1}", "Make it two lists.")
    return rows


def _bytes(path: Path) -> bytes:
    if not path.is_file():
        found = "no such file" if not path.exists() else "a folder, a pipe or a device"
        raise _refused(path.name, 0, "a list in a file", found, "Name the file that holds the list.")
    with path.open("rb") as file:
        raw = file.read(MOST_BYTES + 1)
    if len(raw) > MOST_BYTES:
        raise _refused(path.name, 0, f"at most {MOST_BYTES} bytes", "a bigger file", "Keep the columns that are wanted only.")
    return raw


def _refused(file: str, row: int, expected: str, found: str, hint: str = "") -> Faulty:
    return Faulty([Fault("list", expected, found, hint, file, row)])


# ------------------------------------------------------------------ CSV


def _text_rows(raw: bytes, file: str, wanted: Collection[str]) -> Iterator[Row]:
    text = _decoded(raw, file)
    parted = csv.reader(io.StringIO(text, newline=""), delimiter=_mark(text, wanted), strict=True)
    begin = 1
    try:
        for cells in parted:
            row, begin = begin, parted.line_num + 1
            if any(cell.strip() for cell in cells):
                yield row, [cell.strip() for cell in cells]
    except csv.Error as error:
        hint = 'A cell with a quotation mark in it has it twice, and stands in quotation marks: "Ann ""Nan"" Lee".'
        raise _refused(file, parted.line_num, "cells that can be told apart", str(error), hint) from None


def _decoded(raw: bytes, file: str) -> str:
    """UTF-8, or UTF-16 as some spreadsheets save text; letters of an older encoding would be guesses, so they are refused."""
    encoding = "utf-16" if raw.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8-sig"
    try:
        return raw.decode(encoding)
    except UnicodeDecodeError as error:
        row = raw.count(b"\n", 0, error.start) + 1
        hint = "Save the list from the spreadsheet as CSV in UTF-8, or as XLSX."
        raise _refused(file, row, "text in UTF-8", f"the byte {raw[error.start]:02X}", hint) from None


def _mark(text: str, wanted: Collection[str]) -> str:
    """What stands between cells: of semicolon, comma and tab that which finds most of the wanted columns in the heading."""
    lines = [line for line in text.splitlines()[:20] if line.strip(' \t;,"')]
    heading = lines[0] if lines else ""

    def found(mark: str) -> tuple[int, int]:
        try:
            cells = [cell.strip().casefold() for cell in next(csv.reader([heading], delimiter=mark), [])]
        except csv.Error:
            return 0, 0
        return sum(each.casefold() in cells for each in wanted), len(cells)

    return max(",;\t", key=found)


# ------------------------------------------------------------------ XLSX


def _workbook_rows(raw: bytes, file: str) -> Iterator[Row]:
    try:
        yield from _sheet_rows(raw, file)
    except Faulty:
        raise
    except Exception as error:  # noqa: BLE001 - a stranger's file may be broken in any way
        found = f"a workbook that can't be read ({type(error).__name__})"
        raise _refused(file, 0, "a sound XLSX file", found, "Save the list as CSV in UTF-8.") from None


def _sheet_rows(raw: bytes, file: str) -> Iterator[Row]:
    import openpyxl  # noqa: PLC0415 - a list in CSV needs none of it

    with zipfile.ZipFile(io.BytesIO(raw)) as packed:
        unpacked = sum(each.file_size for each in packed.infolist())
    if unpacked > MOST_UNPACKED:
        raise _refused(file, 0, f"at most {MOST_UNPACKED} bytes when unpacked", f"{unpacked}", "Save the list as CSV in UTF-8.")
    book = openpyxl.load_workbook(io.BytesIO(raw), read_only=True, data_only=True, keep_links=False)
    sheet = book.worksheets[0]
    sheet.reset_dimensions()
    for number, cells in enumerate(sheet.iter_rows(max_col=MOST_COLUMNS), 1):
        texts = [_cell(cell, number, file) for cell in cells]
        if any(texts):
            yield number, texts
        if number > 4 * MOST_ROWS:
            raise _refused(file, number, f"at most {MOST_ROWS} rows", "rows without end", "Delete the empty rows below.")


def _cell(cell: object, row: int, file: str) -> str:
    """The text of a cell. A number has the zeros before it that its format shows."""
    value, kind = getattr(cell, "value", None), getattr(cell, "data_type", "")
    if value is None:
        return ""
    if kind == "e":
        raise _refused(file, row, "texts and numbers", f"the error {value}", "Mend that cell.")
    if isinstance(value, date | time | timedelta):
        raise _refused(file, row, "texts and numbers", "a date or a time", "Format the column as text and type it again.")
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and value.is_integer():
        value = int(value)
    text = str(value).strip()
    shown = str(getattr(cell, "number_format", ""))
    return text.zfill(len(shown)) if isinstance(value, int) and re.fullmatch("0+", shown) else text
