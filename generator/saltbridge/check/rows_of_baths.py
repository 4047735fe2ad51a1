"""Plain formulas of electrolysis beside Faraday's laws, as rows for ``resolve``: gases, coats, baths, energy and cost.

Volumes in dm3, areas in cm2, lengths in cm, pressures in bar, energies in J. Source: arithmetic of definitions;
the ideal gas after the Green Book, 3rd edition, section 2.10 (from memory).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

Row = tuple[str, tuple[str, ...], "Callable[..., float]"]

KILOPASCALS = 100.0  # in a bar; J/kPa is dm3
CUBES = 1000.0  # cm3 in a dm3
SECONDS_AN_HOUR = 3600.0  # J/g in kWh/kg

GASES: tuple[Row, ...] = (
    ("V_m", ("R", "T", "p_gas"), lambda R, T, p: R * T / (p * KILOPASCALS)),
    ("V_gas", ("n_B", "V_m"), lambda n, V: n * V),
    ("n_B", ("V_gas", "V_m"), lambda V, Vm: V / Vm),
    ("n_2", ("n_e", "z_2"), lambda n, z: n / z),
    ("m_2", ("n_2", "M_2"), lambda n, M: n * M),
    ("V_gas_2", ("n_2", "V_m"), lambda n, V: n * V),
    ("n_2", ("m_2", "M_2"), lambda m, M: m / M),
    ("n_2", ("V_gas_2", "V_m"), lambda V, Vm: V / Vm),
    ("n_e", ("n_2", "z_2"), lambda n, z: n * z),
)

COATS: tuple[Row, ...] = (
    ("A_plated", ("faces", "A_face"), lambda faces, area: faces * area),
    ("V_coating", ("A_plated", "thickness"), lambda area, d: area * d / CUBES),
    ("m", ("V_coating", "density"), lambda V, density: V * CUBES * density),
    ("V_coating", ("m", "density"), lambda m, density: m / density / CUBES),
    ("thickness", ("V_coating", "A_plated"), lambda V, area: V * CUBES / area),
    ("j_plate", ("I", "A_plated"), lambda current, area: current / area),
    ("I", ("j_plate", "A_plated"), lambda j, area: j * area),
    ("n_bath", ("c_bath", "V_bath"), lambda c, V: c * V),
    ("n_left", ("n_bath", "n_B"), lambda before, out: before - out),
    ("c_left", ("n_left", "V_bath"), lambda n, V: n / V),
    ("c_halide", ("nu_anion", "c_salt"), lambda nu, c: nu * c),
)

ENERGY: tuple[Row, ...] = (
    ("U_min", ("E0_cell",), lambda E: -E),
    ("W_el", ("U_bath", "q"), lambda U, q: U * q),
    ("q_gram", ("z", "F", "M"), lambda z, F, M: z / M * F),
    ("q_supply", ("q_gram", "efficiency"), lambda q, efficiency: q / efficiency),
    ("w_el", ("U_bath", "q_supply"), lambda U, q: U * q),
    ("cost_kg", ("price", "w_el"), lambda price, w: price * w / SECONDS_AN_HOUR),
)
