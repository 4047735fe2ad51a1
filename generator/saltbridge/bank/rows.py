"""Rows of a table in the bank as a scenario's values: one row a version, as strict as the template itself.

The heading names keys of the scenario, ``current`` or ``readings.Zn``, each perhaps with the unit of its bare numbers (``current in A``);
entries of a list are parted by semicolons (one alone ends with one). What stands under ``row.`` and a word is no key: the texts print it (``row.group``).
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from saltbridge.bank.inside import inside
from saltbridge.bank.template import FilledRow, TemplateKeys
from saltbridge.faults import Fault, FaultList, Faulty
from saltbridge.forms.conditions import NAME
from saltbridge.forms.fields import Keys
from saltbridge.forms.strict_yaml import Entry, Listing, Node, Scalar, Table
from saltbridge.forms.validation_messages import Reading, checked
from saltbridge.scenarios.scenario import AnyScenario
from saltbridge.tables.characters import improper

MOST_ROWS = 2_000
MOST_BYTES = 1_000_000
MOST_COLUMNS = 40
SAID = "row."
EXAMPLE = "rows/readings.csv"
_COLUMN = re.compile(r"(?P<key>[^.;,]{1,80}(?:\.[^.;,]{1,80})?)", re.ASCII)


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its line in the file, the node of each key path, and the words that texts may print."""

    line: int
    values: Mapping[str, Node]
    words: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class RowTable:
    """The rows of a table, and its name in the bank."""

    file: str
    rows: tuple[Row, ...]


class _Scene(Keys):
    scenario: AnyScenario


def read_rows(path: Path, file: str) -> tuple[Row, ...]:
    """Read a table, UTF-8 with commas or semicolons between cells. Raises ``Faulty`` with all its faults, each with its line."""
    faults = FaultList()
    lines = list(_lines(path, file))
    if not lines:
        raise Faulty([Fault("bad-heading", "a heading with keys of the scenario", "an empty file", file=file, line=1)])
    heading = [_column(cell, file, faults) for cell in lines[0][1]]
    _refuse_heading(heading, file, faults)
    faults.stop_if_any()
    rows = [_row(line, cells, heading, file, faults) for line, cells in lines[1:]]
    if not 0 < len(rows) <= MOST_ROWS:
        faults.add("row-count", expected=f"1 to {MOST_ROWS} rows below the heading", found=f"{len(rows)}", file=file, line=1)
    faults.stop_if_any()
    return tuple(row for row in rows if row)


def named_table(folder: Path, raw: Table, file: str) -> RowTable | None:
    """The table that a template names under ``rows``; None where it names none. Raises ``Faulty``."""
    entry = raw.get("rows")
    if entry is None or not isinstance(entry.value, Scalar):
        return None
    name = entry.value.text.strip()
    try:
        path = inside(folder, name, EXAMPLE)
    except Faulty as trouble:
        raise Faulty(
            [each if each.file else each.at(file=file, line=entry.line, key="rows") for each in trouble.faults]
        ) from None
    return RowTable(name, read_rows(path, name))


def filled(raw: Table, table: RowTable, file: str, reading: Reading) -> tuple[TemplateKeys, tuple[FilledRow, ...]]:
    """The keys of a template filled from the first row, and its scenario from each. Raises ``Faulty`` with the faults of all rows."""
    keys, rows, faults = None, [], FaultList()
    for row in table.rows:
        whole = _with_row(raw, row)
        try:
            if keys is None:
                keys = checked(TemplateKeys, whole, file, reading)
            only = Table(tuple(entry for entry in whole.entries if entry.key == "scenario"), raw.line)
            rows.append(FilledRow(row.line, checked(_Scene, only, file, reading).scenario, row.words))
        except Faulty as trouble:
            faults.extend(_blamed(trouble.faults, row, raw, table.file))
    told = dict.fromkeys(faults.faults)
    if keys is None or told:
        raise Faulty(told)
    return keys, tuple(rows)


def _with_row(raw: Table, row: Row) -> Table:
    """The keys of a template with those of a row in its scenario."""
    return Table(
        tuple(replace(entry, value=_in_kind(entry.value, row)) if entry.key == "scenario" else entry for entry in raw.entries),
        raw.line,
    )


