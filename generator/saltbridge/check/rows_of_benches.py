"""Plain formulas of standard potentials and of the bench, as rows for ``resolve``: another zero, steps, meters, uncertainty.

Voltages in V, resistances in ohm, Gibbs energies in J/mol. Sources: Luther's rule (from memory) for steps; Kirchhoff's voltage law
for the meter; JCGM 100:2008, section 5.1.2 (from memory) for independent deviations; the rest is arithmetic of definitions.
"""

from __future__ import annotations

from math import ceil, hypot
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

Row = tuple[str, tuple[str, ...], "Callable[..., float]"]


def weighted_potential(first: float, n_first: float, second: float, n_second: float) -> float:
    """Potential of two steps together, V, each weighted by its electrons (Luther's rule, from memory)."""
    return first + (second - first) * n_second / (n_first + n_second)


def loaded_reading(open_circuit: float, inside: float, meter: float) -> float:
    """What a meter of resistance ``meter`` shows, V: the cell potential less the drop inside (Kirchhoff's voltage law)."""
    current = open_circuit / (inside + meter)
    return open_circuit - current * inside


def whole_cells(wanted: float, each: float) -> float:
    """Cells in series that reach a voltage; what floating point adds to a whole number counts for nothing."""
    return float(ceil(wanted / each - 1e-9))


def meter_limits(part: float, reading: float, digits: float, step: float) -> float:
    """How far a reading may be off, V: a part of it and some last digits (data of digital multimeters)."""
    return digits * step + reading * part


def independent_deviation(one: float, other: float) -> float:
    """Uncertainty of a difference of independent readings, V (JCGM 100:2008, section 5.1.2, from memory)."""
    return hypot(one, other)


STANDARDS: tuple[Row, ...] = (
    ("E0_vs", ("E0", "E_ref"), lambda own, zero: -zero + own),
    ("E0_cell", ("E0_vs_cathode", "E0_vs_anode"), lambda cathode, anode: -(anode - cathode)),
    ("n_chain", ("n_first", "n_second"), lambda one, two: two + one),
    ("E0_chain", ("E0_first", "n_first", "E0_second", "n_second"), weighted_potential),
    ("E0_chain", ("E0_first", "n_first", "E0_second", "n_chain"), lambda a, n, b, both: b + (a - b) * n / both),
    ("dG0_first", ("E0_first", "n_first", "F"), lambda E, n, F: -E * F * n),
    ("dG0_second", ("E0_second", "n_second", "F"), lambda E, n, F: -E * F * n),
    ("dG0_chain", ("dG0_first", "dG0_second"), lambda one, two: two + one),
    ("E0_dispro", ("E0_first", "E0_second"), lambda first, second: -first + second),
    ("k_exact", ("U_wanted", "E0_cell"), lambda wanted, each: wanted / each),
    ("k_cells", ("U_wanted", "E0_cell"), whole_cells),
    ("E0_cell", ("of_row_1", "of_row_2"), lambda one, two: abs(one - two)),
)

BENCH: tuple[Row, ...] = (
    ("reading_new", ("reading", "reading_of_new"), lambda reading, new: reading - new),
    ("reading_new", ("reading", "reading_zero"), lambda own, zero: -(zero - own)),
    ("U_meter", ("E_cell", "R_int", "R_meter"), loaded_reading),
    ("u_meter", ("spec_rel", "U_measured", "k_digits", "U_step"), meter_limits),
    ("u_gap", ("u_red", "u_black"), lambda one, two: two + one),
    ("u_gap_random", ("u_red", "u_black"), independent_deviation),
    ("U_mean", ("U_sum", "U_outlier", "k_repeats"), lambda total, out, count: (total - out) / (count - 1)),
    ("u_mean", ("U_highest", "U_lowest"), lambda high, low: high - (high + low) / 2),
    ("d_rel", ("U_measured", "U_accepted"), lambda measured, accepted: measured / accepted - 1),
)
