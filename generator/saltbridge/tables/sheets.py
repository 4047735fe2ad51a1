"""Data sheets: the student's world of printed potentials, constants and relative atomic masses."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING, Literal, cast

from saltbridge.faults import Fault, FaultList, Faulty, fault
from saltbridge.home import shipped
from saltbridge.tables.potentials import Couple, potentials
from saltbridge.tables.reading import FARTHEST_POTENTIAL, is_decimal, nearest
from saltbridge.tables.substances import Constant, constant, constants, elements
from saltbridge.tables.yaml_text import Node, read_mapping

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

Order = Literal["downward", "upward"]
ORDERS: tuple[Order, ...] = ("downward", "upward")
CONSTANTS = ("F", "R", "T", "V_m", "slope")
FARTHEST = 0.05  # V; a printed potential farther than this from ours gets a warning

_KEYS = ("title", "citation", "order", "constants", "rows", "atomic_masses")
_NOTES = "notes"
_CONSTANT_KEYS = ("printed", "unit", "name", "source")
_UNITS = {"F": "C/mol", "R": "J/(mol K)", "T": "K", "V_m": "dm3/mol", "slope": "V"}
_T_RANGE, _V_M_RANGE = (273.0, 300.0), (22.0, 25.0)  # K; dm³/mol, from 0 °C and 101 kPa to 27 °C and 100 kPa
_WEIGHT_SLACK = 0.6  # a relative atomic mass may be rounded to a whole number, chlorine to 35.5


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One printed row: ``E0`` in V with its printed digits, minus as ``-``, no plus sign.

    ``note``: why it differs from our value.
    """

    couple: str
    half_reaction: str
    E0: str
    decimals: int
    note: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A data sheet as printed.

    ``order`` is downward where E° falls from the top to the bottom of the sheet, upward where it rises; ``rows`` stand
    in printed order. ``constants`` holds F, R, T, V_m and slope (RT ln 10 / F at 25 °C). ``warnings`` tell what is
    allowed but doubtful, such as a potential far from ours.
    """

    name: str
    title: str
    order: Order
    rows: tuple[SheetRow, ...]
    constants: Mapping[str, Constant]
    atomic_masses: Mapping[str, str]
    citation: str
    warnings: tuple[Fault, ...] = ()

    def row(self, couple: str) -> SheetRow | None:
        """The row of a couple, or None where the sheet has none."""
        return next((each for each in self.rows if each.couple == couple), None)

    def required(self, couple: str) -> SheetRow:
        """The row of a couple; raises ``Faulty`` (code ``couple-not-on-sheet``) where the sheet has none."""
        row = self.row(couple)
        if row is None:
            raise fault("couple-not-on-sheet", expected=f"a couple of {self.title}", found=couple)
        return row


def ordered(printed: Sheet, order: Order) -> Sheet:
    """Print the same sheet downward or upward; rows of equal potential keep their places relative to one another."""
    rows = sorted(printed.rows, key=lambda row: float(row.E0), reverse=order == "downward")
    return replace(printed, order=order, rows=tuple(rows))


class _SheetReader:
    """Reads one sheet file; what is wrong goes to ``faults``, what is doubtful to ``doubts``."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.faults, self.doubts = FaultList(), FaultList()
        self.top = read_mapping(path, self.faults)

    def blame(self, code: str, node: Node | None, key: str, *, expected: str, found: str, hint: str = "") -> None:
        line = node.line if node else 1
        self.faults.add(code, expected=expected, found=found, hint=hint, file=self.path.name, line=line, key=key)

    def doubt(self, node: Node, key: str, *, expected: str, found: str, hint: str) -> None:
        self.doubts.add("doubtful-value", expected=expected, found=found, hint=hint, file=self.path.name, line=node.line, key=key)

    def check_keys(self, items: Mapping[str, Node], known: tuple[str, ...], where: Node | None, key: str) -> None:
        head = f"{key}." if key else ""
        for name in items.keys() - set(known):
            expected = "one of " + ", ".join(known)
            hint = nearest(name, known)
            self.blame("unknown-key", items[name], head + name, expected=expected, found=f'"{name}"', hint=hint)
        for name in known:
            if name not in items:
                self.blame("missing-key", where, head + name, expected=f'the key "{name}"', found="none")

    def text(self, items: Mapping[str, Node], name: str, key: str) -> str:
        node = items.get(name)
        if node is None:
            return ""  # told by check_keys
        if not isinstance(node.value, str) or not node.value:
            self.blame("bad-value", node, key, expected="a text", found="nothing" if node.value == "" else "a mapping")
            return ""
        return node.value

    def mapping(self, items: Mapping[str, Node], name: str, key: str) -> Mapping[str, Node]:
        node = items.get(name)
        if node is None:
            return {}
        if isinstance(node.value, str):
            found = f'"{node.value}"' if node.value else "nothing"
            self.blame("bad-value", node, key, expected="a mapping", found=found)
            return {}
        return node.value

    def decimal(self, items: Mapping[str, Node], name: str, key: str) -> str:
        """Read a printed decimal; plus signs go, U+2212 becomes a hyphen, a decimal comma and spaces are told."""
        raw = self.text(items, name, key)
        text = raw.replace("\u2212", "-").removeprefix("+")
        if raw and not is_decimal(text):
            hint = "Write a decimal point and no spaces; the bank's settings choose how numbers print."
            self.blame("bad-number", items[name], key, expected="a decimal number", found=f'"{raw}"', hint=hint)
        return text if is_decimal(text) else ""

    def read(self, couples: Mapping[str, Couple]) -> Sheet:
        self.check_keys({name: node for name, node in self.top.items() if name != _NOTES}, _KEYS, None, "")
        order = self.text(self.top, "order", "order")
        if order and order not in ORDERS:
            expected, hint = "downward or upward", nearest(order, ORDERS)
            self.blame("bad-value", self.top["order"], "order", expected=expected, found=f'"{order}"', hint=hint)
        title, citation = self.text(self.top, "title", "title"), self.text(self.top, "citation", "citation")
        printed = self.read_constants()
        rows, masses = self.read_rows(couples), self.read_masses()
        self.faults.stop_if_any()
        found = Sheet(self.path.stem, title, cast("Order", order), rows, printed, masses, citation, tuple(self.doubts.faults))
        return ordered(found, found.order)

    def read_constants(self) -> Mapping[str, Constant]:
        items = self.mapping(self.top, "constants", "constants")
        if "constants" in self.top:
            self.check_keys(items, CONSTANTS, self.top["constants"], "constants")
        found: dict[str, Constant] = {}
        for symbol in (name for name in CONSTANTS if name in items):
            key = f"constants.{symbol}"
            parts = self.mapping(items, symbol, key)
            if isinstance(items[symbol].value, dict):
                self.check_keys(parts, _CONSTANT_KEYS, items[symbol], key)
            number = self.decimal(parts, "printed", f"{key}.printed")
            unit, name, source = (self.text(parts, part, f"{key}.{part}") for part in _CONSTANT_KEYS[1:])
            if unit and unit != _UNITS[symbol]:
                expected = f"the unit {_UNITS[symbol]}"
                self.blame("bad-unit", parts["unit"], f"{key}.unit", expected=expected, found=f'"{unit}"')
            elif number and self.plausible(symbol, number, parts["printed"], key):
                found[symbol] = Constant(symbol, number, unit, name, source)
        self.check_slope(found, items)
        return found

    def plausible(self, symbol: str, number: str, node: Node, key: str) -> bool:
        value = float(number)
        if symbol in {"F", "R"}:
            exact = float(constants()[symbol].printed)
            low, high = exact * 0.99, exact * 1.01
        elif symbol == "slope":
            low, high = 0.05, 0.07
        else:
            low, high = _T_RANGE if symbol == "T" else _V_M_RANGE
        if low <= value <= high:
            return True
        expected = f"a value from {low:.6g} to {high:.6g} {_UNITS[symbol]}"
        self.blame("implausible", node, f"{key}.printed", expected=expected, found=number)
        return False

    def check_slope(self, found: Mapping[str, Constant], items: Mapping[str, Node]) -> None:
        """Doubt a slope that is not RT ln 10 / F of the printed constants at 25 °C, within one unit of its last digit."""
        if not {"F", "R", "T", "slope"} <= found.keys():
            return
        R, F, slope = (float(found[name].printed) for name in ("R", "F", "slope"))
        exact, last = R * constant("T_25") * math.log(10) / F, 10.0 ** -_decimals(found["slope"].printed)
        if abs(exact - slope) > last:
            hint = "Print the digits that follow from R and F, or leave digits out."
            self.doubt(items["slope"], "constants.slope", expected=f"{exact:.5f} V, RT ln 10 / F", found=f"{slope} V", hint=hint)

    def read_rows(self, couples: Mapping[str, Couple]) -> tuple[SheetRow, ...]:
        items = self.mapping(self.top, "rows", "rows")
        if "rows" in self.top and self.top["rows"].value == {}:
            self.blame("bad-value", self.top["rows"], "rows", expected="at least one couple", found="none")
        found, notes = [], self.read_notes(items)
        for couple, node in items.items():
            key = f"rows.{couple}"
            E0, note = self.decimal(items, couple, key), notes.get(couple, "")
            if couple not in couples:
                hint = nearest(couple, couples)
                self.blame("unknown-couple", node, key, expected="the id of a known couple", found=f'"{couple}"', hint=hint)
            elif E0 and abs(float(E0)) > FARTHEST_POTENTIAL:
                expected = f"a potential from -{FARTHEST_POTENTIAL} to {FARTHEST_POTENTIAL} V"
                self.blame("bad-number", node, key, expected=expected, found=E0, hint="Are these millivolts?")
            elif E0:
                ours = couples[couple].E0
                if abs(float(E0) - float(ours)) > FARTHEST + 1e-9 and not note:
                    hint = "Check the sign and the digits in your printed table."
                    self.doubt(node, key, expected=f"a value within {FARTHEST} V of {ours} V", found=f"{E0} V", hint=hint)
                found.append(SheetRow(couple, couples[couple].half_reaction, E0, _decimals(E0), note))
        return tuple(found)

    def read_notes(self, rows: Mapping[str, Node]) -> Mapping[str, str]:
        """Why a row differs from our value, by couple; a sheet may go without."""
        items = self.mapping(self.top, _NOTES, _NOTES)
        for couple in items.keys() - rows.keys():
            hint = nearest(couple, rows)
            self.blame(
                "unknown-couple",
                items[couple],
                f"{_NOTES}.{couple}",
                expected="a couple of the rows",
                found=f'"{couple}"',
                hint=hint,
            )
        return {couple: self.text(items, couple, f"{_NOTES}.{couple}") for couple in items}

    def read_masses(self) -> Mapping[str, str]:
        items = self.mapping(self.top, "atomic_masses", "atomic_masses")
        found: dict[str, str] = {}
        for symbol, node in items.items():
            key = f"atomic_masses.{symbol}"
            mass = self.decimal(items, symbol, key)
            known = elements().get(symbol)
            if known is None:
                hint = nearest(symbol, elements())
                self.blame("unknown-element", node, key, expected="the symbol of an element", found=f'"{symbol}"', hint=hint)
            elif mass and abs(float(mass) - float(known.weight)) > _WEIGHT_SLACK:
                self.blame("implausible", node, key, expected=f"a value near {known.weight}", found=mass)
            elif mass:
                found[symbol] = mass
        return found


def _decimals(text: str) -> int:
    return len(text.partition(".")[2])


def read_sheet(path: Path, couples: Mapping[str, Couple]) -> Sheet:
    """Read the sheet in the YAML file at ``path``, whose rows name ids of ``couples``.

    Raises ``Faulty`` with every fault. A potential more than 0.05 V from ours is allowed and, without a
    note that says why, stands in ``warnings``.
    """
    return _SheetReader(path).read(couples)


@cache
def sheet_names() -> tuple[str, ...]:
    """Give the names of the shipped sheets."""
    return tuple(sorted(path.stem for path in (shipped("data") / "sheets").glob("*.yaml")))


@cache
def sheet(name: str) -> Sheet:
    """Give the shipped sheet ``school`` or ``college``; raises ``Faulty`` where there is no such sheet or it is wrong."""
    if name not in sheet_names():
        raise fault(
            "unknown-sheet", expected="one of " + ", ".join(sheet_names()), found=f'"{name}"', hint=nearest(name, sheet_names())
        )
    found = read_sheet(shipped("data") / "sheets" / f"{name}.yaml", potentials())
    if found.warnings:
        raise Faulty(found.warnings)
    return found
