"""Plain formulas of batteries, meters and corrosion, as rows for ``resolve``.

Units as in ``formulas``; resistances in ohm, energies in J, volumes in dm3, areas in cm2, lengths in cm. Sources: arithmetic of
definitions and Ohm's law; the potentials of water against pH after the Green Book, 3rd edition, section 2.13 (from memory).
"""

from __future__ import annotations

from math import log, log10
from typing import TYPE_CHECKING

from saltbridge.check import formulas as f

if TYPE_CHECKING:
    from collections.abc import Callable

Row = tuple[str, tuple[str, ...], "Callable[..., float]"]

CUBES = 1000.0  # cm3 in a dm3
LN10 = log(10)
OXYGEN_ELECTRONS = 4.0  # O2 + 4 H+ + 4 e-
IRON_ELECTRONS = 2.0

CIRCUITS: tuple[Row, ...] = (
    ("R_total", ("R_int", "R_load"), lambda inner, outer: inner + outer),
    ("I", ("E_cell", "R_total"), lambda E, resistance: E / resistance),
    ("U_term", ("I", "R_load"), lambda current, resistance: current * resistance),
    ("U_drop", ("I", "R_int"), lambda current, resistance: current * resistance),
    ("U_term", ("E_cell", "U_drop"), lambda E, drop: E - drop),
    ("U_term", ("U_pack", "U_drop"), lambda U, drop: U - drop),
    ("U_charge", ("E_cell", "U_drop"), lambda E, drop: E + drop),
    ("U_meter", ("E_cell", "R_int", "R_meter"), lambda E, inner, meter: E * meter / (meter + inner)),
    ("slope_U", ("U_at2", "U_at1", "I_at2", "I_at1"), lambda U2, U1, I2, I1: (U2 - U1) / (I2 - I1)),
    ("R_int", ("slope_U",), lambda slope: -slope),
    ("R_int", ("E_cell", "U_term", "R_load"), lambda E, U, load: load * (E / U - 1)),
    ("E_cell", ("U_at1", "I_at1", "R_int"), lambda U, current, inner: U + current * inner),
)

BATTERIES: tuple[Row, ...] = (
    ("cap_gram", ("z", "F", "M"), lambda z, F, M: z / M * F),
    ("q_cap", ("cap_gram", "m_active"), lambda per_gram, m: per_gram * m),
    ("W_batt", ("U_nom", "q_cap"), lambda U, q: U * q),
    ("w_batt", ("W_batt", "m_batt"), lambda W, m: W / m),
    ("U_pack", ("N_series", "U_nom"), lambda count, U: count * U),
    ("q_pack", ("N_parallel", "q_cap"), lambda count, q: count * q),
    ("W_pack", ("U_pack", "q_pack"), lambda U, q: U * q),
    ("q_usable", ("usable", "q_cap"), lambda share, q: share * q),
    ("t_run", ("q_usable", "I"), lambda q, current: q / current),
    ("U_tn", ("dH0", "n", "F"), f.potential_from_gibbs),
    ("eta_ideal", ("dG0", "dH0"), lambda G, H: G / H),
    ("m_block", ("m", "u_anode"), lambda m, share: m / share),
    ("m", ("m_block", "u_anode"), lambda block, share: block * share),
    ("heat_share", ("z", "F", "U_term", "dH0"), lambda z, F, U, H: U / (-H / (z * F))),
    ("U_min", ("E0_anode", "E0_cathode"), lambda anode, cathode: anode - cathode),
)

CORROSION: tuple[Row, ...] = (
    ("E_hydrogen", ("pH", "slope"), lambda pH, slope: -slope * pH),
    ("E_hydrogen", ("pH", "thermal"), lambda pH, thermal: -thermal * LN10 * pH),
    (
        "E_oxygen",
        ("E0_oxygen", "pH", "p_oxygen", "slope"),
        lambda E0, pH, p, slope: E0 - slope * pH + slope / OXYGEN_ELECTRONS * log10(p),
    ),
    (
        "E_oxygen",
        ("E0_oxygen", "pH", "p_oxygen", "thermal"),
        lambda E0, pH, p, thermal: E0 - thermal * LN10 * pH + thermal / OXYGEN_ELECTRONS * log(p),
    ),
    ("E_iron", ("E0_iron", "c_iron", "slope"), lambda E0, c, slope: f.nernst_per_decade(E0, IRON_ELECTRONS, 1 / c, slope)),
    ("E_iron", ("E0_iron", "c_iron", "thermal"), lambda E0, c, thermal: f.nernst(E0, IRON_ELECTRONS, 1 / c, thermal)),
    ("E_drive", ("E_oxygen", "E_iron"), f.cell_potential),
    ("E_gap", ("E_noble", "E_base"), f.cell_potential),
    ("I", ("j_corr", "A_corr"), lambda j, area: j * area),
    ("V_loss", ("m", "density"), lambda m, density: m / density / CUBES),
    ("depth_loss", ("V_loss", "A_corr"), lambda V, area: V * CUBES / area),
    ("rate_corr", ("depth_loss", "t"), lambda depth, t: depth / t),
    ("rate_corr", ("j_corr", "M", "z", "F", "density"), lambda j, M, z, F, density: j * M / (z * F) / density),
)
