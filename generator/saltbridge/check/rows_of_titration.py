"""Plain formulas of oxidation numbers, redox equations and redox titration, as rows for ``resolve``.

Volumes in dm3, amounts in mol, masses in g, potentials in V. Source: arithmetic of definitions (OpenStax Chemistry 2e,
sections 4.2, 4.5 and 17.1); the potentials of a titration after the Nernst equation (Green Book, 3rd edition, 2.13, from memory).
"""

from __future__ import annotations

from math import exp, log, log10
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

Row = tuple[str, tuple[str, ...], "Callable[..., float]"]


def weighted_mean(n: float, E: float, m: float, other: float) -> float:
    """Give the potential in V that two couples reach together, each counted with its electrons."""
    return (n * E + m * other) / (n + m)


OXIDATION_BACKWARDS: tuple[Row, ...] = (
    ("charge_ion", ("ox", "ox_rest", "atoms_ox"), lambda x, rest, count: x * count + rest),
    ("ox_rest", ("charge_ion", "ox", "atoms_ox"), lambda z, x, count: z - x * count),
    ("atoms_ox", ("charge_ion", "ox_rest", "ox"), lambda z, rest, x: (z - rest) / x),
    ("ox_after", ("ox_before", "ox_change"), lambda before, change: before + change),
    ("ox_before", ("ox_after", "ox_change"), lambda after, change: after - change),
    ("atoms_half", ("n_transfer", "ox_high", "ox_low"), lambda n, high, low: n / (high - low)),
    ("ox_high", ("n_transfer", "atoms_half", "ox_low"), lambda n, count, low: low + n / count),
    ("ox_low", ("n_transfer", "atoms_half", "ox_high"), lambda n, count, high: high - n / count),
    ("n_common", ("nu_red", "n_red"), lambda times, half: times * half),
    ("n_common", ("nu_ox", "n_ox"), lambda times, half: times * half),
)
TITRATION: tuple[Row, ...] = (
    ("V_titrant", ("V_sum", "k_titres"), lambda total, count: total / count),
    ("n_titrant", ("c_titrant", "V_titrant"), lambda c, V: c * V),
    ("n_analyte", ("n_titrant", "nu_analyte", "nu_titrant"), lambda n, a, t: n * a / t),
    ("n_analyte", ("c_analyte", "V_analyte"), lambda c, V: c * V),
    ("c_analyte", ("n_analyte", "V_analyte"), lambda n, V: n / V),
    ("n_whole", ("n_analyte", "V_flask", "V_analyte"), lambda n, flask, portion: n * flask / portion),
    ("m_analyte", ("n_whole", "M_analyte"), lambda n, M: n * M),
    ("w_analyte", ("m_analyte", "m_sample"), lambda m, sample: m / sample),
    ("m_analyte", ("w_analyte", "m_sample"), lambda w, sample: w * sample),
    ("n_titrant", ("n_analyte", "nu_analyte", "nu_titrant"), lambda n, a, t: n * t / a),
    ("V_titrant", ("n_titrant", "c_titrant"), lambda n, c: n / c),
    ("c_titrant", ("n_titrant", "V_titrant"), lambda n, V: n / V),
    ("f_before", ("V_before", "V_titrant"), lambda V, at: V / at),
    ("f_after", ("V_after", "V_titrant"), lambda V, at: V / at),
    ("E_titrant", ("E0_titrant", "thermal", "H_titrant", "n_e_titrant", "pH_flask"), lambda E, t, h, n, pH: E - t * log(10) * h / n * pH),
    ("r_before", ("f_before",), lambda f: f / (1 - f)),
    ("r_after", ("f_after",), lambda f: f - 1),
    ("E_before", ("E0_analyte", "slope", "n_e_analyte", "r_before"), lambda E, s, n, ratio: E + s / n * log10(ratio)),
    ("E_before", ("E0_analyte", "thermal", "n_e_analyte", "r_before"), lambda E, t, n, ratio: E + t / n * log(ratio)),
    ("E_after", ("E_titrant", "slope", "n_e_titrant", "r_after"), lambda E, s, n, ratio: E + s / n * log10(ratio)),
    ("E_after", ("E_titrant", "thermal", "n_e_titrant", "r_after"), lambda E, t, n, ratio: E + t / n * log(ratio)),
    ("E_step_low", ("E0_analyte", "slope", "n_e_analyte"), lambda E, s, n: E + s / n * log10(999)),
    ("E_step_low", ("E0_analyte", "thermal", "n_e_analyte"), lambda E, t, n: E + t / n * log(999)),
    ("E_step_high", ("E_titrant", "slope", "n_e_titrant"), lambda E, s, n: E - 3 * s / n),
    ("E_step_high", ("E_titrant", "thermal", "n_e_titrant"), lambda E, t, n: E - t / n * log(1000)),
    ("E_eq", ("n_e_analyte", "E0_analyte", "n_e_titrant", "E_titrant"), weighted_mean),
    ("f_before", ("E_before", "E0_analyte", "thermal", "n_e_analyte"), lambda E, E0, t, n: 1 / (1 + exp((E0 - E) * n / t))),
    ("V_end", ("V_low", "V_high"), lambda low, high: (low + high) / 2),
)  # fmt: skip
