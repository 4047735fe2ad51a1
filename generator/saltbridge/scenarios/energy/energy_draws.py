"""Scenes of energy and equilibrium drawn: the energy of a cell, formation energies, constants from two potentials."""

from __future__ import annotations

from dataclasses import replace

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import SIDES, GalvanicCell, half_cell
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.chemistry.species import parse_species
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.bath.electrolysis import add_faraday, add_product
from saltbridge.scenarios.cell.cell_draws import galvanic_scene
from saltbridge.scenarios.cell.cell_models import GalvanicScenario
from saltbridge.scenarios.energy.constants_of import Kind, constant_of
from saltbridge.scenarios.energy.energy import add_figures, add_heat, add_multiplied, add_signs, add_work
from saltbridge.scenarios.energy.energy_models import ConstantScenario, EnergyScenario
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity, sheet_row
from saltbridge.scenarios.situations import add_given, is_25
from saltbridge.tables import SheetRow, metals
from saltbridge.tables.choices_of_couples import bound_couples
from saltbridge.words import of_bank as words_of


def energy_scene(body: EnergyScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A working cell and its energy. Raises ``Faulty`` where a couple or its coefficient is missing."""
    plain = GalvanicScenario.model_construct(
        metals=body.metals, couples=body.couples, half_cells="different", concentrations=None, pressures=None,
        temperature=body.temperature, swap_sides=body.swap_sides, written="as drawn",
    )  # fmt: skip
    scene = galvanic_scene(plain, source, means, catalogue)
    situation = scene.situation
    rows: dict[str, SheetRow] = {side: _row(means, body, situation, side) for side in SIDES}
    mild = is_25(situation)
    if body.heat:
        cell = GalvanicCell(half_cell(rows["left"]), half_cell(rows["right"]))
        add_heat(situation, catalogue, cell, warmed=not mild)
    if body.times is not None:
        add_multiplied(situation, catalogue, pick_quantity(body.times, source, "times"))
    if body.anode_mass is not None:
        _add_anode(situation, body, source, means, catalogue)
    add_signs(situation)
    upper, lower = (rows[situation.words[f"{role}.side"]] for role in ("cathode", "anode"))
    add_figures(situation, catalogue, upper.E0, lower.E0)
    return scene


def _row(means: Means, body: EnergyScenario, situation: Situation, side: str) -> SheetRow:
    """The sheet row of a side, told by its half-reaction."""
    choice = [metals()[symbol].couple for symbol in body.metals] if body.metals else list(body.couples or ())
    rows = [sheet_row(means, couple) for couple in choice]
    text = situation.words[f"{side}.reduction text"]
    return next(row for row in rows if parse_half_reaction(row.half_reaction).reduction.bare.text == text)


def _add_anode(situation: Situation, body: EnergyScenario, source: Source, means: Means, catalogue: Catalogue) -> None:
    """The mass of the anode's metal, its electrons, and the work that they can do."""
    assert body.anode_mass is not None  # noqa: S101 - the caller has looked
    mass = pick_quantity(body.anode_mass, source, "m")
    metal = metals()[situation.labels["anode.symbol"].plain]
    half = parse_half_reaction(sheet_row(means, metal.couple).half_reaction)
    add_given(situation, catalogue, "m", mass.printed, mass.unit)
    add_product(situation, half, parse_species(metal.symbol), means.sheet, oxidised=True)
    add_faraday(situation, catalogue, with_efficiency=False)
    add_work(situation, catalogue)


def constant_scene(body: ConstantScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A constant from two potentials. Raises ``Faulty`` where a couple is not on the sheet."""
    kind: Kind = "salt" if body.salts else "complex" if body.complexes else "water"
    chosen = source.pick("couple", body.salts or body.complexes or body.water or ())
    bound, free = sheet_row(means, chosen), sheet_row(means, bound_couples()[chosen].free)
    upper, lower = (free, bound) if kind == "complex" else (bound, free)
    anion = pick_quantity(body.anion, source, "c_anion") if body.anion else None
    settings = means.settings
    situation = constant_of(
        kind, upper, lower, means.sheet, catalogue, anion=anion, nernst=settings.nernst, say=words_of(settings)
    )
    return Scene(situation, replace(Facts(), concentrations=(float(anion.printed),) if anion else ()))
