"""Means, uncertainties and ranks of a class against published figures and plain formulas written apart.

Sources: JCGM 100:2008 (GUM), table 1 and 4.4.3 (twenty temperatures: mean 100.145, rounded there to 100.14; deviation 1.489, there
1.49; of the mean 0.333, there 0.33), and table G.2 (Student's t for 95 %: 12.71, 2.57, 2.20 for 1, 5, 11); figures typed from memory,
the twenty values and the three results agree with one another. A lemon page's readings (zinc to copper 0.60 V, copper to silver
0.13 V, zinc to silver 0.73 V; opened) for differences that add up.
"""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge.deliver.bench.against_table import gaps, inversions, rank_correlation
from saltbridge.deliver.bench.class_means import class_means, mean_of, ranking, rebased, students_t, triangles
from saltbridge.deliver.bench.class_readings import ClassReading
from saltbridge.tables.bench_causes import bench_causes

TEMPERATURES = (
    96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57,
    101.84, 102.36, 102.72,
)  # fmt: skip


def test_the_mean_of_twenty_temperatures():
    found = mean_of(TEMPERATURES)
    assert found.volts == pytest.approx(100.145, abs=0.0005)
    assert found.uncertainty / students_t(19) == pytest.approx(0.333, abs=0.0005)


@pytest.mark.parametrize(("free", "factor"), [(1, 12.71), (5, 2.57), (11, 2.20)])
def test_students_t(free, factor):
    assert students_t(free) == pytest.approx(factor, abs=0.005)


def test_one_group_has_no_uncertainty():
    assert mean_of([0.7]).uncertainty is None


def reading(group, red, black, volts):
    return ClassReading(1, "", group, red, black, volts, str(volts))


def readings_of(values, black="Cu"):
    """{metal: [a reading a group]}."""
    return [reading(str(at), metal, black, volts) for metal, found in values.items() for at, volts in enumerate(found)]


CLASS = {"Mg": [-1.35, -1.30, -1.40], "Zn": [-0.75, -0.72, -0.77], "Al": [-0.50, -0.55, -0.47], "Fe": [-0.51, -0.46, -0.52]}


def test_metals_are_ranked_and_those_that_cannot_be_told_apart_stand_together():
    assert ranking(readings_of(CLASS), "Cu") == (("Mg",), ("Zn",), ("Al", "Fe"), ("Cu",))


def test_repeats_of_a_group_are_one_value():
    once, again = readings_of(CLASS), readings_of(CLASS)
    assert class_means([*once, *again], "Cu") == class_means(once, "Cu")


def test_differences_of_a_lemon_add_up():
    made = [
        reading(str(at), *pair, volts)
        for at in range(3)
        for pair, volts in ((("Zn", "Cu"), -0.60), (("Ag", "Cu"), 0.13), (("Ag", "Zn"), 0.73))
    ]
    (found,) = triangles(made, "Cu")
    assert (found.red, found.black) == ("Ag", "Zn")
    assert found.difference.volts == pytest.approx(0.73)
    assert found.agrees is True


def test_differences_that_do_not_add_up_are_told():
    made = readings_of({"Zn": [-0.60, -0.61, -0.59], "Ag": [0.13, 0.14, 0.12]}) + readings_of({"Ag": [1.20, 1.21, 1.22]}, "Zn")
    assert [each.agrees for each in triangles(made, "Cu")] == [False]


volts = st.integers(-2000, 2000).map(lambda millivolts: millivolts / 1000)


@given(st.dictionaries(st.sampled_from(("Mg", "Zn", "Al", "Fe", "Sn", "Ag")), volts, min_size=2))
def test_another_reference_shifts_all_and_keeps_every_difference(means):
    for reference in means:
        moved = rebased(means, reference)
        assert moved[reference] == 0
        for one in means:
            assert moved[one] - moved[reference] == pytest.approx(means[one] - means[reference])


@given(st.permutations(range(6)))
def test_the_rank_correlation_is_that_of_the_plain_formula(order):
    """1 − 6 Σd²/n(n² − 1), for ranks without ties."""
    metals = ("Mg", "Zn", "Al", "Fe", "Sn", "Ag")
    read, table = (
        {metal: rank / 10 for metal, rank in zip(metals, order, strict=True)},
        {metal: at / 10 for at, metal in enumerate(metals)},
    )
    squares = sum((rank - at) ** 2 for at, rank in enumerate(order))
    assert rank_correlation(read, table) == pytest.approx(1 - 6 * squares / (6 * 35))


def test_two_metals_have_no_rank_correlation():
    assert rank_correlation({"Zn": -0.7, "Ag": 0.1}, {"Zn": -1.1, "Ag": 0.46}) is None


# ------------------------------------------------------------------ beside the table

SALT = [cause for cause in bench_causes().values() if cause.model in ("", "salt only")]
TABLE = {"Mg": -2.71, "Al": -2.00, "Zn": -1.10, "Fe": -0.78, "Ag": 0.46}
"""Standard potentials less that of copper (an open textbook's table), V."""

READ = {"Mg": -1.35, "Zn": -0.75, "Al": -0.50, "Fe": -0.40, "Ag": 0.12}
PLACES = (("Mg",), ("Zn",), ("Al",), ("Fe",), ("Cu",), ("Ag",))


def test_aluminium_and_zinc_stand_the_other_way_round_because_of_the_film():
    (found,) = inversions(PLACES, READ, TABLE, SALT)
    assert (found.first, found.second) == ("Zn", "Al")
    told = [cause.id for cause in found.causes]
    assert "film" in told
    assert "no-reference-ion" not in told  # it shifts every strip alike


def test_metals_that_stand_together_are_no_inversion():
    assert inversions((("Mg",), ("Zn", "Al")), READ, TABLE, SALT) == ()


def test_each_gap_names_every_cause_of_its_sign_and_none_of_the_other():
    told = {gap.metal: ([cause.id for cause in gap.causes], gap.volts > 0) for gap in gaps(READ, TABLE, SALT)}
    assert told["Al"] == (["no-reference-ion", "chloride-on-copper", "film", "meter-current", "dry-paper", "another-metal"], True)
    assert told["Ag"] == (["few-ions", "meter-current", "dry-paper", "another-metal"], False)
    assert "own-corrosion" in told["Mg"][0]


def test_a_gap_within_what_such_cells_show_needs_no_cause():
    (gap,) = gaps({"Zn": -1.091}, {"Zn": -1.10}, SALT)
    assert gap.causes == ()


def test_a_mean_is_that_of_a_plain_sum():
    values = [-0.75, -0.72, -0.77, -0.70]
    middle = sum(values) / 4
    deviation = sqrt(sum((value - middle) ** 2 for value in values) / 3)
    found = mean_of(values)
    assert (found.volts, found.uncertainty) == pytest.approx((middle, 3.182 * deviation / 2), abs=1e-4)
