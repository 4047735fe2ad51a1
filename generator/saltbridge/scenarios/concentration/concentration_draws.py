"""Scenes of concentration, pH and gases drawn: electrodes, lines, cells that run down, are levelled or changed, quotients."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from math import log10
from typing import Any

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import SIDES, Amount, GalvanicCell, half_cell, has_activity, swap
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import fault
from saltbridge.scenarios.cell.cell_draws import galvanic_scene
from saltbridge.scenarios.cell.cell_models import GalvanicScenario
from saltbridge.scenarios.cell.galvanic import CellOptions, Temperature, galvanic
from saltbridge.scenarios.concentration.changes import ACTIONS
from saltbridge.scenarios.concentration.concentration import add_changed, add_quotient_forms, add_running, line
from saltbridge.scenarios.concentration.concentration_models import (
    ChangedScenario,
    ElectrodeScenario,
    LineScenario,
    QuotientScenario,
    RunningScenario,
)
from saltbridge.scenarios.concentration.electrode import ACID, ALKALI, Surroundings, electrode
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity, sample_quantities, sheet_row
from saltbridge.scenarios.transfer import Ways
from saltbridge.tables import metals
from saltbridge.tables.benches import anions, bridge_salts
from saltbridge.units import Quantity, convert, same_dimension
from saltbridge.words import of_bank as words_of

METER = Decimal("0.001")  # V, as a meter for single electrodes shows
NO_AMOUNT = Amount("?", None, "mol/L", given=False)


# ------------------------------------------------------------------ one electrode


def electrode_scene(body: ElectrodeScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """One electrode in what is drawn for it. Raises ``Faulty`` where its couple is not on the sheet."""
    choice = tuple(metals()[symbol].couple for symbol in body.metals) if body.metals else tuple(body.couples or ())
    row = sheet_row(means, source.pick("couple", choice))
    acid = pick_quantity(body.pH, source, "pH") if body.pH else None
    amounts: dict[str, Quantity] = {}
    for species in dict.fromkeys(parse_half_reaction(row.half_reaction).species):
        drawn = body.pressures if species.phase == "g" else body.concentrations
        if drawn is None or not has_activity(species) or (acid is not None and species.bare in {ACID, ALKALI}):
            continue
        amounts[species.bare] = pick_quantity(drawn, source, species.bare)
    warm = pick_quantity(body.temperature, source, "T") if body.temperature else None
    surroundings = Surroundings(amounts, acid, Temperature(*warm) if warm else None, shift_E0=body.shift_with_temperature)
    settings = means.settings
    situation = electrode(row, surroundings, means.sheet, catalogue, nernst=settings.nernst, say=words_of(settings))
    return Scene(situation, _electrode_facts(row.couple, amounts))


def _electrode_facts(couple: str, amounts: Mapping[str, Quantity]) -> Facts:
    symbols = tuple(symbol for symbol, each in metals().items() if each.couple == couple)
    values = [float(convert(*each, "mol/L")) for each in amounts.values() if same_dimension(each.unit, "mol/L")]
    return Facts(metals=symbols, concentrations=tuple(values))


def line_scene(body: LineScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Two points of a line, each potential read to a millivolt. Raises ``Faulty`` where the couple has no such line."""
    row = sheet_row(means, source.pick("couple", body.couples))
    half = parse_half_reaction(row.half_reaction)
    slope = float(means.sheet.constants["slope"].printed)
    acid = next((term.coefficient for term in half.oxidised if term.species.bare == ACID), 0)
    if body.against == "pH" and not acid:
        raise fault("no-line", expected="a couple with hydrogen ions", found=row.couple)
    if body.against == "lg c" and half.principal[0].phase != "aq":
        raise fault("no-line", expected="a couple with a dissolved oxidised form", found=row.couple)
    drawn = body.pH if body.against == "pH" else body.concentrations
    assert drawn is not None  # noqa: S101 - the scenario has looked
    points = sorted(sample_quantities(drawn, source, "points", 2), key=lambda each: float(each.printed))
    given: dict[str, Quantity] = {}
    for place, point in enumerate(points, 1):
        value = float(point.printed if body.against == "pH" else convert(point.printed, point.unit, "mol/L"))
        step = -slope * acid / half.n * value if body.against == "pH" else slope / half.n * log10(value)
        name = "pH" if body.against == "pH" else "c"
        given[f"{name}_at{place}"] = point
        given[f"E_at_{name}{place}"] = Quantity(str((Decimal(row.E0) + Decimal(step)).quantize(METER)), "V")
    settings = means.settings
    situation = line(row, given, body.against, means.sheet, catalogue, say=words_of(settings))
    return Scene(situation, Facts())