def _blamed(faults: Iterable[Fault], row: Row, raw: Table, file: str) -> Iterator[Fault]:
    """The faults of a template read with a row: those of a cell with the table's name, the row's line and the column."""
    entry = raw.get("scenario")
    kinds = entry.value.entries if entry and isinstance(entry.value, Table) else ()
    for each in faults:
        cell = next(
            (
                key
                for kind in kinds
                for key in row.values
                if f"{each.key}.".startswith((f"scenario.{kind.key}.{key}.", f"scenario.{kind.key}.{key}["))
            ),
            "",
        )
        if not cell:
            yield each
        elif each.code == "unknown-key":
            yield replace(each, file=file, line=1, key=cell)
        elif each.code == "wrong-type" and each.expected == "a list":
            hint = f"A list of one ends with a semicolon: `{each.found.strip('`')};`."
            yield replace(each, file=file, line=row.line, key=cell, hint=hint)
        else:
            yield replace(each, file=file, line=row.line, key=cell)


def _lines(path: Path, file: str) -> list[tuple[int, list[str]]]:
    """Every line that holds something, with its number."""
    try:
        if (size := path.stat().st_size) > MOST_BYTES:
            raise Faulty([Fault("file-too-big", f"at most {MOST_BYTES} bytes", f"{size}", file=file)])
        text = path.read_text(encoding="utf-8-sig")
        first = text.partition("\n")[0]
        parted = csv.reader(text.splitlines(), delimiter=";" if ";" in first and "," not in first else ",", strict=True)
        return [(parted.line_num, [cell.strip() for cell in cells]) for cells in parted if any(cell.strip() for cell in cells)]
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        hint = "Save it from the spreadsheet as CSV in UTF-8."
        raise Faulty([Fault("unreadable", "a table in UTF-8", str(error), hint, file=file)]) from None


@dataclass(frozen=True, slots=True)
class _Column:
    key: str
    unit: str


def _column(cell: str, file: str, faults: FaultList) -> _Column:
    key, _, unit = cell.partition(" in ")
    if not _COLUMN.fullmatch(key.strip()) or improper(cell) or (key.startswith(SAID) and not NAME.fullmatch(key.strip())):
        hint = "As `current`, `current in A`, `readings.Zn in V` or `row.group`."
        faults.add("bad-heading", expected="a key of the scenario", found=f"`{cell}`", hint=hint, file=file, line=1)
    return _Column(key.strip(), unit.strip())


def _refuse_heading(heading: list[_Column], file: str, faults: FaultList) -> None:
    keys = [each.key for each in heading]
    for key in dict.fromkeys(key for key in keys if keys.count(key) > 1):
        faults.add("repeated", expected="each column once", found=f"`{key}` twice", file=file, line=1, key=key)
    if len(keys) > MOST_COLUMNS:
        faults.add("bad-heading", expected=f"at most {MOST_COLUMNS} columns", found=f"{len(keys)}", file=file, line=1)


def _row(line: int, cells: list[str], heading: list[_Column], file: str, faults: FaultList) -> Row | None:
    if len(cells) != len(heading):
        hint = "A cell that holds a comma stands in double quotes."
        faults.add("bad-row", expected=f"{len(heading)} cells", found=f"{len(cells)}", hint=hint, file=file, line=line)
        return None
    pairs = list(zip(heading, cells, strict=True))
    for column, cell in pairs:
        if wrong := improper(cell):
            faults.add(
                "bad-character",
                expected="printable characters",
                found=wrong[1],
                hint="Delete it.",
                file=file,
                line=line,
                key=column.key,
            )
        if not cell:
            hint = "Fill it, or leave the row out."
            faults.add("empty-cell", expected="a value", found="nothing", hint=hint, file=file, line=line, key=column.key)
    said = {column.key: cell for column, cell in pairs if column.key.startswith(SAID)}
    values = {column.key: _node(cell, column.unit, line) for column, cell in pairs if column.key not in said}
    return Row(line, values, said)


def _node(cell: str, unit: str, line: int) -> Node:
    texts = [f"{part.strip()} {unit}".strip() for part in cell.split(";") if part.strip()]
    nodes = tuple(Scalar(text, line, line) for text in texts)
    return Listing(nodes, line) if ";" in cell else nodes[0]


def _in_kind(scenario: Node, row: Row) -> Node:
    """The scenario with the row's values in the kind that it names; a kind without keys of its own gets them all from the row."""
    if not isinstance(scenario, Table):
        return scenario
    return Table(tuple(replace(kind, value=_filled(kind.value, row)) for kind in scenario.entries), scenario.line)


def _filled(body: Node, row: Row) -> Node:
    table = body if isinstance(body, Table) else Table((), body.line)
    for path, node in row.values.items():
        key, _, inner = path.partition(".")
        known = table.get(key)
        within = known.value if known and isinstance(known.value, Table) else Table((), row.line)
        table = _put(table, Entry(key, row.line, _put(within, Entry(inner, row.line, node)) if inner else node))
    return table


def _put(table: Table, entry: Entry) -> Table:
    return Table((*(each for each in table.entries if each.key != entry.key), entry), table.line)
