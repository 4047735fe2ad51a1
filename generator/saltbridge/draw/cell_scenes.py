"""Galvanic cells drawn: which couples, which amounts, which side."""

from __future__ import annotations

from functools import lru_cache

from saltbridge.bank.bank import Bank
from saltbridge.bank.scenario import GalvanicScenario
from saltbridge.chemistry.cells import Amount, GalvanicCell, HalfCell, half_cell, swap
from saltbridge.chemistry.diagrams import RIGHT_WAY, inscribe_diagram
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.realism import Facts
from saltbridge.chemistry.wrong_diagrams import wrong_diagrams
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.electrode_masses import add_masses
from saltbridge.derivation.galvanic import CellOptions, Temperature, galvanic
from saltbridge.derivation.laws import Rule, Situation
from saltbridge.derivation.loop import add_bridges
from saltbridge.derivation.situations import add_given
from saltbridge.derivation.standards import add_cells_in_a_row
from saltbridge.derivation.transfer import Ways
from saltbridge.draw.scene import Scene, pick_quantity, sheet_row
from saltbridge.draw.seeds import Seed
from saltbridge.tables import SheetRow, metals
from saltbridge.units import convert
from saltbridge.words import of_bank as words_of

MOST_SALTS = 4
DIAGRAM = "Oxidation stands on the left, reduction on the right, an inert electrode where the couple has no metal; a bar is a surface, a comma parts species of one phase."


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
    _add_wanted(body, seed, bank, catalogue, cell, situation)
    return Scene(situation, _cell_facts(cell))


PASSED = {"m_lost": "mass_lost", "m_gained": "mass_gained", "n_lost": "amount_dissolved", "I": "current", "t": "time"}
"""Quantities of what passes through a cell, with their keys."""


def _add_wanted(
    body: GalvanicScenario, seed: Seed, bank: Bank, catalogue: Catalogue, cell: GalvanicCell, situation: Situation
) -> None:
    """What only some templates ask for: masses, salts for the bridge, cells in a row, wrong diagrams."""
    ranges = {name: getattr(body, key) for name, key in PASSED.items()}
    drawn = {name: pick_quantity(values, seed, name) for name, values in ranges.items() if values is not None}
    for name, quantity in drawn.items():
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    if drawn:
        add_masses(situation, cell, bank.sheet, catalogue, "anode" if "m_gained" in drawn else "cathode")
    if body.bridge_salts:
        add_bridges(situation, cell, seed.sample("bridge salts", body.bridge_salts, min(MOST_SALTS, len(body.bridge_salts))))
    if body.voltage_wanted is not None:
        wanted = pick_quantity(body.voltage_wanted, seed, "U_wanted")
        add_given(situation, catalogue, "U_wanted", wanted.printed, wanted.unit)
        add_cells_in_a_row(situation, catalogue)
    if body.wrong_diagrams:
        _add_diagrams(cell if situation.words["anode.side"] == "left" else swap(cell), bank, situation)


def _add_diagrams(right: GalvanicCell, bank: Bank, situation: Situation) -> None:
    """The diagram written right, anode on the left, and the usual wrong ways."""
    settings = bank.settings
    ways = {"right": (right, RIGHT_WAY), **wrong_diagrams(right)}
    for name, (cell, way) in ways.items():
        situation.labels[f"diagram.{name}"] = inscribe_diagram(
            cell,
            settings.bridge_sign,
            settings.decimal_mark,
            settings.concentration_unit,
            words_of(settings),
            settings.unit_style,
            way,
        )
    keys = tuple(f"diagram.{name}" for name in ways)
    situation.laws.append(Rule("cell_diagram", "first", (), DIAGRAM, keys=keys, slips_as="cell diagram"))


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
        amounts[species.bare] = _amount(quantity.printed, quantity.unit, unit)
    return _half_of(row, tuple(amounts.items()))


@lru_cache(maxsize=1024)
def _amount(printed: str, told: str, unit: str) -> Amount:
    """An amount told in some unit, by its text: 1.0 and 1.00 are two."""
    value = float(convert(printed, told, unit))
    return Amount(printed, value, "bar" if unit == "bar" else "mol/L", printed_unit="" if told in {"mol/L", "mol/dm3"} else told)


@lru_cache(maxsize=1024)
def _half_of(row: SheetRow, amounts: tuple[tuple[str, Amount], ...]) -> HalfCell:
    return half_cell(row, dict(amounts), show_medium=False)


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
