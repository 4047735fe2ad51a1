"""Reads the file of a class's readings: a row a group with a column a metal, or a row a reading. Whatever is doubtful is refused with its row.

| heading | what stands beneath |
|---|---|
| `class`, `group` | who read; the class may be left out where there is one |
| `Zn/mV`, `Zn (V)`, `Zn in mV` | readings of zinc against the reference metal |
| `Mg-Zn/mV` | readings of magnesium (red lead) against zinc (black lead) |
| `red`, `black`, `reading/mV` | a row a reading: the metals by symbol, and what the meter showed |

Repeats are further rows of the same group. A cell may carry its own unit (`-750 mV`) and a decimal comma.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from saltbridge.answers.numbers import Unread, read_number
from saltbridge.bank.practical import Practical
from saltbridge.deliver.bench.class_readings import ClassReading
from saltbridge.faults import Fault, FaultList, Faulty, nearest
from saltbridge.tables.benches import bands
from saltbridge.tables.substances import metals

Row = tuple[int, Sequence[str]]
VOLTS = {"V": 1.0, "mV": 0.001}
LONG = ("red", "black", "reading")
_HEADING = re.compile(r"(?P<what>[^/(\[]+?)\s*(?:(?:/|\(|\[|\bin\b)\s*(?P<unit>mV|V)\s*[)\]]?)?")


@dataclass(frozen=True, slots=True)
class _Column:
    """What a column holds: ``class``, ``group``, ``red``, ``black``, ``reading``, or a pair of metals; and the unit of bare numbers."""

    what: str
    pair: tuple[str, str] | None
    unit: str


def readings_of(rows: Sequence[Row], practical: Practical, file: str) -> tuple[ClassReading, ...]:
    """The readings of the rows; the first is the heading. Raises ``Faulty`` with the faults of all rows."""
    faults = FaultList()
    if len(rows) < 2:
        faults.add("readings", expected="a heading and readings below it", found=f"{len(rows)} rows", file=file, line=1)
        faults.stop_if_any()
    line, heading = rows[0]
    columns = [_column(cell, practical, file, line, faults) for cell in heading]
    _refuse_odd(columns, file, line, faults)
    faults.stop_if_any()
    reader = _Reader(practical, file, columns, faults)
    found = tuple(reading for at, cells in rows[1:] for reading in reader.row(at, cells))
    faults.stop_if_any()
    if doubts := list(_doubts(found, practical, file)):
        raise Faulty(doubts)
    return found


# ------------------------------------------------------------------ the heading


def _column(cell: str, practical: Practical, file: str, line: int, faults: FaultList) -> _Column:
    found = _HEADING.fullmatch(cell.strip())
    what, unit = (found["what"].strip(), found["unit"] or "") if found else (cell.strip(), "")
    if what.casefold() in ("class", "group", *LONG):
        return _Column(what.casefold(), None, unit)
    red, _, black = what.partition("-")
    pair = (_symbol(red), _symbol(black) if black else practical.keys.reference)
    for name, symbol in zip((red, black), pair, strict=True):
        if not symbol:
            hint = nearest(name.strip(), (*metals(), "class", "group")) or "As `Zn/mV` for zinc, or `Mg-Zn/mV` for a pair."
            faults.add(
                "column",
                expected="`class`, `group`, or a metal with its unit",
                found=f'"{cell}"',
                hint=hint,
                file=file,
                line=line,
            )
            break
    return _Column("", (pair[0] or "?", pair[1] or "?"), unit)


def _symbol(name: str) -> str:
    """The symbol of a metal told by symbol or name; empty where there is none."""
    told = name.strip().casefold()
    return next((symbol for symbol, metal in metals().items() if told in (symbol.casefold(), metal.name.casefold())), "")


def _refuse_odd(columns: Sequence[_Column], file: str, line: int, faults: FaultList) -> None:
    named = [column.what or "-".join(column.pair or ()) for column in columns]
    if twice := next((name for name in named if named.count(name) > 1), None):
        faults.add(
            "column", expected="each column once; repeats are further rows", found=f"`{twice}` twice", file=file, line=line
        )
    if "group" not in named:
        hint = "Name the column that tells the groups apart `group`."
        faults.add("column", expected="a column `group`", found="none", hint=hint, file=file, line=line)
    long = [name for name in LONG if name in named]
    if long and len(long) < len(LONG) and set(long) != {"red", "reading"}:
        lacking = " and ".join(f"`{name}`" for name in LONG if name not in named)
        faults.add("column", expected="`red`, `black` and `reading` together", found=f"no {lacking}", file=file, line=line)
    if not long and not any(column.pair for column in columns):
        hint = "As `Zn/mV`, a column for each metal."
        faults.add("column", expected="a column for each metal", found="none", hint=hint, file=file, line=line)


# ------------------------------------------------------------------ a row


@dataclass(frozen=True, slots=True)
class _Reader:
    practical: Practical
    file: str
    columns: Sequence[_Column]
    faults: FaultList

    def row(self, line: int, cells: Sequence[str]) -> Iterator[ClassReading]:
        """The readings of one row; an empty cell is a gap."""
        told = {column.what: cell for column, cell in zip(self.columns, cells, strict=False) if column.what}
        who = (told.get("class", "").strip() or self._only_class(line), told.get("group", "").strip())
        if not who[1]:
            self._blame(line, "group", "the group of this row", "an empty cell", "Write the group into every row.")
            return
        if _symbol(who[1]) and not who[1].isdigit():
            self._blame(line, "group", "a group", f'"{who[1]}"', "Are the columns of group and metal swapped?")
            return
        yield from self._long(line, who, told) if "reading" in told else self._wide(line, who, cells)

    def _wide(self, line: int, who: tuple[str, str], cells: Sequence[str]) -> Iterator[ClassReading]:
        for column, cell in zip(self.columns, cells, strict=False):
            if column.pair and cell.strip():
                yield from self._reading(line, who, column.pair, cell.strip(), column.unit)

    def _long(self, line: int, who: tuple[str, str], told: Mapping[str, str]) -> Iterator[ClassReading]:
        if not told["reading"].strip():
            return
        red, black = (
            _symbol(told["red"]),
            _symbol(told["black"]) if told.get("black", "").strip() else self.practical.keys.reference,
        )
        for key, symbol in (("red", red), ("black", black)):
            if not symbol:
                self._blame(line, key, "a metal, by symbol or name", f'"{told[key]}"', nearest(told[key].strip(), metals()))
                return
        unit = next(column.unit for column in self.columns if column.what == "reading")
        yield from self._reading(line, who, (red, black), told["reading"].strip(), unit)

    def _reading(self, line: int, who: tuple[str, str], pair: tuple[str, str], cell: str, unit: str) -> Iterator[ClassReading]:
        place = "-".join(pair)
        if pair[0] == pair[1]:
            self._blame(line, place, "two metals", f"`{pair[0]}` against itself")
            return
        read = read_number(cell)
        if isinstance(read, Unread):
            self._blame(
                line, place, "a reading such as `-0.75 V` or `-750`", f'"{cell}"', "Leave the cell empty where nothing was read."
            )
            return
        own = read.unit or unit
        if own not in VOLTS:
            found = f'"{cell}"' if read.unit else f'"{cell}" without a unit'
            self._blame(
                line, place, "volts or millivolts", found, "Write the unit into the heading, as `Zn/mV`, or into the cell."
            )
            return
        volts = read.value * VOLTS[own]
        if pair[0] == self.practical.keys.reference:  # the same leads the other way round
            pair, volts = (pair[1], pair[0]), -volts
        yield ClassReading(line, *who, *pair, volts, cell)

    def _only_class(self, line: int) -> str:
        classes = self.practical.keys.classes
        if len(classes) > 1:
            self._blame(line, "class", "the class of this row, as there are several", "none", "Add a column `class`.")
        return classes[0].name

    def _blame(self, line: int, key: str, expected: str, found: str, hint: str = "") -> None:
        self.faults.add("reading", expected=expected, found=found, hint=hint, file=self.file, line=line, key=key)


# ------------------------------------------------------------------ all together


def _doubts(found: Sequence[ClassReading], practical: Practical, file: str) -> Iterator[Fault]:
    """What can't be read honestly, whatever single rows say."""
    reference = practical.keys.reference
    against = [reading for reading in found if reading.black == reference]
    if not against:
        hint = f"Every pair needs the black lead on `{reference}`, or name another `reference` in the plan."
        yield Fault("no-reference", f"readings against `{reference}`", "none", hint, file, 1)
        return
    below = {reading.red for reading in against if _lies_below(reading.red, reference)}
    if len(below) > 1 and all(reading.volts >= 0 for reading in against):
        hint = "Write the sign of each reading: a minus where the red lead was on the negative pole."
        yield Fault("no-signs", "readings with their signs", "no minus sign in the whole file", hint, file, 1)


def _lies_below(metal: str, reference: str) -> bool:
    """Whether a metal's readings against the reference are expected to be negative."""
    known = bands()
    return metal in known and reference in known and float(known[metal].high) < float(known[reference].typical)
