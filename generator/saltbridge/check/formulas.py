"""Electrochemistry in plain floats, one line a formula, written apart from the derivations.

Quantities are in coherent units: V, K, J/mol, A, s, C, mol, g, g/mol; pure numbers for Q, K, n and z. Potentials are
reduction potentials. A formula that has no value (a logarithm of zero, a division by zero) raises ``ArithmeticError`` or
``ValueError``, as plain floats do.
"""

from __future__ import annotations

from math import exp, log, log10

from saltbridge.tables import constant

# F and R are taken as products of the numbers that define the SI, exact since 2019 (SI Brochure, 9th edition, section 2.2).
FARADAY = constant("N_A") * constant("e")
GAS = constant("N_A") * constant("k")
ROOM = constant("T_25")


# ------------------------------------------------------------------ potentials


def cell_potential(E_cathode: float, E_anode: float) -> float:
    """Give the potential of a cell in V from those of its electrodes (Gold Book E01934); also for standard potentials."""
    return E_cathode - E_anode


def thermal_voltage(T: float = ROOM, R: float = GAS, F: float = FARADAY) -> float:
    """Give RT/F in V: what a factor e in Q costs at n = 1 (25.69 mV at 25 °C)."""
    return R * T / F


def nernst(E0: float, n: float, Q: float, thermal: float) -> float:
    """Give the potential in V of a cell or of one electrode written as a reduction (Green Book, 3rd edition, 2.13)."""
    return E0 - thermal * log(Q) / n


def nernst_per_decade(E0: float, n: float, Q: float, slope: float) -> float:
    """Give the potential in V by the 25 °C form: ``slope`` in V is what one power of ten in Q costs at n = 1."""
    return E0 - slope * log10(Q) / n


def quotient_from_potential(E: float, E0: float, n: float, thermal: float) -> float:
    """Give the quotient Q at which a cell or electrode shows ``E`` (V): the Nernst equation read backwards."""
    return exp((E0 - E) * n / thermal)


def quotient_from_potential_per_decade(E: float, E0: float, n: float, slope: float) -> float:
    """Give the quotient Q at which a cell shows ``E`` (V), by the 25 °C form."""
    return float(10 ** ((E0 - E) * n / slope))


def one_activity(Q: float, exponent: float, rest: float) -> float:
    """Give the activity a in Q = rest · a^exponent; ``exponent`` is negative on the left of the equation."""
    return float((Q / rest) ** (1 / exponent))


def hydrogen_ion(pH: float) -> float:
    """Give the activity of the hydrogen ion from the pH (Gold Book P04524)."""
    return float(10**-pH)


def potential_at(E0_25: float, coefficient: float, T: float) -> float:
    """Give the standard potential in V at ``T`` (K) from that at 25 °C and its temperature coefficient in V/K, linearly."""
    return E0_25 + coefficient * (T - ROOM)


# ------------------------------------------------------------------ energy and equilibrium


def gibbs_energy(E: float, n: float, F: float = FARADAY) -> float:
    """Give ΔG in J/mol from a cell potential in V (Green Book, 3rd edition, 2.13); ΔG° from a standard one."""
    return -n * F * E


def potential_from_gibbs(dG: float, n: float, F: float = FARADAY) -> float:
    """Give the cell potential in V from ΔG in J/mol."""
    return -dG / (n * F)


def lg_equilibrium_constant(E0: float, n: float, thermal: float) -> float:
    """Give lg K from a standard cell potential in V: the Nernst equation at E = 0, where Q is K."""
    return n * E0 / thermal / log(10)


def lg_equilibrium_constant_per_decade(E0: float, n: float, slope: float) -> float:
    """Give lg K from a standard cell potential in V by the 25 °C form."""
    return n * E0 / slope


def lg_equilibrium_constant_from_gibbs(dG0: float, T: float = ROOM, R: float = GAS) -> float:
    """Give lg K from ΔG° in J/mol (Green Book, 3rd edition, 2.11)."""
    return -dG0 / (R * T) / log(10)


def gibbs_from_lg_equilibrium_constant(lgK: float, T: float = ROOM, R: float = GAS) -> float:
    """Give ΔG° in J/mol from lg K."""
    return -R * T * log(10) * lgK


# ------------------------------------------------------------------ Faraday's laws


def charge(current: float, time: float) -> float:
    """Give the charge in C of a steady current (A) over a time (s)."""
    return current * time


def electrons(q: float, F: float = FARADAY) -> float:
    """Give the amount of electrons in mol in a charge (C)."""
    return q / F


def amount(q: float, z: float, efficiency: float = 1, F: float = FARADAY) -> float:
    """Give the amount in mol made by a charge (C), ``z`` electrons each, a fraction ``efficiency`` of it doing that work."""
    return efficiency * q / (z * F)


def mass(q: float, z: float, M: float, efficiency: float = 1, F: float = FARADAY) -> float:
    """Give the mass in g made by a charge (C): Faraday's laws in one line, ``M`` in g/mol."""
    return efficiency * q * M / (z * F)


def charge_for_mass(m: float, z: float, M: float, efficiency: float = 1, F: float = FARADAY) -> float:
    """Give the charge in C that must pass to make a mass (g)."""
    return m * z * F / (M * efficiency)


def efficiency_from_mass(m: float, q: float, z: float, M: float, F: float = FARADAY) -> float:
    """Give the current efficiency, a fraction: the mass found (g) over the mass that all of the charge would make."""
    return m / (q * M / (z * F))


def electrons_from_mass(m: float, q: float, M: float, efficiency: float = 1, F: float = FARADAY) -> float:
    """Give z, the electrons for each ion, from a weighed mass (g) and the charge (C) passed."""
    return efficiency * q * M / (m * F)


def molar_mass_from_mass(m: float, q: float, z: float, efficiency: float = 1, F: float = FARADAY) -> float:
    """Give the molar mass in g/mol of what a charge (C) has made, from its mass (g)."""
    return m * z * F / (efficiency * q)
