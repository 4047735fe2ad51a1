"""From a template's scenario and a source to a situation: each kind of scenario has its own drawing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.forms.fields import Keys
from saltbridge.scenarios.bath.bath_draws import ELECTROLYSIS_DRAWINGS
from saltbridge.scenarios.bath.faraday_draws import electrolysis_scene
from saltbridge.scenarios.bath.faraday_models import ElectrolysisScenario
from saltbridge.scenarios.battery.battery_draws import BATTERY_DRAWINGS
from saltbridge.scenarios.bench.bench_draws import BENCH_DRAWINGS
from saltbridge.scenarios.cell.cell_draws import galvanic_scene
from saltbridge.scenarios.cell.cell_models import GalvanicScenario
from saltbridge.scenarios.concentration.concentration_draws import CONCENTRATION_DRAWINGS
from saltbridge.scenarios.corrosion.corrosion_draws import CORROSION_DRAWINGS
from saltbridge.scenarios.energy.energy_draws import EQUILIBRIUM_DRAWINGS
from saltbridge.scenarios.redox.redox_draws import REDOX_DRAWINGS
from saltbridge.scenarios.scene import Means, Scene, Source
from saltbridge.scenarios.standards.standards_draws import STANDARDS_DRAWINGS
from saltbridge.scenarios.titration.titration_draws import TITRATION_DRAWINGS

Drawing = Callable[[Any, Source, Means, Catalogue], Scene]

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


def draw_scene(body: Keys, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Draw what stands under a scenario's kind. Raises ``Faulty`` where the draw can't be built (a couple not on the sheet)."""
    return DRAWINGS[type(body)](body, source, means, catalogue)
