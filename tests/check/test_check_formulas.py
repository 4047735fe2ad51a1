"""Laws of the plain formulas, and values from outside that pin them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge.check import formulas as f

potentials = st.floats(-3, 3).filter(lambda E: abs(E) > 1e-6)
electrons = st.integers(1, 12)
quotients = st.floats(-12, 12).map(lambda power: 10.0**power)
temperatures = st.floats(273.15, 373.15)
amounts = st.floats(1e-3, 1e6)


@given(potentials, electrons, temperatures)
def test_potential_gibbs_energy_and_lg_K_agree_in_sign(E, n, T):
    lgK = f.lg_equilibrium_constant(E, n, f.thermal_voltage(T))
    assert math.copysign(1, E) == math.copysign(1, lgK) == -math.copysign(1, f.gibbs_energy(E, n))


@given(potentials, electrons, temperatures)
def test_lg_K_by_potential_and_by_gibbs_energy_is_the_same(E, n, T):
    by_energy = f.lg_equilibrium_constant_from_gibbs(f.gibbs_energy(E, n), T)
    assert f.lg_equilibrium_constant(E, n, f.thermal_voltage(T)) == pytest.approx(by_energy, rel=1e-12)


@given(st.floats(-1, 1), electrons, temperatures)
def test_the_cell_is_dead_where_Q_is_K(E, n, T):
    thermal = f.thermal_voltage(T)
    try:
        K = 10 ** f.lg_equilibrium_constant(E, n, thermal)
    except OverflowError:
        K = math.inf
    if 0 < K < math.inf:
        assert f.nernst(E, n, K, thermal) == pytest.approx(0, abs=1e-12)
    else:
        assert n * abs(E) / thermal > 700


@given(potentials, electrons, quotients, temperatures)
def test_the_quotient_read_back_is_the_quotient_put_in(E0, n, Q, T):
    thermal = f.thermal_voltage(T)
    assert f.quotient_from_potential(f.nernst(E0, n, Q, thermal), E0, n, thermal) == pytest.approx(Q, rel=1e-9)


@given(potentials, electrons, quotients, temperatures)
def test_turning_the_cell_round_turns_the_sign(E0, n, Q, T):
    thermal = f.thermal_voltage(T)
    assert f.nernst(-E0, n, 1 / Q, thermal) == pytest.approx(-f.nernst(E0, n, Q, thermal), rel=1e-9, abs=1e-12)


@given(potentials, electrons, quotients, st.integers(2, 5))
def test_potential_does_not_depend_on_how_often_the_equation_is_written(E0, n, Q, times):
    thermal = f.thermal_voltage()
    assert f.nernst(E0, n * times, Q**times, thermal) == pytest.approx(f.nernst(E0, n, Q, thermal), rel=1e-9, abs=1e-12)


@given(amounts, st.integers(1, 8), st.floats(1, 300), st.floats(0.05, 1))
def test_the_mass_formulas_undo_each_other(q, z, M, efficiency):
    m = f.mass(q, z, M, efficiency)
    assert f.charge_for_mass(m, z, M, efficiency) == pytest.approx(q)
    assert f.efficiency_from_mass(m, q, z, M) == pytest.approx(efficiency)
    assert f.electrons_from_mass(m, q, M, efficiency) == pytest.approx(z)
    assert f.molar_mass_from_mass(m, q, z, efficiency) == pytest.approx(M)
    assert f.amount(q, z, efficiency) * M == pytest.approx(m)


def test_per_decade_and_natural_forms_meet_at_the_exact_slope():
    slope = f.thermal_voltage() * math.log(10)
    assert slope == pytest.approx(0.05915934968, rel=1e-9)  # chempy 0.10.2 with exact constants
    assert f.nernst_per_decade(1.1, 2, 75, slope) == pytest.approx(f.nernst(1.1, 2, 75, f.thermal_voltage()))
    assert f.lg_equilibrium_constant_per_decade(1.1, 2, slope) == pytest.approx(
        f.lg_equilibrium_constant(1.1, 2, f.thermal_voltage())
    )
    back = f.quotient_from_potential_per_decade(f.nernst_per_decade(1.1, 2, 75, slope), 1.1, 2, slope)
    assert back == pytest.approx(75)


def test_a_quotient_of_zero_has_no_potential():
    with pytest.raises(ValueError, match=r"math domain error|positive"):
        f.nernst(1.1, 2, 0, f.thermal_voltage())


@given(quotients, st.sampled_from([-6, -2, -1, 1, 2, 3]), st.floats(1e-3, 1e3))
def test_one_activity_undoes_the_product(Q, exponent, rest):
    a = f.one_activity(Q, exponent, rest)
    assert rest * a**exponent == pytest.approx(Q, rel=1e-9)


def test_the_hydrogen_ion_of_pH_3_is_a_thousandth():
    assert f.hydrogen_ion(3) == pytest.approx(1e-3)
