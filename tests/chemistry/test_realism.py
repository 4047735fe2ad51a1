"""Realism rules: each turns down what it names and lets the rest pass."""

from __future__ import annotations

import pytest

from saltbridge.chemistry.realism import RULES, anion_of, rejections
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.tables import metals

TURNED_DOWN = [
    ("R-TITRE", Facts(titre=8.5), "a titre of 8.50 cm3 is outside 10 to 30 cm3"),
    (
        "R-POINT",
        Facts(fractions=(0.5, 0.99)),
        "99.0% of the titre is too near the start or equivalence, where the simple equation fails",
    ),
    ("R-WATER", Facts(metals=("Zn", "Ca")), "calcium reacts with water and can't be an electrode in a solution"),
    ("R-WATER", Facts(metals=("Mg",)), f"magnesium needs a note in the question: {metals()['Mg'].note}"),
    ("R-EMF", Facts(E0=0.099), "the standard cell potential of 0.099 V is below 0.10 V"),
    ("R-EMF", Facts(E0=1.1, E=-0.05), "the cell potential of -0.050 V is below 0.10 V"),
    ("R-EMF", Facts(E0=0.15, bench=True), "the standard cell potential of 0.150 V is below 0.20 V"),
    ("R-CLOSE", Facts(metals=("Pb", "Cu", "Sn")), "lead and tin lie so close that published tables differ on their order"),
    (
        "R-SALT",
        Facts(metals=("Sn",), bench=True),
        "a solution of tin(II) chloride must be acidified to keep its ion, and the text has to say so",
    ),
    ("R-BRIDGE", Facts(metals=("Zn", "Ag"), bridge="KCl"), "a bridge with KCl makes a precipitate with Ag^+; use KNO3"),
    ("R-BRIDGE", Facts(metals=("Ba",), bridge="K2SO4"), "a bridge with K2SO4 makes a precipitate with Ba^2+; use KNO3"),
    ("R-CONC", Facts(concentrations=(0.1, 5e-5)), "a concentration of 5e-05 mol/L is outside 0.0001 to 2 mol/L"),
    ("R-CONC", Facts(concentrations=(2.5,)), "a concentration of 2.5 mol/L is outside 0.0001 to 2 mol/L"),
    ("R-SIGN", Facts(E0=0.1, E=-0.1), "the concentrations turn the cell round: +0.100 V at standard conditions, -0.100 V here"),
    ("R-N", Facts(n=1), "one electron only: forgetting n could not be seen in the answer"),
    ("R-LAB", Facts(current=3.0), "a current of 3 A is outside 0.05 to 2 A"),
    ("R-LAB", Facts(time=240.0), "a time of 4 min is outside 5 to 60 min"),
    ("R-LAB", Facts(mass=0.009), "a mass of 0.0090 g is below 0.010 g and can't be weighed at school"),
    (
        "R-SAFE",
        Facts(practical=True, told=frozenset({"s1.metal"})),
        "a practical without the safety block in its text; put {{ caution }} there",
    ),
    (
        "R-INT",
        Facts(cell_resistance=50),
        "an internal resistance of 50 ohm is neither that of a bought cell (0.1 to 2 ohm) nor of a paper or fruit cell (500 to 5000 ohm)",
    ),
    ("R-TOX", Facts(metals=("Pb",), bench=True), "lead is not for the bench unless the teacher enables it"),
    ("R-STATE", Facts(salt="NaCl"), "whether NaCl is molten or in water is not given"),
    ("R-STATE", Facts(salt="NaCl", state="aqueous"), "whether the electrodes are inert or take part is not given"),
    (
        "R-CL",
        Facts(salt="NaCl", state="aqueous", electrodes="inert"),
        "the concentration of the chloride is not given, so chlorine or oxygen can't be named either",
    ),
    ("R-SUPPLY", Facts(values={"n_B": 0.1, "n_bath": 0.1}), "0.1 mol of 0.1 mol in the bath would be deposited, more than 60%"),
    ("R-PLATE", Facts(values={"thickness": 1e-5}), "a coat of 0.1 µm is outside 1 to 50 µm"),
    ("R-PLANT", Facts(values={"I": 10.0}), "a plant runs on kiloamperes, not on 10 A"),
    ("R-GAS", Facts(values={"p_gas": 5.0}), "a pressure of 5 kPa is outside 10 to 500 kPa"),
]

