"""The data sheet of a bank as a page: potentials in printed order, constants, relative atomic masses, and the number line."""

from __future__ import annotations

from collections.abc import Collection

from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_equation
from saltbridge.compose.printing import Printer
from saltbridge.document import Figure, Inscription, Piece, SheetConstant, SheetLine, SheetPage, Symbol
from saltbridge.scenarios.half_names import couple_label
from saltbridge.tables import Sheet
from saltbridge.tables.choices_of_couples import front_line


def sheet_page(sheet: Sheet, printer: Printer, hidden: Collection[str] = ()) -> SheetPage:
    """The sheet as a page of the document, without the rows of the couples ``hidden``, by their printed names."""
    all_rows = (_row(row.half_reaction, row.E0, printer) for row in sheet.rows)
    rows = tuple(row for row in all_rows if row.couple.plain not in hidden)
    constants = tuple(
        SheetConstant(printer.words(each.name), _symbol(symbol, printer), printer.quantity(each.printed, each.unit))
        for symbol, each in sheet.constants.items()
    )
    citation = printer.words(sheet.citation) if sheet.citation else ""
    return SheetPage(printer.words(sheet.title), sheet.order, rows, constants, _masses(sheet, printer), citation)


def _masses(sheet: Sheet, printer: Printer) -> tuple[tuple[str, str], ...]:
    mark = printer.settings.decimal_mark
    return tuple((symbol, printed.replace(".", mark)) for symbol, printed in sheet.atomic_masses.items())


def _symbol(symbol: str, printer: Printer) -> Symbol:
    match symbol:
        case "V_m":
            return Symbol("V", printer.words("molar volume"), sub="m")
        case "T":
            return Symbol("T", printer.words("temperature"))
        case _:
            return printer.symbol(symbol)


def _row(half_reaction: str, printed: str, printer: Printer) -> SheetLine:
    half = parse_half_reaction(half_reaction)
    equation = inscribe_equation(half.reduction, "⇌", phase=True, say=printer.words)
    return SheetLine(equation, printer.number(printed, signed=True), couple_label(*half.principal, printer.words), float(printed))


def sheet_line(sheet: Sheet, printer: Printer) -> Figure:
    """The number line of potentials for the front page and the head of the sheet."""
    rows = [row for row in sheet.rows if row.couple in front_line()]
    labels: dict[str, Inscription | str] = {}
    numbers: dict[str, float] = {}
    for place, row in enumerate(rows):
        labels[str(place)] = couple_label(*parse_half_reaction(row.half_reaction).principal, printer.words)
        numbers[str(place)] = float(row.E0)
    labels["axis"] = Inscription(
        "symbol", (Piece("base", f"E{printer.settings.standard_sign} / V"),), printer.words("standard potential in volts")
    )
    told = "; ".join(
        f"{_spoken(labels[key])} {printer.quantity(row.E0, 'V', signed=True).spoken}"
        for key, row in zip(numbers, rows, strict=True)
    )
    spoken = printer.words("Number line of standard potentials: {couples}.", couples=told)
    return Figure("number-line", labels, numbers, frozenset(), spoken)


def _spoken(label: Inscription | str) -> str:
    return label if isinstance(label, str) else label.spoken
