"""Reads one CSV table strictly: heading, cells, whole numbers, printed decimals. All faults are collected."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from functools import partial
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeVar

from saltbridge.faults import FaultList
from saltbridge.faults import nearest as nearest_of
from saltbridge.tables.characters import improper

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence
    from pathlib import Path

Entry = TypeVar("Entry")

_LONGEST_SHOWN = 40  # characters of a cell in a message

_DECIMAL = re.compile(r"-?[0-9]{1,15}(\.[0-9]{1,15})?")  # counted: no printed table has more digits
_NUMBER = re.compile(r"-?\d+(\.\d+)?(e-?\d+)?")
_WHOLE = re.compile(r"[1-9][0-9]{0,8}")
FARTHEST_POTENTIAL = 10  # V against the standard hydrogen electrode; fluorine and lithium lie within 3.1 V


nearest = partial(nearest_of, mark='"')
"""A hint with the nearest word, as ``faults.nearest``, in the marks of a table's cells."""


def is_decimal(text: str) -> bool:
    """Whether ``text`` is a plain decimal such as ``-0.76``: a point, no exponent, no plus sign, no blank."""
    return _DECIMAL.fullmatch(text) is not None


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table; its readers note a fault and return a harmless value where a cell is wrong."""

    cells: dict[str, str]
    file: str
    line: int
    faults: FaultList

    def blame(self, column: str, expected: str, hint: str = "", *, code: str = "bad-cell", found: str | None = None) -> None:
        """Note a fault about the cell of ``column``."""
        cell = self.cells[column]
        shown = found if found is not None else (f'"{cell}"' if cell else "an empty cell")
        self.faults.add(code, expected=expected, found=shown, hint=hint, file=self.file, line=self.line, key=column)

    def text(self, column: str, *, may_be_empty: bool = False) -> str:
        """Read the cell as text."""
        if not self.cells[column] and not may_be_empty:
            self.blame(column, "a text")
        return self.cells[column]

    def decimal(self, column: str) -> str:
        """Read the cell as a printed decimal, digits kept."""
        if not is_decimal(self.cells[column]):
            self.blame(column, "a decimal number such as -0.76")
            return "0"
        return self.cells[column]

    def potential(self, column: str) -> str:
        """Read the cell as a printed potential in V, at most ten from zero."""
        text = self.decimal(column)
        if abs(float(text)) > FARTHEST_POTENTIAL:
            self.blame(column, f"a potential from -{FARTHEST_POTENTIAL} to {FARTHEST_POTENTIAL} V", "Are these millivolts?")
        return text

    def decimal_or_none(self, column: str) -> str | None:
        """Read the cell as a printed decimal, ``None`` where it is empty."""
        return self.decimal(column) if self.cells[column] else None

    def number(self, column: str) -> str:
        """Read the cell as a printed number that may carry an exponent, such as ``6.02214076e23``."""
        if not _NUMBER.fullmatch(self.cells[column]):
            self.blame(column, "a number such as 96485 or 6.022e23")
            return "0"
        return self.cells[column]

    def whole(self, column: str) -> int:
        """Read the cell as a whole number above zero."""
        if not _WHOLE.fullmatch(self.cells[column]):
            shown = None if len(self.cells[column]) <= _LONGEST_SHOWN else f"{len(self.cells[column])} characters"
            self.blame(column, "a whole number above zero", found=shown)
            return 1
        return int(self.cells[column])

    def yes(self, column: str) -> bool:
        """Read the cell as yes or no."""
        if self.cells[column] not in {"yes", "no"}:
            self.blame(column, 'the word "yes" or "no"')
        return self.cells[column] == "yes"

    def one_of(self, column: str, words: Sequence[str]) -> str:
        """Read the cell as one of ``words``."""
        cell = self.cells[column]
        if cell not in words:
            self.blame(column, "one of " + ", ".join(words), nearest(cell, words))
        return cell


def _lines(path: Path) -> Iterator[tuple[int, list[str]]]:
    with path.open(encoding="utf-8", newline="") as stream:
        reader = csv.reader(stream, strict=True)
        for cells in reader:
            yield reader.line_num, cells


def read_rows(path: Path, columns: Sequence[str], key: str, faults: FaultList, *, others: bool = False) -> Iterator[Row]:
    """Each well-shaped row of the table at ``path``, whose heading must be ``columns`` in that order.

    With ``others`` further columns may follow. The values of the column ``key`` must differ.
    """
    try:
        lines = list(_lines(path))
    except OSError as error:
        faults.add("unreadable", expected="a table", found=error.strerror or "no file", file=path.name)
        return
    except (UnicodeDecodeError, csv.Error) as error:
        faults.add("unreadable", expected="a table with commas, in UTF-8", found=str(error), file=path.name)
        return
    heading = lines[0][1] if lines else []
    if (heading[: len(columns)] if others else heading) != list(columns) or len(set(heading)) < len(heading):
        found = ",".join(heading) or "an empty file"
        faults.add("bad-heading", expected=",".join(columns), found=found, file=path.name, line=1)
        return
    seen: dict[str, int] = {}
    for line, cells in lines[1:]:
        if len(cells) != len(heading):
            faults.add("bad-row", expected=f"{len(heading)} cells", found=f"{len(cells)}", file=path.name, line=line)
            continue
        if wrong := improper("\n".join(cells)):
            expected = "printable characters"
            faults.add("bad-character", expected=expected, found=wrong[1], hint="Delete it.", file=path.name, line=line)
            continue
        row = Row(dict(zip(heading, (cell.strip() for cell in cells), strict=True)), path.name, line, faults)
        name = row.text(key)
        if name in seen:
            row.blame(key, "a name used once", f"It stands on line {seen[name]} already.", code="repeated")
            continue
        seen[name] = line
        yield row


def read_table(path: Path, columns: Sequence[str], key: str, entry: Callable[[Row], Entry]) -> Mapping[str, Entry]:
    """Read the table at ``path`` whose heading is ``columns``: the ``entry`` of each row by its cell of the column ``key``.

    Raises ``Faulty`` with every fault, those that ``entry`` notes among them.
    """
    faults = FaultList()
    found = {row.cells[key]: entry(row) for row in read_rows(path, columns, key, faults)}
    faults.stop_if_any()
    return MappingProxyType(found)