LET_PASS = [
    ("R-TITRE", Facts(titre=21.4)),
    ("R-POINT", Facts(fractions=(0.5, 1.5))),
    ("R-WATER", Facts(metals=("Zn", "Mg"), film_noted=True)),
    ("R-EMF", Facts(E0=0.10, E=-0.46)),
    ("R-CLOSE", Facts(metals=("Zn", "Sn", "Ni"))),
    ("R-SALT", Facts(metals=tuple(metals()))),
    ("R-SALT", Facts(metals=("Zn", "Ag"), bench=True)),
    ("R-BRIDGE", Facts(metals=("Ag", "Pb"), bridge="KNO3")),
    ("R-BRIDGE", Facts(metals=("Zn", "Cu"), bridge="KCl")),
    ("R-BRIDGE", Facts(metals=("Zn", "Cu"), bridge="K2SO4")),
    ("R-BRIDGE", Facts(metals=("Ag",))),
    ("R-CONC", Facts(concentrations=(1e-4, 2.0))),
    ("R-SIGN", Facts(E0=-0.5, E=-0.4)),
    ("R-N", Facts(n=2, metals=("Ag", "Zn"))),
    ("R-LAB", Facts(current=0.05, time=3600.0, mass=0.010)),
    ("R-TOX", Facts(metals=("Pb",), bench=True, enabled=frozenset({"Pb"}))),
    ("R-TOX", Facts(metals=("Pb",))),
    ("R-SAFE", Facts(practical=True, told=frozenset({"safety.general"}))),
    ("R-INT", Facts(cell_resistance=1700)),
    ("R-STATE", Facts(salt="NaCl", state="molten")),
    ("R-CL", Facts(salt="NaCl", state="aqueous", electrodes="Cu")),
    ("R-CL", Facts(salt="NaCl", state="aqueous", electrodes="inert", values={"c_halide": 0.01})),
    ("R-SUPPLY", Facts(values={"n_B": 0.06, "n_bath": 0.1})),
    ("R-PLATE", Facts(values={"thickness": 1e-4, "j_plate": 0.10})),
    ("R-PLANT", Facts(values={"I": 1000.0, "t": 3600.0, "efficiency": 0.85})),
    ("R-GAS", Facts(values={"p_gas": 10.0, "T": 308.15})),
]


@pytest.mark.parametrize(("code", "facts", "sentence"), TURNED_DOWN, ids=lambda value: value if isinstance(value, str) else "")
def test_a_rule_turns_down_what_it_names_and_says_why(code, facts, sentence):
    assert RULES[code].check(facts) == sentence


@pytest.mark.parametrize(("code", "facts"), LET_PASS, ids=lambda value: value if isinstance(value, str) else "")
def test_a_rule_lets_the_rest_pass(code, facts):
    assert RULES[code].check(facts) is None


@pytest.mark.parametrize("code", RULES)
def test_a_rule_without_facts_has_nothing_to_say(code):
    assert RULES[code].check(Facts()) is None


def test_every_rule_is_tried_both_ways():
    assert {code for code, _, _ in TURNED_DOWN} == {code for code, _ in LET_PASS} == set(RULES)


def test_all_rejections_are_listed_with_their_codes():
    assert [code for code, _ in rejections(("R-EMF", "R-N", "R-LAB"), Facts(E0=0.01, n=1))] == ["R-EMF", "R-N"]


@pytest.mark.parametrize(
    ("salt", "anion"),
    [("KCl", "Cl"), ("K2SO4", "SO4"), ("AgNO3", ""), ("Al(NO3)3", ""), ("CuSO4·5H2O", "SO4"), ("Mg(OH)2", "OH"), ("SnCl2", "Cl")],
)
def test_the_anion_of_a_salt_is_read_from_its_formula(salt, anion):
    assert anion_of(salt) == anion
