"""Galvanic cells drawn: which couples, which amounts, which side."""

from __future__ import annotations

from functools import lru_cache

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import Amount, GalvanicCell, HalfCell, half_cell, swap
from saltbridge.chemistry.diagrams import RIGHT_WAY, Way, inscribe_diagram
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_species
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.chemistry.species import parse_species
from saltbridge.chemistry.wrong_diagrams import wrong_diagrams
from saltbridge.document import Inscription
from saltbridge.graph.laws import Situation
from saltbridge.records import Settings
from saltbridge.scenarios.cell.cell_models import GalvanicScenario
from saltbridge.scenarios.cell.electrode_masses import add_masses
from saltbridge.scenarios.cell.galvanic import CellOptions, Temperature, galvanic
from saltbridge.scenarios.cell.loop import add_bridges
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity, sheet_row
from saltbridge.scenarios.situations import add_given
from saltbridge.scenarios.standards.standards import add_cells_in_series
from saltbridge.scenarios.transfer import Ways
from saltbridge.tables import SheetRow, metals
from saltbridge.tables.benches import bridge_salts
from saltbridge.units import convert
from saltbridge.words import of_bank as words_of

MOST_SALTS = 4


def galvanic_scene(body: GalvanicScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Two half-cells joined to a cell. Raises ``Faulty`` where a couple is not on the sheet."""
    cell = _oriented(body, source, _cell(body, source, means), means)
    warm = pick_quantity(body.temperature, source, "T") if body.temperature else None
    temperature = Temperature(warm.printed, warm.unit) if warm else None
    situation = galvanic(cell, means.sheet, catalogue, temperature, _options(means))
    written = cell if body.written == "as drawn" or situation.words["anode.side"] == "left" else swap(cell)
    situation.labels["diagram"] = _inscribed(written, means.settings)
    _add_wanted(body, source, means, catalogue, cell, situation)
    situation.words["bridge.name"] = bridge_salts()[_bridge(body)].name
    situation.labels["bridge.formula"] = inscribe_species(parse_species(_bridge(body)), say=situation.say)
    return Scene(situation, _cell_facts(cell, _bridge(body)), cell=cell)


PASSED = {"m_lost": "mass_lost", "m_gained": "mass_gained", "n_lost": "amount_dissolved", "I": "current", "t": "time"}
"""Quantities of what passes through a cell, with their keys."""


def _add_wanted(
    body: GalvanicScenario, source: Source, means: Means, catalogue: Catalogue, cell: GalvanicCell, situation: Situation
) -> None:
    """What only some templates ask for: masses, salts for the bridge, cells in series, wrong diagrams."""
    ranges = {name: getattr(body, key) for name, key in PASSED.items()}
    drawn = {name: pick_quantity(values, source, name) for name, values in ranges.items() if values is not None}
    for name, quantity in drawn.items():
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    if drawn:
        add_masses(situation, cell, means.sheet, catalogue, "anode" if "m_gained" in drawn else "cathode")
    if body.bridge_salts:
        add_bridges(situation, cell, source.sample("bridge salts", body.bridge_salts, min(MOST_SALTS, len(body.bridge_salts))))
    if body.voltage_wanted is not None:
        wanted = pick_quantity(body.voltage_wanted, source, "U_wanted")
        add_given(situation, catalogue, "U_wanted", wanted.printed, wanted.unit)
        add_cells_in_series(situation)
    if body.wrong_diagrams:
        _add_diagrams(cell if situation.words["anode.side"] == "left" else swap(cell), means, situation, catalogue)


def _add_diagrams(right: GalvanicCell, means: Means, situation: Situation, catalogue: Catalogue) -> None:
    """The diagram written right, anode on the left, and the usual wrong ways."""
    ways = {"right": (right, RIGHT_WAY), **wrong_diagrams(right)}
    for name, (cell, way) in ways.items():
        situation.labels[f"diagram.{name}"] = _inscribed(cell, means.settings, way)
    keys = tuple(f"diagram.{name}" for name in ways)
    situation.laws.append(catalogue.facts["cell_diagram"].among(keys))


def _inscribed(cell: GalvanicCell, settings: Settings, way: Way = RIGHT_WAY) -> Inscription:
    """The diagram as the bank prints it."""
    return inscribe_diagram(
        cell,
        settings.bridge_sign,
        settings.decimal_mark,
        settings.concentration_unit,
        words_of(settings),
        settings.unit_style,
        way,
    )


def _options(means: Means) -> CellOptions:
    settings = means.settings
    ways = Ways(words_of(settings), settings.decimal_mark, settings.concentration_unit, settings.unit_style)
    return CellOptions(nernst=settings.nernst, ways=ways)


def _cell(body: GalvanicScenario, source: Source, means: Means) -> GalvanicCell:
    known = metals()
    choice = tuple(known[symbol].couple for symbol in body.metals) if body.metals else tuple(body.couples or ())
    if body.half_cells == "same":
        couples: tuple[str, ...] = (source.pick("couple", choice),) * 2
    else:
        couples = source.sample("couples", choice, 2)
    left, right = (sheet_row(means, couple) for couple in couples)
    return GalvanicCell(_filled(body, source, left, "left"), _filled(body, source, right, "right"))


def _filled(body: GalvanicScenario, source: Source, row: SheetRow, side: str) -> HalfCell:
    """The half-cell with an amount drawn for each dissolved species and gas; none where the scenario is standard."""
    amounts: dict[str, Amount] = {}
    for species in dict.fromkeys(parse_half_reaction(row.half_reaction).species):
        drawn, unit = (body.pressures, "bar") if species.phase == "g" else (body.concentrations, "mol/L")
        if drawn is None or species.phase not in {"aq", "g"}:
            continue
        quantity = pick_quantity(drawn, source, f"{side} {species.bare}")
        amounts[species.bare] = _amount(quantity.printed, quantity.unit, unit)
    return _half_of(row, tuple(amounts.items()))


@lru_cache(maxsize=1024)
def _amount(printed: str, told: str, unit: str) -> Amount:
    """An amount told in some unit, by its text: 1.0 and 1.00 are two."""
    value = float(convert(printed, told, unit))
    return Amount(printed, value, "bar" if unit == "bar" else "mol/L", printed_unit="" if told in {"mol/L", "mol/dm3"} else told)


@lru_cache(maxsize=1024)
def _half_of(row: SheetRow, amounts: tuple[tuple[str, Amount], ...]) -> HalfCell:
    return half_cell(row, dict(amounts))


def _oriented(body: GalvanicScenario, source: Source, cell: GalvanicCell, means: Means) -> GalvanicCell:
    """The couple of the higher potential on the side that the scenario wants; both sides are drawn alike for ``sometimes``."""
    if cell.is_concentration_cell or body.swap_sides == "sometimes":
        return cell if source.number("side") % 2 else swap(cell)
    higher_left = float(sheet_row(means, cell.left.couple).E0) > float(sheet_row(means, cell.right.couple).E0)
    return swap(cell) if higher_left == (body.swap_sides == "never") else cell


def _bridge(body: GalvanicScenario) -> str:
    """The formula of the salt in the bridge."""
    return body.bridge or "KNO3"


def _cell_facts(cell: GalvanicCell, bridge: str) -> Facts:
    halves = (cell.left, cell.right)
    symbols = tuple(half.electrode.formula for half in halves if half.electrode.formula in metals())
    values = tuple(
        amount.value for half in halves for _, amount in half.amounts if amount.value is not None and amount.unit == "mol/L"
    )
    return Facts(metals=symbols, concentrations=values, bridge=bridge)
