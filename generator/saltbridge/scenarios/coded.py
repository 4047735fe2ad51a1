"""The kinds of scenario that keep code: the model of each and its drawing. All others stand in data."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.forms.fields import Keys
from saltbridge.scenarios.bath.bath_draws import (
    salt_bath_scene,
    series_scene,
)
from saltbridge.scenarios.bath.bath_models import (
    SaltBathScenario,
    SeriesScenario,
)
from saltbridge.scenarios.battery.battery_draws import readings_scene
from saltbridge.scenarios.battery.battery_models import ReadingsScenario
from saltbridge.scenarios.bench.bench_draws import bench_scene, repeats_scene
from saltbridge.scenarios.bench.bench_models import BenchScenario, RepeatsScenario
from saltbridge.scenarios.cell.cell_draws import galvanic_scene
from saltbridge.scenarios.cell.cell_models import GalvanicScenario
from saltbridge.scenarios.concentration.concentration_draws import (
    changed_scene,
    electrode_scene,
    line_scene,
    quotient_scene,
    running_scene,
)
from saltbridge.scenarios.concentration.concentration_models import (
    ChangedScenario,
    ElectrodeScenario,
    LineScenario,
    QuotientScenario,
    RunningScenario,
)
from saltbridge.scenarios.corrosion.corrosion_draws import joined_scene
from saltbridge.scenarios.corrosion.corrosion_models import (
    JoinedMetalsScenario,
)
from saltbridge.scenarios.energy.energy_draws import constant_scene, energy_scene
from saltbridge.scenarios.energy.energy_models import ConstantScenario, EnergyScenario
from saltbridge.scenarios.redox.redox_draws import (
    change_scene,
    displacement_scene,
    odd_scene,
    redox_scene,
)
from saltbridge.scenarios.redox.redox_models import (
    ChangeScenario,
    DisplacementScenario,
    OddScenario,
    RedoxScenario,
)
from saltbridge.scenarios.scene import Means, Scene, Source
from saltbridge.scenarios.standards.standards_draws import (
    reagent_scene,
    reference_scene,
    steps_scene,
    table_scene,
)
from saltbridge.scenarios.standards.standards_models import (
    ReagentScenario,
    ReferenceScenario,
    StepsScenario,
    TableScenario,
)
from saltbridge.scenarios.titration.titration_draws import curve_scene, titration_scene
from saltbridge.scenarios.titration.titration_models import CurveScenario, TitrationScenario

Drawing = Callable[[Any, Source, Means, Catalogue], Scene]


@dataclass(frozen=True, slots=True)
class Coded:
    """What a template writes under a kind, and how a scene of it is drawn."""

    model: type[Keys]
    draw: Drawing


CODED: Mapping[str, Coded] = {
    "galvanic cell": Coded(GalvanicScenario, galvanic_scene),
    "bench": Coded(BenchScenario, bench_scene),
    "salt bath": Coded(SaltBathScenario, salt_bath_scene),
    "electrolytic cells in series": Coded(SeriesScenario, series_scene),
    "electrode": Coded(ElectrodeScenario, electrode_scene),
    "potential line": Coded(LineScenario, line_scene),
    "running cell": Coded(RunningScenario, running_scene),
    "changed cell": Coded(ChangedScenario, changed_scene),
    "reaction quotient": Coded(QuotientScenario, quotient_scene),
    "cell energy": Coded(EnergyScenario, energy_scene),
    "equilibrium constant": Coded(ConstantScenario, constant_scene),
    "table of potentials": Coded(TableScenario, table_scene),
    "reagent to choose": Coded(ReagentScenario, reagent_scene),
    "steps of reduction": Coded(StepsScenario, steps_scene),
    "reference electrode": Coded(ReferenceScenario, reference_scene),
    "repeated readings": Coded(RepeatsScenario, repeats_scene),
    "change": Coded(ChangeScenario, change_scene),
    "redox reaction": Coded(RedoxScenario, redox_scene),
    "odd one out": Coded(OddScenario, odd_scene),
    "displacement": Coded(DisplacementScenario, displacement_scene),
    "titration": Coded(TitrationScenario, titration_scene),
    "current and voltage": Coded(ReadingsScenario, readings_scene),
    "joined metals": Coded(JoinedMetalsScenario, joined_scene),
    "titration curve": Coded(CurveScenario, curve_scene),
}
"""By kind."""