# ------------------------------------------------------------------ cells that change


def two_metals(body: Any, source: Source, means: Means, catalogue: Catalogue, concentrations: Any = None) -> Scene:
    """A cell of two metals as the galvanic scenario draws it."""
    plain = GalvanicScenario.model_construct(
        metals=body.metals, couples=None, half_cells="different", concentrations=concentrations, pressures=None, temperature=None,
        swap_sides=body.swap_sides, written="as drawn",
    )  # fmt: skip
    return galvanic_scene(plain, source, means, catalogue)


def running_scene(body: RunningScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A cell that has run for a while. Raises ``Faulty`` where a couple is not on the sheet."""
    drawn = two_metals(body, source, means, catalogue)
    symbols = [drawn.situation.labels[f"{side}.symbol"].plain for side in SIDES]
    halves = [half_cell(sheet_row(means, metals()[symbol].couple), {metals()[symbol].ion: NO_AMOUNT}) for symbol in symbols]
    cell = GalvanicCell(halves[0], halves[1])
    settings = means.settings
    ways = Ways(words_of(settings), settings.decimal_mark, settings.concentration_unit, settings.unit_style)
    situation = galvanic(cell, means.sheet, catalogue, None, CellOptions(nernst=settings.nernst, ways=ways))
    given = {
        "c_reactant_0": pick_quantity(body.start_at_cathode, source, "c_reactant_0"),
        "c_product_0": pick_quantity(body.start_at_anode, source, "c_product_0"),
        "x_reacted": pick_quantity(body.reacted, source, "x_reacted"),
    }
    add_running(situation, catalogue, given)
    values = tuple(float(convert(*given[name], "mol/L")) for name in ("c_reactant_0", "c_product_0"))
    return Scene(situation, replace(drawn.facts, concentrations=values))


def changed_scene(body: ChangedScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A cell and one change made to it. Raises ``Faulty`` where no salt brings the ion down."""
    scene = two_metals(body, source, means, catalogue, body.concentrations)
    situation = scene.situation
    name = source.pick("change", body.changes)
    factor = pick_quantity(body.factor, source, "factor") if body.factor else None
    change = add_changed(situation, catalogue, name, factor)
    if "{precipitant}" in ACTIONS[name]:
        ion = metals()[situation.labels[f"{change.at}.symbol"].plain].ion
        salt = next(
            (each.name for each in bridge_salts().values() if each.precipitant and ion in anions()[each.anion].solids), None
        )
        if salt is None:
            raise fault("no-precipitant", expected=f"a salt that brings down {ion}", found="none")
        situation.words["change"] = situation.words["change"].replace("{precipitant}", situation.say(salt))
    return scene


def quotient_scene(body: QuotientScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A working cell with its quotient printed in right and wrong ways."""
    rows = [sheet_row(means, couple) for couple in source.sample("couples", body.couples, 2)]
    higher_left = float(rows[0].E0) > float(rows[1].E0)
    wanted = {"never": False, "always": True}.get(body.swap_sides, higher_left)
    amounts: list[dict[str, Amount]] = [
        {
            species.bare: Amount("?", None, "bar" if species.phase == "g" else "mol/L", given=False)
            for species in parse_half_reaction(row.half_reaction).species
            if has_activity(species)
        }
        for row in rows
    ]
    cell = GalvanicCell(*(half_cell(row, each) for row, each in zip(rows, amounts, strict=True)))
    cell = cell if higher_left == wanted else swap(cell)
    settings = means.settings
    ways = Ways(words_of(settings), settings.decimal_mark, settings.concentration_unit, settings.unit_style)
    situation = galvanic(cell, means.sheet, catalogue, None, CellOptions(nernst=settings.nernst, ways=ways))
    add_quotient_forms(situation, catalogue, cell)
    return Scene(situation, Facts())
