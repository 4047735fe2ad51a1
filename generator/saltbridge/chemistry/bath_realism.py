"""Realism rules of electrolysis: what a bath, a plating shop or a plant could hold.

The limits are common practice, no source, except those of chloride, which stand with their source in discharge_rules.csv.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from saltbridge.tables import constant
from saltbridge.tables.electrolytes import discharge_rules, electrolytes

if TYPE_CHECKING:
    from saltbridge.chemistry.realism_facts import Facts

MOST_OF_BATH = 0.60
THICKNESS = (1e-4, 50e-4)  # cm
CURRENT_DENSITY = (0.005, 0.10)  # A/cm2
LOWEST_PLANT_CURRENT = 1000.0  # A
LOWEST_PLANT_TIME = 3600.0  # s
PLANT_EFFICIENCY = (0.85, 0.98)
PRESSURE = (10.0, 500.0)  # kPa
TEMPERATURE = (288.15, 308.15)  # K
SLACK = 1e-9


def _outside(value: float | None, bounds: tuple[float, float]) -> bool:
    low, high = bounds
    return value is not None and not low * (1 - SLACK) <= value <= high * (1 + SLACK)


def supply(facts: Facts) -> str | None:
    """No more than 60 % of what the bath holds, unless the anode renews it."""
    used, held = facts.values.get("n_B"), facts.values.get("n_bath")
    if used is None or held is None or facts.renewed or used <= MOST_OF_BATH * held * (1 + SLACK):
        return None
    return f"{used:.3g} mol of {held:.3g} mol in the bath would be deposited, more than {MOST_OF_BATH:.0%}"


def plate(facts: Facts) -> str | None:
    """Coats of 1 to 50 µm at 0.5 to 10 A/dm2."""
    thickness, density = facts.values.get("thickness"), facts.values.get("j_plate")
    if thickness is not None and _outside(thickness, THICKNESS):
        return f"a coat of {thickness * 1e4:.3g} µm is outside 1 to 50 µm"
    if density is not None and _outside(density, CURRENT_DENSITY):
        return f"a current density of {density * 100:.3g} A/dm2 is outside 0.5 to 10 A/dm2"
    return None


def plant(facts: Facts) -> str | None:
    """Kiloamperes, hours, and 85 to 98 % efficiency."""
    current, time, efficiency = (facts.values.get(name) for name in ("I", "t", "efficiency"))
    if current is not None and current < LOWEST_PLANT_CURRENT * (1 - SLACK):
        return f"a plant runs on kiloamperes, not on {current:g} A"
    if time is not None and time < LOWEST_PLANT_TIME * (1 - SLACK):
        return f"a plant runs for hours, not for {time / 60:g} min"
    if efficiency is not None and _outside(efficiency, PLANT_EFFICIENCY):
        return f"a current efficiency of {efficiency:.0%} is outside 85 to 98 %"
    return None


def gas(facts: Facts) -> str | None:
    """Pressures of 10 to 500 kPa, whether of a product or in Q, and temperatures of 15 to 35 °C."""
    pressure, kelvin = facts.values.get("p_gas"), facts.values.get("T")
    bar = facts.values.get("p")
    if pressure is None and bar is not None:
        pressure = 100 * bar
    if pressure is not None and _outside(pressure, PRESSURE):
        return f"a pressure of {pressure:g} kPa is outside 10 to 500 kPa"
    if kelvin is not None and _outside(kelvin, TEMPERATURE):
        return f"a temperature of {kelvin - constant('T_zero'):.0f} °C is outside 15 to 35 °C"
    return None


def chloride(facts: Facts) -> str | None:
    """Chloride concentrated or very dilute, nothing between, where inert electrodes stand in a solution."""
    salt = electrolytes().get(facts.salt)
    rules = discharge_rules()
    if salt is None or facts.state != "aqueous" or salt.anion not in rules["chlorine"].species or facts.electrodes != "inert":
        return None
    value = facts.values.get("c_halide")
    if value is None:
        return "the concentration of the chloride is not given, so chlorine or oxygen can't be named either"
    low, high = float(rules["oxygen"].value), float(rules["chlorine"].value)
    if low < value < high:
        return f"chloride at {value:g} mol/L lies between {low:g} and {high:g} mol/L, where chlorine and oxygen form together"
    return None


def state(facts: Facts) -> str | None:
    """Molten or aqueous, and in water the electrodes."""
    if not facts.salt:
        return None
    if facts.state not in {"molten", "aqueous"}:
        return f"whether {facts.salt} is molten or in water is not given"
    if facts.state == "aqueous" and not facts.electrodes:
        return "whether the electrodes are inert or take part is not given"
    return None
