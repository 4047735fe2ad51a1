"""From a template's scenario and a seed to a situation: each kind of scenario has its own drawing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from saltbridge.bank.bank import Bank
from saltbridge.bank.scenario import ElectrolysisScenario, GalvanicScenario
from saltbridge.bank.template import Template
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.draw.bath_scenes import electrolysis_scene
from saltbridge.draw.battery_scenes import BATTERY_DRAWINGS
from saltbridge.draw.bench_scenes import BENCH_DRAWINGS
from saltbridge.draw.cell_scenes import galvanic_scene
from saltbridge.draw.concentration_scenes import CONCENTRATION_DRAWINGS
from saltbridge.draw.corrosion_scenes import CORROSION_DRAWINGS
from saltbridge.draw.electrolysis_scenes import ELECTROLYSIS_DRAWINGS
from saltbridge.draw.equilibrium_scenes import EQUILIBRIUM_DRAWINGS
from saltbridge.draw.redox_scenes import REDOX_DRAWINGS
from saltbridge.draw.scene import Scene
from saltbridge.draw.seeds import Seed
from saltbridge.draw.standards_scenes import STANDARDS_DRAWINGS
from saltbridge.draw.titration_scenes import TITRATION_DRAWINGS

Drawing = Callable[[Any, Seed, Bank, Catalogue], Scene]

DRAWINGS: Mapping[type, Drawing] = {
    GalvanicScenario: galvanic_scene,
    ElectrolysisScenario: electrolysis_scene,
    **BENCH_DRAWINGS,
    **STANDARDS_DRAWINGS,
    **CONCENTRATION_DRAWINGS,
    **ELECTROLYSIS_DRAWINGS,
    **BATTERY_DRAWINGS,
    **CORROSION_DRAWINGS,
    **REDOX_DRAWINGS,
    **TITRATION_DRAWINGS,
    **EQUILIBRIUM_DRAWINGS,
}


def draw_scene(template: Template, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Draw the scenario of a template. Raises ``Faulty`` where the draw can't be built (a couple not on the sheet)."""
    body = template.scenario.body
    return DRAWINGS[type(body)](body, seed, bank, catalogue)
