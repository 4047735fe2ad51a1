"""Picks plain formulas by what is known: the second opinion on an answer, or None where it has none."""

from __future__ import annotations

from contextlib import suppress
from functools import cache
from math import log, log10
from typing import TYPE_CHECKING

from saltbridge.check import formulas as f
from saltbridge.check.backwards import backwards
from saltbridge.check.rows_of_baths import COATS, ENERGY, GASES
from saltbridge.check.rows_of_benches import BENCH, STANDARDS
from saltbridge.check.rows_of_cells import CONCENTRATION, ELECTRODE_MASSES, EQUILIBRIUM, REDOX, TEMPERATURE
from saltbridge.check.rows_of_devices import BATTERIES, CIRCUITS, CORROSION
from saltbridge.check.rows_of_titration import OXIDATION_BACKWARDS, TITRATION

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

Row = tuple[str, tuple[str, ...], "Callable[..., float]"]

# (wanted, known in the order of the formula's arguments, formula). The first row of a name whose needs are met counts, so
# the 25 °C form goes before the general one where a slope is given.
_FIRST: tuple[Row, ...] = (
    ("thermal", ("T", "R", "F"), f.thermal_voltage),
    ("q", ("I", "t"), f.charge),
    ("q", ("m", "z", "M", "efficiency", "F"), f.charge_for_mass),
    ("q", ("n_B", "z", "efficiency", "F"), lambda n_B, z, efficiency, F: n_B * z * F / efficiency),
    ("q", ("q_used", "efficiency"), lambda used, efficiency: used / efficiency),
    ("q", ("n_e", "F"), lambda n_e, F: n_e * F),
    ("I", ("q", "t"), lambda q, t: q / t),
    ("F", ("q", "n_e"), lambda q, n_e: q / n_e),
    ("t", ("q", "I"), lambda q, current: q / current),
    ("q_used", ("q", "efficiency"), lambda q, efficiency: q * efficiency),
    ("n_e", ("q", "efficiency", "F"), lambda q, efficiency, F: f.electrons(q * efficiency, F)),
    ("n_e", ("n_B", "z"), lambda n_B, z: n_B * z),
    ("n_B", ("m", "M"), lambda m, M: m / M),
    ("n_B", ("q", "z", "efficiency", "F"), f.amount),
    ("n_B", ("n_e", "z"), lambda n_e, z: n_e / z),
    ("m", ("q", "z", "M", "efficiency", "F"), f.mass),
    ("m", ("n_B", "M"), lambda n_B, M: n_B * M),
    ("efficiency", ("m", "q", "z", "M", "F"), f.efficiency_from_mass),
    ("z", ("m", "q", "M", "efficiency", "F"), f.electrons_from_mass),
    ("z", ("n_e", "n_B"), lambda n_e, n_B: n_e / n_B),
    ("M", ("m", "n_B"), lambda m, n_B: m / n_B),
    ("M", ("m", "q", "z", "efficiency", "F"), f.molar_mass_from_mass),
    ("E_cathode", ("E0_cathode", "n_cathode", "Q_cathode", "thermal"), f.nernst),
    ("E_anode", ("E0_anode", "n_anode", "Q_anode", "thermal"), f.nernst),
    ("E0_cell", ("E0_cathode", "E0_anode"), f.cell_potential),
    ("E0_cathode", ("E0_cell", "E0_anode"), lambda cell, anode: cell + anode),
    ("E0_anode", ("E0_cathode", "E0_cell"), lambda cathode, cell: cathode - cell),
    ("E0_cell", ("lgK", "n", "slope"), lambda lgK, n, slope: lgK * slope / n),
    ("E0_cell", ("dG0", "n", "F"), f.potential_from_gibbs),
    ("lgK", ("K",), log10),
    ("lgK", ("E0_cell", "n", "slope"), f.lg_equilibrium_constant_per_decade),
    ("lgK", ("E0_cell", "n", "thermal"), f.lg_equilibrium_constant),
    ("lgK", ("dG0", "T", "R"), f.lg_equilibrium_constant_from_gibbs),
    ("K", ("lgK",), lambda lgK: float(10**lgK)),
    ("dG0", ("E0_cell", "n", "F"), f.gibbs_energy),
    ("dG0", ("lgK", "T", "R"), f.gibbs_from_lg_equilibrium_constant),
    ("E_cell", ("E_cathode", "E_anode"), f.cell_potential),
    ("E_cell", ("E0_cell", "n", "Q", "slope"), f.nernst_per_decade),
    ("E_cell", ("E0_cell", "n", "Q", "thermal"), f.nernst),
    ("E_cell", ("dG", "n", "F"), f.potential_from_gibbs),
    ("dG", ("E_cell", "n", "F"), f.gibbs_energy),
    ("Q", ("E_cell", "E0_cell", "n", "slope"), f.quotient_from_potential_per_decade),
    ("Q", ("E_cell", "E0_cell", "n", "thermal"), f.quotient_from_potential),
    ("E0_cell", ("E_cell", "n", "Q", "thermal"), lambda E, n, Q, thermal: f.nernst(E, n, 1 / Q, thermal)),
    ("E0", ("E", "n", "Q", "thermal"), lambda E, n, Q, thermal: f.nernst(E, n, 1 / Q, thermal)),
    ("n", ("dG0", "E0_cell", "F"), lambda dG0, E, F: -dG0 / (F * E)),
    ("n", ("dG", "E_cell", "F"), lambda dG, E, F: -dG / (F * E)),
    ("T", ("E_cell", "E0_cell", "n", "Q", "R", "F"), lambda E, E0, n, Q, R, F: (E0 - E) * n * F / (R * log(Q))),
    ("T", ("dG0", "lgK", "R"), lambda dG0, lgK, R: -dG0 / (R * log(10) * lgK)),
    ("c_anode", ("Q", "x_anode", "Q_rest"), f.one_activity),
    ("c_cathode", ("Q", "x_cathode", "Q_rest"), f.one_activity),
    ("E", ("E0", "n", "Q", "slope"), f.nernst_per_decade),
    ("E", ("E0", "n", "Q", "thermal"), f.nernst),
    ("reading", ("E", "E_ref"), f.cell_potential),
    ("E", ("reading", "E_ref"), lambda reading, reference: reading + reference),
    ("E_ref", ("E", "reading"), lambda electrode, reading: electrode - reading),
    ("reading_pair", ("reading_red", "reading_black"), lambda red, black: red - black),
    ("reading_red", ("reading_pair", "reading_black"), lambda pair, black: pair + black),
    ("reading_black", ("reading_red", "reading_pair"), lambda red, pair: red - pair),
    ("E0", ("E0_25", "dEdT", "T"), f.potential_at),
    ("E0_25", ("E0", "dEdT", "T"), lambda E0, coefficient, T: f.potential_at(E0, -coefficient, T)),
    ("dEdT", ("E0", "E0_25", "T"), lambda E0, cold, T: (E0 - cold) / (T - f.ROOM)),
    ("T", ("E0", "E0_25", "dEdT"), lambda E0, cold, coefficient: f.ROOM + (E0 - cold) / coefficient),
)

