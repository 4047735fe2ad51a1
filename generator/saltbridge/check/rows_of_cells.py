"""Plain formulas of concentration, pH, energy, equilibrium and redox equations, as rows for ``resolve``.

Units as in ``formulas``; temperature coefficients in V/K. Sources: Green Book, 3rd edition, sections 2.10 and 2.13 (from memory) for
the Nernst equation, equilibrium constants and Gibbs energies; the rest is arithmetic of definitions.
"""

from __future__ import annotations

from math import log, log10, sqrt
from typing import TYPE_CHECKING

from saltbridge.check import formulas as f

if TYPE_CHECKING:
    from collections.abc import Callable

Row = tuple[str, tuple[str, ...], "Callable[..., float]"]

LN10 = log(10)
NEUTRAL_SUM = 14.0  # pH + pOH at 25 °C, as taught

CONCENTRATION: tuple[Row, ...] = (
    ("E", ("E0", "n_half", "Q_half", "slope"), f.nernst_per_decade),
    ("E", ("E0", "n_half", "Q_half", "thermal"), f.nernst),
    ("E_pH0", ("E0", "n_half", "Q_without_H", "slope"), f.nernst_per_decade),
    ("E_pH0", ("E0", "n_half", "Q_without_H", "thermal"), f.nernst),
    ("pH", ("c_H",), lambda c: -log10(c)),
    ("c_H", ("pH",), f.hydrogen_ion),
    ("pOH", ("pH",), lambda pH: NEUTRAL_SUM - pH),
    ("pH", ("pOH",), lambda pOH: NEUTRAL_SUM - pOH),
    ("pOH", ("c_OH",), lambda c: -log10(c)),
    ("c_OH", ("pOH",), f.hydrogen_ion),
    ("m_H", ("slope_pH", "n_half", "slope"), lambda s, n, slope: -s * n / slope),
    ("slope_pH", ("m_H", "n_half", "slope"), lambda m, n, s: -s * m / n),
    ("slope_pH", ("m_H", "n_half", "thermal"), lambda m, n, thermal: -thermal * LN10 * m / n),
    ("slope_pH", ("E_at_pH2", "E_at_pH1", "pH_at2", "pH_at1"), lambda E2, E1, x2, x1: (E2 - E1) / (x2 - x1)),
    ("E", ("E_pH0", "slope_pH", "pH"), lambda E, s, pH: E + s * pH),
    ("c_reactant", ("c_reactant_0", "x_reacted"), lambda c, x: c - c * x),
    (
        "c_product",
        ("c_product_0", "c_reactant_0", "x_reacted", "nu_anode", "nu_cathode"),
        lambda c, used, x, anode, cathode: c + used * x * anode / cathode,
    ),
    ("c_flat", ("c_reactant_0", "c_product_0", "K"), lambda one, other, K: (one + other) / (K + 1)),
    ("c_level", ("c_conc", "V_conc", "c_dil", "V_dil"), lambda c1, V1, c2, V2: (V1 * c1 + V2 * c2) / (V1 + V2)),
    ("dE_shift", ("s_ion", "n", "f_dilution", "slope"), lambda s, n, times, slope: slope * s * log10(times) / n),
    ("dE_shift", ("s_ion", "n", "f_dilution", "thermal"), lambda s, n, times, thermal: thermal * s * log(times) / n),
    ("E_slope", ("E_at_c2", "E_at_c1", "c_at2", "c_at1"), lambda E2, E1, c2, c1: (E2 - E1) / log10(c2 / c1)),
    ("n_line", ("E_slope", "slope"), lambda s, slope: slope / s),
    ("E_slope", ("n_line", "slope"), lambda n, slope: slope / n),
    ("E_slope", ("n_line", "thermal"), lambda n, thermal: thermal * LN10 / n),
)

