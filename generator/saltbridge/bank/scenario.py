"""Scenarios: what is drawn. Kinds are told apart by the key that is present."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import ConfigDict, Field, model_validator

from saltbridge.bank.battery_scenario import (
    BatteryScenario,
    FuelCellScenario,
    LoadedCellScenario,
    MaterialScenario,
    ReadingsScenario,
)
from saltbridge.bank.bench_scenario import BenchScenario, DifferenceScenario, MeterScenario, RepeatsScenario
from saltbridge.bank.concentration_scenario import (
    ChangedScenario,
    ElectrodeScenario,
    LevelledScenario,
    LineScenario,
    QuotientScenario,
    RunningScenario,
)
from saltbridge.bank.corrosion_scenario import (
    AnodeBlockScenario,
    CorrodingSurfaceScenario,
    JoinedMetalsScenario,
    ProtectionScenario,
    RustingScenario,
    RustTubesScenario,
    ScratchedCoatScenario,
)
from saltbridge.bank.electrolysis_scenario import (
    CoatingScenario,
    MixedIonsScenario,
    PlantScenario,
    RefiningScenario,
    SaltBathScenario,
    SeriesScenario,
)
from saltbridge.bank.equilibrium_scenario import ConstantScenario, EnergyScenario, FormationScenario
from saltbridge.bank.fields import Drawn, Keys, Measures, Several, YesNo, key_of
from saltbridge.bank.kinds import BridgeSaltName, Couple, Metal
from saltbridge.bank.redox_scenario import (
    ChangeScenario,
    DisplacementScenario,
    HalogenScenario,
    OddScenario,
    OxidationScenario,
    RedoxScenario,
)
from saltbridge.bank.standards_scenario import (
    ReactionScenario,
    ReagentScenario,
    ReferenceScenario,
    StepsScenario,
    TableScenario,
)
from saltbridge.bank.titration_scenario import CurveScenario, TitrationScenario
from saltbridge.bank.told import wrong


class GalvanicScenario(Keys):
    """Two half-cells joined to a galvanic cell."""

    metals: Several[Metal] | None = Field(None, description="Metals to draw from, each in a solution of its own ions.")
    couples: Several[Couple] | None = Field(None, description="Couples to draw from, by their id in the table of potentials.")
    half_cells: Literal["different", "same"] = Field(
        "different", description="`same` makes a concentration cell: one metal or couple on both sides."
    )
    concentrations: Annotated[Drawn | None, Measures("mol/L", bare="mol/L", standard=True)] = Field(
        None,
        description="`standard`, or the concentrations to draw from, in mol/L where no unit stands; each dissolved species draws its own.",
    )
    pressures: Annotated[Drawn | None, Measures("bar", standard=True)] = Field(
        None, description="`standard`, or the pressures of gases to draw from, as `from: [0.50 bar, 2.0 bar]`."
    )
    temperature: Annotated[Drawn | None, Measures("°C", positive=False)] = Field(
        None, description="The temperature, as `25 °C`, or several to draw from. Without it: the data sheet's, 25 °C."
    )
    swap_sides: Literal["sometimes", "never", "always"] = Field(
        "sometimes",
        description="Whether the couple with the higher potential also stands on the left: `never`, `always` or `sometimes`.",
    )
    written: Literal["as drawn", "anode left"] = Field(
        "as drawn", description="How the cell diagram is written: as the cell is drawn, or with the anode on the left."
    )
    mass_lost: Annotated[Drawn | None, Measures("g")] = Field(
        None, description="Mass lost by the anode, `m_lost`; what the cathode gains follows. Only with two metals."
    )
    mass_gained: Annotated[Drawn | None, Measures("g")] = Field(
        None, description="Mass gained by the cathode, `m_gained`; what the anode loses follows. Only with two metals."
    )
    amount_dissolved: Annotated[Drawn | None, Measures("mol")] = Field(
        None,
        description="Amount of metal dissolved at the anode, `n_lost`; the charge through the bridge follows as `n_e` and `q`.",
    )
    current: Annotated[Drawn | None, Measures("A")] = Field(None, description="A steady current, with `time`; masses follow.")
    time: Annotated[Drawn | None, Measures("s")] = Field(None, description="How long the current flows.")
    bridge_salts: Several[BridgeSaltName] = Field(
        (), description="Salts to choose from for the bridge; a draw is kept where exactly one fits the cell."
    )
    voltage_wanted: Annotated[Drawn | None, Measures("V")] = Field(
        None, description="A voltage to be reached with several such cells in a row."
    )
    wrong_diagrams: YesNo = Field(
        False, description="Also writes the cell diagram in the usual wrong ways, as `diagram.reversed`, to choose from."
    )

    @model_validator(mode="after")
    def _two_half_cells(self) -> Self:
        chosen = self.metals if self.metals is not None else self.couples
        if chosen is None or (self.metals is not None and self.couples is not None):
            found = "neither" if chosen is None else "both"
            raise wrong("half-cells", "either `metals` or `couples`", found, "As `metals: [Zn, Cu, Ag]`.")
        if self.half_cells == "different" and len(chosen) < 2:
            hint = "For a concentration cell write `half cells: same`."
            raise wrong("half-cells", "two or more to draw from", f"only `{chosen[0]}`", hint)
        if self.half_cells == "same" and (self.concentrations is None or len(self.concentrations.values) < 2):
            hint = "As `concentrations: {from: [0.010, 0.10, 1.0]}`."
            raise wrong("half-cells", "two or more concentrations for a concentration cell", "fewer", hint)
        given = [name for name in ("mass_lost", "mass_gained", "amount_dissolved", "current") if getattr(self, name) is not None]
        if len(given) > 1 or (self.current is None) != (self.time is None):
            expected = "one of `mass lost`, `mass gained`, `amount dissolved`, or `current` with `time`"
            raise wrong("passed", expected, ", ".join(f"`{key_of(name)}`" for name in given) or "`time` alone")
        return self


class ElectrolysisScenario(Keys):
    """A metal is deposited by a steady current. Two of current, time and mass are given; the third is left to find."""

    metals: Several[Metal] = Field(description="Metals to draw from; the bath holds ions of the one drawn.")
    current: Annotated[Drawn | None, Measures("A")] = Field(
        None,
        description="The current, as `0.50 A`, `from: [0.50 A, 1.00 A]`, or `between: [0.20 A, 1.00 A]` with `step: 0.05 A`.",
    )
    time: Annotated[Drawn | None, Measures("s")] = Field(None, description="The time, as `30 min`, or several to draw from.")
    mass: Annotated[Drawn | None, Measures("g")] = Field(
        None, description="The mass deposited, as `1.20 g`, or several to draw from."
    )
    efficiency: Annotated[Drawn | None, Measures("%")] = Field(
        None,
        description="The current efficiency, as `95 %`, or several to draw from. Without it: all the current deposits metal.",
    )

    @model_validator(mode="after")
    def _two_given(self) -> Self:
        given = [name for name in ("current", "time", "mass") if getattr(self, name) is not None]
        if len(given) != 2:
            found = "all three" if given[2:] else f"only `{given[0]}`" if given else "none"
            raise wrong("electrolysis-given", "two of `current`, `time` and `mass`", found, "The third is what is left to find.")
        return self


class Scenario(Keys):
    """What the question is about: exactly one kind."""

    model_config = ConfigDict(json_schema_extra={"minProperties": 1, "maxProperties": 1})

    galvanic_cell: GalvanicScenario | None = Field(None, description="Two half-cells joined to a cell that gives a current.")
    electrolysis: ElectrolysisScenario | None = Field(None, description="A metal deposited by a current.")
    bench: BenchScenario | None = Field(None, description="Readings of metals against a reference metal on the bench.")
    salt_bath: SaltBathScenario | None = Field(None, description="A salt electrolysed, molten or in water.")
    coating: CoatingScenario | None = Field(None, description="An object coated with a metal.")
    cells_in_series: SeriesScenario | None = Field(None, description="Two products of the same electrons.")
    works: PlantScenario | None = Field(None, description="A works that makes a product: energy and cost.")
    refining: RefiningScenario | None = Field(None, description="An impure anode refined.")
    mixed_ions: MixedIonsScenario | None = Field(None, description="Ions of two metals in one solution.")

    electrode: ElectrodeScenario | None = Field(None, description="One electrode against hydrogen, with pH and gases.")
    potential_line: LineScenario | None = Field(None, description="Two points of a line of potentials.")
    running_cell: RunningScenario | None = Field(None, description="A cell that has delivered current for a while.")
    levelled_cell: LevelledScenario | None = Field(None, description="A concentration cell that has run down.")
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
    scratched_coat: ScratchedCoatScenario | None = Field(None, description="A coat of metal with a scratch.")
    protection: ProtectionScenario | None = Field(None, description="A structure and what protects it.")
    anode_block: AnodeBlockScenario | None = Field(None, description="A block of sacrificial metal: mass and life.")
    corroding_surface: CorrodingSurfaceScenario | None = Field(None, description="Metal lost at a corrosion current density.")
    rusting: RustingScenario | None = Field(None, description="Iron in water with air: equations and potentials.")
    rust_tubes: RustTubesScenario | None = Field(None, description="Iron in a tube with or without air and water.")
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
        return key_of(self._present[0])

    @property
    def body(self) -> Keys:
        """What stands under that key."""
        body: Keys = getattr(self, self._present[0])
        return body
