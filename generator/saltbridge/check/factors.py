"""Unit factors of the independent route: each unit with its quantity and its size in the coherent unit."""

from __future__ import annotations

from saltbridge.faults import fault

# Sizes: SI Brochure, 9th edition, tables 3, 7 and 8; the atmosphere is 101 325 Pa by definition (10th CGPM, 1954).
FACTORS: dict[str, tuple[str, float]] = {
    "": ("number", 1.0),
    "1": ("number", 1.0),
    "%": ("number", 0.01),
    "V": ("potential", 1.0),
    "mV": ("potential", 1e-3),
    "K": ("temperature", 1.0),
    "J/mol": ("molar energy", 1.0),
    "kJ/mol": ("molar energy", 1e3),
    "A": ("current", 1.0),
    "mA": ("current", 1e-3),
    "kA": ("current", 1e3),
    "s": ("time", 1.0),
    "min": ("time", 60.0),
    "h": ("time", 3600.0),
    "d": ("time", 86400.0),
    "C": ("charge", 1.0),
    "kC": ("charge", 1e3),
    "A h": ("charge", 3600.0),
    "mA h": ("charge", 3.6),
    "mol": ("amount", 1.0),
    "mmol": ("amount", 1e-3),
    "kmol": ("amount", 1e3),
    "g": ("mass", 1.0),
    "mg": ("mass", 1e-3),
    "kg": ("mass", 1e3),
    "t": ("mass", 1e6),
    "J/(mol K)": ("molar entropy", 1.0),
    "ohm": ("resistance", 1.0),
    "kohm": ("resistance", 1e3),
    "Mohm": ("resistance", 1e6),
    "cm/s": ("speed", 1.0),
    "J/g": ("energy for each mass", 1.0),
    "W h": ("energy", 3600.0),
    "Wh": ("energy", 3600.0),
    "W h/kg": ("energy for each mass", 3.6),
    "Wh/kg": ("energy for each mass", 3.6),
    "A h/kg": ("charge for each mass", 3.6),
    "mA h/g": ("charge for each mass", 3.6),
    "mAh": ("charge", 3.6),
    "Ah": ("charge", 3600.0),
    "mAh/g": ("charge for each mass", 3.6),
    "Ah/kg": ("charge for each mass", 3.6),
    "y": ("time", 31557600.0),
    "mm/y": ("speed", 0.1 / 31557600.0),
    "uA/cm2": ("current density", 1e-6),
    "A/m2": ("current density", 1e-4),
    "mA/m2": ("current density", 1e-7),
    "m2": ("area", 1e4),
    "V/K": ("temperature coefficient", 1.0),
    "mV/K": ("temperature coefficient", 1e-3),
    "J": ("energy", 1.0),
    "kJ": ("energy", 1e3),
    "kWh": ("energy", 3.6e6),
    "kWh/kg": ("energy for each mass", 3600.0),
    "C/g": ("charge for each mass", 1.0),
    "dm3": ("volume", 1.0),
    "L": ("volume", 1.0),
    "cm3": ("volume", 1e-3),
    "dm3/mol": ("molar volume", 1.0),
    "L/mol": ("molar volume", 1.0),
    "cm2": ("area", 1.0),
    "dm2": ("area", 100.0),
    "cm": ("length", 1.0),
    "mm": ("length", 0.1),
    "um": ("length", 1e-4),
    "g/cm3": ("density", 1.0),
    "A/cm2": ("current density", 1.0),
    "A/dm2": ("current density", 0.01),
    "C/mol": ("molar charge", 1.0),
    "g/mol": ("molar mass", 1.0),
    "kg/mol": ("molar mass", 1e3),
    "mol/L": ("concentration", 1.0),
    "mol/dm3": ("concentration", 1.0),
    "mmol/L": ("concentration", 1e-3),
    "mol/m3": ("concentration", 1e-3),
    "bar": ("pressure", 1.0),
    "Pa": ("pressure", 1e-5),
    "kPa": ("pressure", 1e-2),
    "atm": ("pressure", 1.01325),
}
ZERO_CELSIUS = 273.15


def to_coherent(value: float, unit: str) -> float:
    """Give a value in the coherent unit of its quantity (V, K, J/mol, A, s, C, mol, g, g/mol, mol/L, bar or 1).

    Raises ``Faulty`` for a unit that isn't known. A temperature in °C becomes one in K.
    """
    if unit == "°C":
        return value + ZERO_CELSIUS
    return value * _entry(unit)[1]


def from_coherent(value: float, unit: str) -> float:
    """Give a value of the coherent unit in ``unit``; raises ``Faulty`` for a unit that isn't known."""
    if unit == "°C":
        return value - ZERO_CELSIUS
    return value / _entry(unit)[1]


def same_quantity(one: str, other: str) -> bool:
    """Tell whether two units measure the same quantity; raises ``Faulty`` for a unit that isn't known."""
    kinds = {"temperature" if unit == "°C" else _entry(unit)[0] for unit in (one, other)}
    return len(kinds) == 1


def _entry(unit: str) -> tuple[str, float]:
    if unit not in FACTORS:
        known = ", ".join(sorted(name for name in FACTORS if name)) + ", °C"
        raise fault("unknown-unit", expected=f"one of {known}", found=repr(unit))
    return FACTORS[unit]
