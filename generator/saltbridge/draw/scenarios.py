"""From a template's scenario and a seed to a situation: which metals, which amounts, which side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from saltbridge.bank.bank import Bank
from saltbridge.bank.fields import Drawn as Range
from saltbridge.bank.scenario import BenchScenario, ElectrolysisScenario, GalvanicScenario
from saltbridge.bank.template import Template
from saltbridge.chemistry.cells import Amount, GalvanicCell, HalfCell, half_cell, swap
from saltbridge.chemistry.diagrams import inscribe_diagram
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.realism import Facts
from saltbridge.derivation.bench import bench
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.electrolysis import electrolysis, metal_deposit
from saltbridge.derivation.galvanic import CellOptions, Temperature, galvanic
from saltbridge.derivation.laws import Situation
from saltbridge.draw.seeds import Seed
from saltbridge.faults import fault
from saltbridge.tables import SheetRow, metals
from saltbridge.units import Quantity, convert
from saltbridge.words import catalogue as words_of

SCATTER_STEP = Decimal("0.01")  # V, as a school meter shows


@dataclass(slots=True)
class Scene:
    """A drawn scenario: its situation, lists that a template may order, and what the realism rules look at."""

    situation: Situation
    facts: Facts
    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def draw_scene(template: Template, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Draw the scenario of a template. Raises ``Faulty`` where the draw can't be built (a couple not on the sheet)."""
    match template.scenario.body:
        case GalvanicScenario() as body:
            return _galvanic(body, seed, bank, catalogue)
        case ElectrolysisScenario() as body:
            return _electrolysis(body, seed, bank, catalogue)
        case BenchScenario() as body:
            return _bench(body, seed, bank, catalogue)


def pick_quantity(drawn: Range, seed: Seed, name: str) -> Quantity:
    """One of the values that a quantity may take."""
    return seed.pick(name, drawn.values)


# ------------------------------------------------------------------ galvanic cell


def _galvanic(body: GalvanicScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    cell = _oriented(body, seed, _cell(body, seed, bank), bank)
    warm = pick_quantity(body.temperature, seed, "T") if body.temperature else None
    temperature = Temperature(warm.printed, warm.unit) if warm else None
    situation = galvanic(cell, bank.sheet, catalogue, temperature, CellOptions(nernst=bank.settings.nernst))
    written = cell if body.written == "as drawn" or situation.words["anode.side"] == "left" else swap(cell)
    settings = bank.settings
    situation.labels["diagram"] = inscribe_diagram(
        written, settings.bridge_sign, settings.decimal_mark, settings.concentration_unit, words_of(settings.language)
    )
    return Scene(situation, _cell_facts(cell))


def _cell(body: GalvanicScenario, seed: Seed, bank: Bank) -> GalvanicCell:
    known = metals()
    choice = tuple(known[symbol].couple for symbol in body.metals) if body.metals else tuple(body.couples or ())
    if body.half_cells == "same":
        couples: tuple[str, ...] = (seed.pick("couple", choice),) * 2
    else:
        couples = seed.sample("couples", choice, 2)
    left, right = (_row(bank, couple) for couple in couples)
    return GalvanicCell(_filled(body, seed, left, "left"), _filled(body, seed, right, "right"))


def _row(bank: Bank, couple: str) -> SheetRow:
    row = next((each for each in bank.sheet.rows if each.couple == couple), None)
    if row is None:
        raise fault("couple-not-on-sheet", expected=f"a couple of {bank.sheet.title}", found=couple)
    return row


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
    higher_left = float(_row(bank, cell.left.couple).E0) > float(_row(bank, cell.right.couple).E0)
    return swap(cell) if higher_left == (body.swap_sides == "never") else cell


def _cell_facts(cell: GalvanicCell) -> Facts:
    halves = (cell.left, cell.right)
    symbols = tuple(half.electrode.formula for half in halves if half.electrode.formula in metals())
    values = tuple(
        amount.value for half in halves for _, amount in half.amounts if amount.value is not None and amount.unit == "mol/L"
    )
    return Facts(metals=symbols, concentrations=values, bridge="KNO3")


# ------------------------------------------------------------------ electrolysis


def _electrolysis(body: ElectrolysisScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    metal = seed.pick("metal", body.metals)
    half, product = metal_deposit(metal, bank.sheet)
    ranges = {"I": body.current, "t": body.time, "m": body.mass, "efficiency": body.efficiency}
    drawn = {name: pick_quantity(values, seed, name) for name, values in ranges.items() if values is not None}
    situation = electrolysis(half, product, drawn, bank.sheet, catalogue)
    return Scene(situation, Facts(metals=(metal,)))


# ------------------------------------------------------------------ bench


def _bench(body: BenchScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    scatter = convert(*_volts(body.scatter))
    order = seed.shuffle("strips", body.metals)
    volts = {symbol: Decimal(_row(bank, metals()[symbol].couple).E0) for symbol in (body.reference, *order)}
    readings: dict[str, str] = {}
    for symbol in order:
        stray = seed.decimal(f"stray {symbol}", -scatter, scatter, SCATTER_STEP)
        readings[symbol] = f"{volts[symbol] - volts[body.reference] + stray:.2f}"
    red, black = seed.sample("pair", order, 2)
    situation = bench(body.reference, readings, (red, black), bank.sheet, catalogue)
    strips = tuple(f"s{place}" for place in range(1, len(order) + 1))
    return Scene(situation, Facts(metals=(body.reference, *order), bench=True), {"metals": strips})


def _volts(text: str) -> tuple[str, str, str]:
    number, _, unit = text.partition(" ")
    return number, unit, "V"
