"""Scenarios: what is drawn. Kinds are told apart by the key that is present."""

from __future__ import annotations

from typing import Self

from pydantic import ConfigDict, Field, model_validator

from saltbridge.forms.fields import Keys, key_of
from saltbridge.forms.validation_messages import wrong
from saltbridge.scenarios.bath.bath_models import (
    CoatingScenario,
    MixedIonsScenario,
    PlantScenario,
    RefiningScenario,
    SaltBathScenario,
    SeriesScenario,
)
from saltbridge.scenarios.bath.faraday_models import ElectrolysisScenario
from saltbridge.scenarios.battery.battery_models import (
    BatteryScenario,
    FuelCellScenario,
    LoadedCellScenario,
    MaterialScenario,
    ReadingsScenario,
)
from saltbridge.scenarios.bench.bench_models import BenchScenario, DifferenceScenario, MeterScenario, RepeatsScenario
from saltbridge.scenarios.cell.cell_models import GalvanicScenario
from saltbridge.scenarios.concentration.concentration_models import (
    ChangedScenario,
    ElectrodeScenario,
    LineScenario,
    QuotientScenario,
    RunDownScenario,
    RunningScenario,
)
from saltbridge.scenarios.corrosion.corrosion_models import (
    AnodeBlockScenario,
    CorrodingSurfaceScenario,
    JoinedMetalsScenario,
    ProtectionScenario,
    RustingScenario,
    RustingTubesScenario,
    ScratchedCoatingScenario,
)
from saltbridge.scenarios.energy.energy_models import ConstantScenario, EnergyScenario, FormationScenario
from saltbridge.scenarios.redox.redox_models import (
    ChangeScenario,
    DisplacementScenario,
    HalogenScenario,
    OddScenario,
    OxidationScenario,
    RedoxScenario,
)
from saltbridge.scenarios.standards.standards_models import (
    ReactionScenario,
    ReagentScenario,
    ReferenceScenario,
    StepsScenario,
    TableScenario,
)
from saltbridge.scenarios.titration.titration_models import CurveScenario, TitrationScenario


class Scenario(Keys):
    """What the question is about: exactly one kind."""

    model_config = ConfigDict(json_schema_extra={"minProperties": 1, "maxProperties": 1})

    galvanic_cell: GalvanicScenario | None = Field(None, description="Two half-cells joined to a cell that gives a current.")
    electrolysis: ElectrolysisScenario | None = Field(None, description="A metal deposited by a current.")
    bench: BenchScenario | None = Field(None, description="Readings of metals against a reference metal on the bench.")
    salt_bath: SaltBathScenario | None = Field(None, description="A salt electrolysed, molten or in water.")
    coating: CoatingScenario | None = Field(None, description="An object coated with a metal.")
    electrolytic_cells_in_series: SeriesScenario | None = Field(None, description="Two products of the same electrons.")
    industrial_plant: PlantScenario | None = Field(None, description="A plant that makes a product: energy and cost.")
    refining: RefiningScenario | None = Field(None, description="An impure anode refined.")
    mixed_ions: MixedIonsScenario | None = Field(None, description="Ions of two metals in one solution.")

    electrode: ElectrodeScenario | None = Field(None, description="One electrode against hydrogen, with pH and gases.")
    potential_line: LineScenario | None = Field(None, description="Two points of a line of potentials.")
    running_cell: RunningScenario | None = Field(None, description="A cell that has delivered current for a while.")
    run_down_concentration_cell: RunDownScenario | None = Field(
        None, alias="run-down concentration cell", description="A concentration cell that has run down."
    )
    changed_cell: ChangedScenario | None = Field(None, description="A cell and one change made to it.")
    reaction_quotient: QuotientScenario | None = Field(None, description="A cell whose quotient is to be written.")
    cell_energy: EnergyScenario | None = Field(None, description="The energy of a cell: signs, entropy, multiples, work.")
    formation_energies: FormationScenario | None = Field(None, description="A fuel and oxygen, from energies of formation.")
    equilibrium_constant: ConstantScenario | None = Field(None, description="Ksp, Kf or Kw from two potentials.")

    table_of_potentials: TableScenario | None = Field(None, description="Rows of the table to compare and rank.")
    reaction_to_judge: ReactionScenario | None = Field(None, description="A reaction: can it go? A solution: can it be kept?")
    reagent_to_choose: ReagentScenario | None = Field(None, description="A reagent that oxidises one thing and spares another.")
    steps_of_reduction: StepsScenario | None = Field(None, description="Two reductions one after the other.")
    reference_electrode: ReferenceScenario | None = Field(None, description="Potentials moved to another reference.")
    meter_reading: MeterScenario | None = Field(None, description="One cell on one meter.")
    repeated_readings: RepeatsScenario | None = Field(None, description="Repeats, one of them far from the others.")
    two_readings: DifferenceScenario | None = Field(None, description="Two readings with their uncertainties.")

    oxidation_number: OxidationScenario | None = Field(None, description="One element in one species.")
    change: ChangeScenario | None = Field(None, description="Half of a redox reaction.")
    redox_reaction: RedoxScenario | None = Field(None, description="A redox reaction to balance and to read.")
    odd_one_out: OddScenario | None = Field(None, description="Several equations, one of another kind.")
    displacement: DisplacementScenario | None = Field(None, description="Metals put into each other's salt solutions.")
    halogen_displacement: HalogenScenario | None = Field(None, description="A halogen added to a halide.")
    titration: TitrationScenario | None = Field(None, description="A redox titration: titre, concentration and mass.")
    battery: BatteryScenario | None = Field(None, description="A battery with its printed figures, and packs of such cells.")
    loaded_cell: LoadedCellScenario | None = Field(None, description="A cell with internal resistance that gives a current.")
    current_and_voltage: ReadingsScenario | None = Field(None, description="Two readings of one cell on a line.")
    electrode_material: MaterialScenario | None = Field(None, description="The theoretical capacity of an electrode material.")
    fuel_cell: FuelCellScenario | None = Field(None, description="A fuel cell: equations, fuel used, efficiencies.")
    joined_metals: JoinedMetalsScenario | None = Field(None, description="Two metals that touch in a wet place.")
    scratched_coating: ScratchedCoatingScenario | None = Field(None, description="A coating of metal with a scratch.")
    protection: ProtectionScenario | None = Field(None, description="A structure and what protects it.")
    anode_block: AnodeBlockScenario | None = Field(None, description="A block of sacrificial metal: mass and life.")
    corroding_surface: CorrodingSurfaceScenario | None = Field(None, description="Metal lost at a corrosion current density.")
    rusting: RustingScenario | None = Field(None, description="Iron in water with air: equations and potentials.")
    rusting_test_tubes: RustingTubesScenario | None = Field(
        None, description="Iron in a test tube with or without air and water."
    )
    titration_curve: CurveScenario | None = Field(None, description="The potential during a redox titration.")

    @model_validator(mode="after")
    def _one_kind(self) -> Self:
        if len(self._present) != 1:
            expected = "exactly one kind of scenario, such as `galvanic cell`, `electrolysis` or `bench`"
            raise wrong("scenario-kind", expected, f"{len(self._present)} of them" if self._present else "none of them")
        return self

    @property
    def _present(self) -> list[str]:
        return [name for name in type(self).model_fields if getattr(self, name) is not None]

    @property
    def kind(self) -> str:
        """The key that is present, such as ``galvanic cell``."""
        present = self._present[0]
        return type(self).model_fields[present].alias or key_of(present)

    @property
    def body(self) -> Keys:
        """What stands under that key."""
        body: Keys = getattr(self, self._present[0])
        return body