ROWS: tuple[Row, ...] = (
    *_FIRST,
    *CONCENTRATION,
    *TEMPERATURE,
    *EQUILIBRIUM,
    *REDOX,
    *ELECTRODE_MASSES,
    *GASES,
    *COATS,
    *ENERGY,
    *STANDARDS,
    *BENCH,
    *OXIDATION_BACKWARDS,
    *TITRATION,
    *CIRCUITS,
    *BATTERIES,
    *CORROSION,
)

# Taken where nothing else is said: exact constants, and all of the current doing its work.
CONSTANTS = {"R": f.GAS, "F": f.FARADAY}
USUAL = {**CONSTANTS, "efficiency": 1.0}
SLOPE_HOLDS_WITHIN = 0.2  # K around 25 °C, so that 298 K and 298.15 K both count


def resolve(find: str, known: Mapping[str, float]) -> float | None:
    """Give ``find`` from the known values by plain formulas, or None: then the answer isn't independently checked.

    Names are those of data/quantities.yaml in coherent units (V, K, J/mol, A, s, C, mol, g, g/mol), and for an unknown
    concentration ``x_anode`` or ``x_cathode``, its exponent in Q (negative for a reactant), and ``Q_rest``, the quotient
    without it. Missing R and F are the exact ones, a missing efficiency is 1; a ``slope`` away from 25 °C is passed over.
    A ``find`` that is itself known is not looked up but worked out from the rest. Where no formula gives it, one that gives
    something known from it is read backwards.
    """
    values = {name: value for name, value in (USUAL | dict(known)).items() if name != find}
    if abs(values.get("T", f.ROOM) - f.ROOM) > SLOPE_HOLDS_WITHIN:
        values.pop("slope", None)
    if _forwards(find, values, _towards(find)):
        return values[find]
    return _backwards(find, values)


def _forwards(find: str, values: dict[str, float], rows: tuple[Row, ...]) -> bool:
    """Work out what the rows give, the first of a name first, until ``find`` is there; tell whether it is."""
    untried = list(rows)
    while find not in values:
        row = next((row for row in untried if row[0] not in values and all(name in values for name in row[1])), None)
        if row is None:
            return False
        untried.remove(row)
        wanted, needs, formula = row
        with suppress(ArithmeticError, ValueError):  # no value here; another row may have one
            values[wanted] = formula(*(values[name] for name in needs))
    return True


@cache
def _towards(find: str) -> tuple[Row, ...]:
    """The rows from which ``find`` may follow, in order."""
    names = {find}
    while True:
        more = {name for row in ROWS if row[0] in names for name in row[1]} - names
        if not more:
            return tuple(row for row in ROWS if row[0] in names)
        names |= more


def _backwards(find: str, values: dict[str, float]) -> float | None:
    """One formula read backwards, of those that have everything but ``find``; constants are never asked for."""
    if find in CONSTANTS or find == "slope":
        return None
    if find == "T":
        thermal = _backwards("thermal", values)
        if thermal is not None:
            return thermal * values["F"] / values["R"]
    told = dict(values)
    for wanted, needs, formula in ROWS:
        if find not in needs or wanted not in told:
            continue
        missing = [name for name in needs if name != find and not _forwards(name, values, _towards(name))]
        if not missing:
            at = needs.index(find)
            before, after = [values[name] for name in needs[:at]], [values[name] for name in needs[at + 1 :]]
            found = backwards(_but_one(formula, before, after), told[wanted])
            if found is not None:
                return found
    return None


def _but_one(formula: Callable[..., float], before: list[float], after: list[float]) -> Callable[[float], float]:
    """The formula as a function of the argument that is missing between the others."""
    return lambda x: formula(*before, x, *after)
