"""Galvanic cells drawn: which couples, which amounts, which side."""

from __future__ import annotations

from saltbridge.bank.bank import Bank
from saltbridge.bank.scenario import GalvanicScenario
from saltbridge.chemistry.cells import Amount, GalvanicCell, HalfCell, half_cell, swap
from saltbridge.chemistry.diagrams import inscribe_diagram
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.realism import Facts
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.galvanic import CellOptions, Temperature, galvanic
from saltbridge.derivation.transfer import Ways
from saltbridge.draw.scene import Scene, pick_quantity, sheet_row
from saltbridge.draw.seeds import Seed
from saltbridge.tables import SheetRow, metals
from saltbridge.units import convert
from saltbridge.words import of_bank as words_of


def galvanic_scene(body: GalvanicScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Two half-cells joined to a cell. Raises ``Faulty`` where a couple is not on the sheet."""
    cell = _oriented(body, seed, _cell(body, seed, bank), bank)
    warm = pick_quantity(body.temperature, seed, "T") if body.temperature else None
    temperature = Temperature(warm.printed, warm.unit) if warm else None
    situation = galvanic(cell, bank.sheet, catalogue, temperature, _options(bank))
    written = cell if body.written == "as drawn" or situation.words["anode.side"] == "left" else swap(cell)
    settings = bank.settings
    situation.labels["diagram"] = inscribe_diagram(
        written,
        settings.bridge_sign,
        settings.decimal_mark,
        settings.concentration_unit,
        words_of(settings),
        settings.unit_style,
    )
    return Scene(situation, _cell_facts(cell))


def _options(bank: Bank) -> CellOptions:
    settings = bank.settings
    ways = Ways(words_of(settings), settings.decimal_mark, settings.concentration_unit, settings.unit_style)
    return CellOptions(nernst=settings.nernst, ways=ways)


def _cell(body: GalvanicScenario, seed: Seed, bank: Bank) -> GalvanicCell:
    known = metals()
    choice = tuple(known[symbol].couple for symbol in body.metals) if body.metals else tuple(body.couples or ())
    if body.half_cells == "same":
        couples: tuple[str, ...] = (seed.pick("couple", choice),) * 2
    else:
        couples = seed.sample("couples", choice, 2)
    left, right = (sheet_row(bank, couple) for couple in couples)
    return GalvanicCell(_filled(body, seed, left, "left"), _filled(body, seed, right, "right"))


def _filled(body: GalvanicScenario, seed: Seed, row: SheetRow, side: str) -> HalfCell:
    """The half-cell with an amount drawn for each dissolved species and gas; none where the scenario is standard."""
    amounts: dict[str, Amount] = {}
    for species in dict.fromkeys(parse_half_reaction(row.half_reaction).species):
        drawn, unit = (body.pressures, "bar") if species.phase == "g" else (body.concentrations, "mol/L")
        if drawn is None or species.phase not in {"aq", "g"}:
            continue
        quantity = pick_quantity(drawn, seed, f"{side} {species.bare}")
        value = convert(quantity.printed, quantity.unit, unit)
        printed = "" if quantity.unit in {"mol/L", "mol/dm3"} else quantity.unit
        amounts[species.bare] = Amount(quantity.printed, float(value), "bar" if unit == "bar" else "mol/L", printed_unit=printed)
    return half_cell(row, amounts, show_medium=False)


def _oriented(body: GalvanicScenario, seed: Seed, cell: GalvanicCell, bank: Bank) -> GalvanicCell:
    """The couple of the higher potential on the side that the scenario wants; both sides are drawn alike for ``sometimes``."""
    if cell.is_concentration_cell or body.swap_sides == "sometimes":
        return cell if seed.number("side") % 2 else swap(cell)
    higher_left = float(sheet_row(bank, cell.left.couple).E0) > float(sheet_row(bank, cell.right.couple).E0)
    return swap(cell) if higher_left == (body.swap_sides == "never") else cell


def _cell_facts(cell: GalvanicCell) -> Facts:
    halves = (cell.left, cell.right)
    symbols = tuple(half.electrode.formula for half in halves if half.electrode.formula in metals())
    values = tuple(
        amount.value for half in halves for _, amount in half.amounts if amount.value is not None and amount.unit == "mol/L"
    )
    return Facts(metals=symbols, concentrations=values, bridge="KNO3")
