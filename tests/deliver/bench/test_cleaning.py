"""A thousand simulated classes: what is planted is flagged, what is clean is not, and every cause that fits is named."""

from __future__ import annotations

import random

import pytest

from saltbridge.deliver.bench.class_readings import ClassReading
from saltbridge.deliver.bench.cleaning import clean, flags
from saltbridge.tables.benches import bands

CLASSES = 1_000
REPEATS = 3  # as the worksheet asks for
METALS = ("Mg", "Zn", "Al", "Fe", "Ag")
USUAL = {(metal, "Cu"): float(bands()[metal].scatter) for metal in METALS}


def simulated(source, repeats=REPEATS):
    """A class of 6 to 12 groups with 3 to 5 metals; no class scatters as another, and no metal quite as the table of bands says."""
    wide = source.uniform(0.5, 1.5)
    metals = source.sample(METALS, source.randint(3, 5))
    scatter = {metal: USUAL[metal, "Cu"] * wide * source.uniform(0.8, 1.25) for metal in metals}
    made = [
        ClassReading(line, "", str(group), metal, "Cu", round(source.gauss(float(bands()[metal].typical), scatter[metal]), 3), "")
        for line, (group, metal, _) in enumerate(
            (group, metal, repeat) for group in range(source.randint(6, 12)) for metal in metals for repeat in range(repeats)
        )
    ]
    return made, scatter


def changed(readings, at, volts):
    one = readings[at]
    moved = ClassReading(one.line, one.class_name, one.group, one.red, one.black, volts, "")
    return [*readings[:at], moved, *readings[at + 1 :]], moved


def test_a_planted_shift_is_flagged_and_clean_readings_are_not(capsys):
    source = random.Random(20261128)  # noqa: S311 - simulated classes, no secret
    caught = false = readings = 0
    for _ in range(CLASSES):
        made, scatter = simulated(source)
        false += len(flags(made, USUAL))
        readings += len(made)
        at = source.randrange(len(made))
        shift = source.choice((-1, 1)) * source.uniform(6, 9) * scatter[made[at].red]
        planted, moved = changed(made, at, round(made[at].volts + shift, 3))
        caught += moved in [flag.reading for flag in flags(planted, USUAL)]
    with capsys.disabled():
        print(
            f"\n{CLASSES} classes: planted shifts flagged {caught / CLASSES:.1%}, clean readings flagged {false / readings:.2%}"
        )
    assert caught >= 0.99 * CLASSES
    assert false <= 0.01 * readings


CLASS = [
    ClassReading(group, "", str(group), metal, "Cu", round(middle + 0.01 * (group % 3 - 1), 3), "")
    for group in range(8)
    for metal, middle in (("Mg", -1.35), ("Zn", -0.75), ("Ag", 0.002))
]


@pytest.mark.parametrize(
    ("metal", "volts", "causes"),
    [
        ("Zn", 0.75, ("flipped lead",)),
        ("Zn", -750.0, ("factor 1000",)),
        ("Zn", -0.00075, ("factor 1000",)),
        ("Zn", -0.40, ()),
        ("Zn", 0.0, ()),
    ],
)
def test_the_cause_that_makes_it_clean_is_named(metal, volts, causes):
    at = next(place for place, each in enumerate(CLASS) if each.red == metal)
    planted, moved = changed(CLASS, at, volts)
    (found,) = flags(planted, USUAL)
    assert (found.reading, found.causes) == (moved, causes)
    assert clean(planted, [found]) == tuple(each for each in planted if each is not moved)


def test_where_two_causes_fit_both_are_named():
    """Readings near zero: turned round, or a thousandth of it, a value of some volts becomes one of them."""
    near = [ClassReading(at, "", str(at), "Ni", "Cu", (-0.18, -0.10, -0.02)[at % 3], "") for at in range(12)]
    (found,) = flags([*near, ClassReading(12, "", "12", "Ni", "Cu", 0.25, "")], {})
    assert found.causes == ("flipped lead", "factor 1000")


def test_too_few_readings_flag_nothing():
    assert flags([ClassReading(1, "", "1", "Zn", "Cu", -0.7, ""), ClassReading(2, "", "2", "Zn", "Cu", 7.0, "")], USUAL) == ()


def test_readings_all_alike_flag_none_but_the_odd_one():
    alike = [ClassReading(group, "", str(group), "Zn", "Cu", -0.75, "") for group in range(6)]
    assert flags(alike, USUAL) == ()
    odd, moved = changed(alike, 3, -0.80)
    assert [flag.reading for flag in flags(odd, USUAL)] == [moved]
