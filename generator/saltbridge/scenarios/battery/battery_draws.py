"""Batteries, loaded cells, electrode materials and fuel cells drawn."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import fault
from saltbridge.forms.fields import Drawn as Range
from saltbridge.scenarios.battery.battery_models import (
    BatteryScenario,
    FuelCellScenario,
    LoadedCellScenario,
    MaterialScenario,
    ReadingsScenario,
)
from saltbridge.scenarios.battery.battery_situation import battery, electrode_capacity, line_of_readings, loaded_cell
from saltbridge.scenarios.battery.fuel_cells import MEDIA, fuel_cell
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity
from saltbridge.tables.batteries import batteries, fuels
from saltbridge.units import Quantity, convert
from saltbridge.words import of_bank as words_of

STEP = Decimal("0.01")  # V and A, as a school meter shows


def told_of(ranges: Mapping[str, Range | None], source: Source) -> dict[str, Quantity]:
    """One value of each range that is told."""
    return {name: pick_quantity(values, source, name) for name, values in ranges.items() if values is not None}


def ohms(drawn: Mapping[str, Quantity]) -> float | None:
    """The internal resistance in ohm, for the realism rules."""
    found = drawn.get("R_int")
    return float(convert(found.printed, found.unit, "ohm")) if found else None


def battery_scene(body: BatteryScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """One kind of battery."""
    kind = batteries()[source.pick("battery", body.batteries)]
    told = told_of(
        {
            "q_cap": body.capacity, "I": body.current, "usable": body.usable, "m_batt": body.mass, "R_int": body.internal_resistance,
            "N_series": body.cells_in_series, "N_parallel": body.parallel_strings,
        },
        source,
    )  # fmt: skip
    situation = battery(kind, told, means.sheet, catalogue, words_of(means.settings))
    return Scene(situation, Facts(cell_resistance=ohms(told)))


def loaded_cell_scene(body: LoadedCellScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A cell under load. Raises ``Faulty`` where the loaded voltage would not lie below the potential."""
    told = told_of(
        {
            "E_cell": body.potential, "R_int": body.internal_resistance, "R_load": body.load, "I": body.current,
            "U_term": body.loaded_voltage,
        },
        source,
    )  # fmt: skip
    volts = {name: convert(told[name].printed, told[name].unit, "V") for name in ("E_cell", "U_term") if name in told}
    if "U_term" in volts and volts["U_term"] >= volts["E_cell"]:
        raise fault("loaded-voltage", expected="a loaded voltage below the cell potential", found=told["U_term"].printed)
    if "I" in told and "R_int" in told:
        lost = convert(told["I"].printed, told["I"].unit, "A") * convert(told["R_int"].printed, told["R_int"].unit, "ohm")
        if lost >= volts["E_cell"]:
            raise fault("loaded-voltage", expected="a terminal voltage above zero", found=f"{lost} V lost inside")
    situation = loaded_cell(told, means.sheet, catalogue, words_of(means.settings))
    return Scene(situation, Facts(cell_resistance=ohms(told)))


def readings_scene(body: ReadingsScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Two readings on a line, each rounded as a meter shows it. Raises ``Faulty`` where the second current is not the larger."""
    one, two = (
        pick_quantity(each, source, name) for name, each in (("I_at1", body.first_current), ("I_at2", body.second_current))
    )
    behind = {name: pick_quantity(each, source, name) for name, each in (("E", body.potential), ("R", body.internal_resistance))}
    potential = convert(behind["E"].printed, behind["E"].unit, "V")
    inner = convert(behind["R"].printed, behind["R"].unit, "ohm")
    spread = pick_quantity(body.scatter, source, "scatter") if body.scatter is not None else Quantity("0", "V")
    stray = convert(spread.printed, spread.unit, "V")
    told = {"I_at1": one, "I_at2": two}
    for place, current in enumerate((one, two), 1):
        amps = convert(current.printed, current.unit, "A")
        off = source.decimal(f"stray {place}", -stray, stray, STEP) if stray else Decimal(0)
        told[f"U_at{place}"] = Quantity(f"{potential - amps * inner + off:.2f}", "V")
    if Decimal(told["U_at2"].printed) >= Decimal(told["U_at1"].printed) or Decimal(told["U_at2"].printed) <= 0:
        raise fault(
            "readings", expected="a second reading with more current and fewer volts, above zero", found=told["U_at2"].printed
        )
    situation = line_of_readings(told, means.sheet, catalogue, words_of(means.settings))
    return Scene(situation, Facts(cell_resistance=float(inner)))


def material_scene(body: MaterialScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """One electrode material."""
    material, electrons = source.pick("material", body.pairs)
    told = told_of({"m_active": body.mass}, source)
    return Scene(electrode_capacity(material, electrons, told, means.sheet, catalogue, words_of(means.settings)), Facts())


def fuel_cell_scene(body: FuelCellScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """One fuel in one electrolyte."""
    fuel = fuels()[source.pick("fuel", body.fuels)]
    medium = source.pick("medium", MEDIA) if body.medium == "either" else body.medium
    told = told_of({"I": body.current, "t": body.time, "U_term": body.voltage}, source)
    return Scene(fuel_cell(fuel, medium, told, means.sheet, catalogue, words_of(means.settings)), Facts())
