"""A practical with the bank that it prints by: words, numbers, metals, and what to expect of each."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property

from saltbridge.bank.bank import Bank
from saltbridge.bank.practical import Practical, PracticalKeys
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.printing import Printer
from saltbridge.document import Grid, Inscription, Items, Paragraph, Spans, Text
from saltbridge.tables.benches import bands
from saltbridge.tables.substances import metals
from saltbridge.units import convert
from saltbridge.words import Words

OWN_ION_REACH = Decimal("0.04")  # V: own-ion paper cells came within this of the table (university demonstration, opened)
MILLI = 1000


@dataclass(frozen=True, slots=True)
class Expected:
    """Where a metal's readings are expected to lie, V, and how sure that is: ``trial``, or a grade of the table of bands."""

    low: Decimal
    high: Decimal
    grade: str


@dataclass(frozen=True)
class Lesson:
    """The practical and the bank."""

    practical: Practical
    bank: Bank
    printer: Printer = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "printer", Printer(self.bank.settings, catalogue(self.bank.folder)))

    @property
    def keys(self) -> PracticalKeys:
        """The keys of the practical."""
        return self.practical.keys

    @property
    def words(self) -> Words:
        """The words of the sheets."""
        return self.printer.words

    def name(self, symbol: str) -> str:
        """A metal's name."""
        return self.words(metals()[symbol].name)

    def metal(self, symbol: str) -> str:
        """A metal's name and symbol, as labels carry them."""
        return f"{self.name(symbol)} ({symbol})"

    def millivolts(self, volts: Decimal | float, *, signed: bool = True) -> Inscription:
        """Whole millivolts, with their unit."""
        return self.printer.quantity(str(round(Decimal(str(volts)) * MILLI)), "mV", signed=signed)

    @cached_property
    def table(self) -> dict[str, float]:
        """The standard potential of each metal less that of the reference metal, V, from the bank's sheet; one that is not there is left out."""
        read = (*self.keys.metals, self.keys.reference)
        rows = {symbol: self.bank.sheet.row(metals()[symbol].couple) for symbol in read}
        found = {symbol: row.E0 for symbol, row in rows.items() if row}
        own = found.get(self.keys.reference)
        return {} if own is None else {symbol: float(Decimal(volts) - Decimal(own)) for symbol, volts in found.items()}

    def expected(self, symbol: str) -> Expected | None:
        """What to expect of a metal against the reference; the technician's own reading replaces any band."""
        trial = self.keys.trial.get(symbol)
        if trial is not None:
            value, _, unit = trial.partition(" ")
            volts = convert(value, unit, "V")
            return Expected(volts, volts, "trial")
        if self.keys.paper == "own ions":
            table = self.table.get(symbol)
            middle = None if table is None else round(Decimal(str(table)), 3)
            return None if middle is None else Expected(middle - OWN_ION_REACH, middle + OWN_ION_REACH, "mixed")
        band, reference = bands()[symbol], bands()[self.keys.reference]
        low, high = Decimal(band.low) - Decimal(reference.high), Decimal(band.high) - Decimal(reference.low)
        worse = "memory" if "memory" in (band.grade, reference.grade) else "mixed"
        return Expected(low, high, worse)


def text(said: str) -> Spans:
    """A line of plain words."""
    return (Text(said),)


def paragraph(said: str | Spans) -> Paragraph:
    """A paragraph of plain words or of spans."""
    return Paragraph(text(said) if isinstance(said, str) else said)


def steps(*said: str | Spans, ordered: bool = True) -> Items:
    """A list of lines."""
    return Items(ordered, tuple((paragraph(each),) for each in said))


def table_of(
    head: tuple[str, ...], rows: tuple[tuple[Spans, ...], ...], *, ruled: bool = False, numeric: tuple[int, ...] = ()
) -> Grid:
    """A table with headings at the side and on top."""
    return Grid((), tuple(text(each) for each in head), rows, row_heads=True, numeric=numeric, ruled=ruled)