TEMPERATURE: tuple[Row, ...] = (
    ("dEdT_cell", ("dEdT_cathode", "dEdT_anode"), lambda cathode, anode: cathode - anode),
    ("E0_cell_25", ("E0_cathode_25", "E0_anode_25"), f.cell_potential),
    ("E0_cell", ("E0_cell_25", "dEdT_cell", "T"), f.potential_at),
    ("dS0", ("n", "F", "dEdT_cell"), lambda n, F, coefficient: n * F * coefficient),
    ("dH0", ("dG0", "T", "dS0"), lambda G, T, S: G + T * S),
    ("dG0", ("Gf_products", "Gf_reactants"), lambda products, reactants: products - reactants),
    ("n_times", ("times", "n"), lambda times, n: times * n),
    ("dG0_times", ("times", "dG0"), lambda times, G: times * G),
    ("lgK_times", ("times", "lgK"), lambda times, lgK: times * lgK),
    ("E0_times", ("E0_cell",), lambda E: E),
    ("w_max", ("q", "E_cell"), lambda q, E: q * E),
    ("heat_share", ("n", "F", "E_cell", "dH0"), lambda n, F, E, H: f.gibbs_energy(E, n, F) / H),
)

EQUILIBRIUM: tuple[Row, ...] = (
    ("E0_dissolve", ("E0_salt", "E0_metal"), f.cell_potential),
    ("lgKsp", ("E0_dissolve", "n_salt", "slope"), f.lg_equilibrium_constant_per_decade),
    ("lgKsp", ("E0_dissolve", "n_salt", "thermal"), f.lg_equilibrium_constant),
    ("Ksp", ("lgKsp",), lambda lgK: float(10**lgK)),
    ("lgKsp", ("Ksp",), log10),
    ("Ksp", ("s_AB",), lambda s: s * s),
    ("Ksp", ("s_AB2",), lambda s: s * (2 * s) ** 2),
    ("s_AB", ("Ksp",), sqrt),
    ("s_AB2", ("Ksp",), lambda K: float((K / 4) ** (1 / 3))),
    ("c_over", ("Ksp", "c_anion"), lambda K, c: K / c),
    ("E0_bind", ("E0_free", "E0_complex"), f.cell_potential),
    ("lgKf", ("E0_bind", "n_complex", "slope"), f.lg_equilibrium_constant_per_decade),
    ("lgKf", ("E0_bind", "n_complex", "thermal"), f.lg_equilibrium_constant),
    ("Kf", ("lgKf",), lambda lgK: float(10**lgK)),
    ("E0_split", ("E0_base", "E0_acid"), f.cell_potential),
    ("lgKw", ("E0_split", "slope"), lambda E, slope: E / slope),
    ("lgKw", ("E0_split", "thermal"), lambda E, thermal: E / thermal / LN10),
    ("Kw", ("lgKw",), lambda lgK: float(10**lgK)),
    ("u_lgK", ("n", "u_E", "slope"), lambda n, u, slope: n * u / slope),
    ("u_lgK", ("n", "u_E", "thermal"), lambda n, u, thermal: n * u / thermal / LN10),
    ("factor_K", ("u_lgK",), lambda u: float(10**u)),
)

ELECTRODE_MASSES: tuple[Row, ...] = (
    ("n_lost", ("m_lost", "M_lost"), lambda m, M: m / M),
    ("n_e", ("n_lost", "z_lost"), lambda n, z: n * z),
    ("n_gained", ("n_e", "z_gained"), lambda n, z: n / z),
    ("m_gained", ("n_gained", "M_gained"), lambda n, M: n * M),
    ("n_gained", ("m_gained", "M_gained"), lambda m, M: m / M),
    ("n_e", ("n_gained", "z_gained"), lambda n, z: n * z),
    ("n_e", ("q", "F"), lambda q, F: q / F),
    ("n_lost", ("n_e", "z_lost"), lambda n, z: n / z),
    ("m_lost", ("n_lost", "M_lost"), lambda n, M: n * M),
)

REDOX: tuple[Row, ...] = (
    ("ox", ("charge_ion", "ox_rest", "atoms_ox"), lambda charge, rest, atoms: (charge - rest) / atoms),
    ("ox_mean", ("charge_ion", "ox_rest", "atoms_ox"), lambda charge, rest, atoms: (charge - rest) / atoms),
    ("ox_change", ("ox_after", "ox_before"), lambda after, before: after - before),
    ("n_transfer", ("atoms_half", "ox_high", "ox_low"), lambda atoms, high, low: atoms * high - atoms * low),
    ("nu_red", ("n_common", "n_red"), lambda common, n: common / n),
    ("nu_ox", ("n_common", "n_ox"), lambda common, n: common / n),
    ("coeff_H", ("nu_red", "H_red", "nu_ox", "H_ox"), lambda nu1, H1, nu2, H2: nu1 * H1 - nu2 * H2),
    ("coeff_sum", ("sum_left", "sum_right"), lambda left, right: left + right),
)
