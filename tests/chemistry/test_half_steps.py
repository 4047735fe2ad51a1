"""The half-reaction method forwards: every half-reaction of the table comes out of its own change, in both directions."""

from __future__ import annotations

import pytest

from saltbridge.chemistry.balancing import balance_half, is_oxidation
from saltbridge.chemistry.equations import imbalance, multiple_of, parse_equation, totals
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.half_steps import STEPS, change_of, steps_of, to_acid, to_base, written
from saltbridge.tables.potentials import potentials

HALVES = sorted(potentials())


def steps(half, *, oxidation):
    """What stands after each step, by its name."""
    equation, found = change_of(half, oxidation=oxidation), {}
    for name in steps_of(half, oxidation=oxidation):
        equation = found[name] = STEPS[name](equation)
    return found


@pytest.mark.parametrize("couple", HALVES)
@pytest.mark.parametrize("oxidation", [False, True])
def test_the_steps_lead_to_the_half_reaction_of_the_table(couple, oxidation):
    """From what changes alone, not balanced, to what the table prints."""
    half = parse_half_reaction(potentials()[couple].half_reaction)
    last = list(steps(half, oxidation=oxidation).values())[-1]
    assert imbalance(last) == {}
    assert multiple_of(last, written(half, oxidation=oxidation)) == 1


@pytest.mark.parametrize("couple", HALVES)
def test_each_step_balances_what_it_names(couple):
    half = parse_half_reaction(potentials()[couple].half_reaction)
    for name, element in (("oxygen", "O"), ("hydrogen", "H"), ("electrons", "charge")):
        after = steps(half, oxidation=False).get(name)
        if after is not None:
            assert totals(after.left).get(element, 0) == totals(after.right).get(element, 0)


def test_the_five_steps_of_a_half_equation_in_base():
    """OpenStax Chemistry 2e, chapter 17.1, works permanganate in base by these steps (the example from memory)."""
    found = steps(balance_half("MnO4^- -> MnO2", "base"), oxidation=False)
    assert {name: equation.text for name, equation in found.items()} == {
        "atoms": "MnO4^- -> MnO2",
        "oxygen": "MnO4^- -> MnO2 + 2H2O",
        "hydrogen": "MnO4^- + 4H^+ -> MnO2 + 2H2O",
        "electrons": "MnO4^- + 4H^+ + 3 e- -> MnO2 + 2H2O",
        "base": "MnO4^- + 2H2O + 3 e- -> MnO2 + 4OH^-",
    }


@pytest.mark.parametrize(
    ("change", "medium", "right"),
    [
        ("H2O -> O2", "acid", "2H2O -> O2 + 4H^+ + 4 e-"),
        ("OH^- -> O2", "acid", "2H2O -> O2 + 4H^+ + 4 e-"),
        ("OH^- -> O2", "base", "4OH^- -> O2 + 2H2O + 4 e-"),
        ("O2 -> H2O", "acid", "O2 + 4H^+ + 4 e- -> 2H2O"),
        ("H2O -> H2", "base", "2H2O + 2 e- -> H2 + 2OH^-"),
        ("H^+ -> H2", "acid", "2H^+ + 2 e- -> H2"),
        ("H2 -> H^+", "acid", "H2 -> 2H^+ + 2 e-"),
        ("H2O2 -> O2", "acid", "H2O2 -> O2 + 2H^+ + 2 e-"),
        ("C2H5OH -> CO2", "acid", "C2H5OH + 3H2O -> 2CO2 + 12H^+ + 12 e-"),
    ],
)
def test_a_change_keeps_its_own_direction(change, medium, right):
    """Also where it starts from water or hydroxide, which the medium lends (standard half-equations, from memory)."""
    half = balance_half(change, medium)
    assert written(half, oxidation=is_oxidation(change, half)).text == right


@pytest.mark.parametrize("couple", HALVES)
def test_to_acid_and_to_base_undo_one_another(couple):
    equation = parse_half_reaction(potentials()[couple].half_reaction).reduction.bare
    assert imbalance(to_base(equation)) == imbalance(to_acid(equation)) == {}
    assert multiple_of(to_acid(to_base(equation)), to_acid(equation)) == 1


@pytest.mark.parametrize(
    ("one", "other", "factor"),
    [
        ("2Ag^+ + Zn -> 2Ag + Zn^2+", "Zn + 2Ag^+ -> Zn^2+ + 2Ag", 1),
        ("4Ag^+ + 2Zn -> 4Ag + 2Zn^2+", "2Ag^+ + Zn -> 2Ag + Zn^2+", 2),
        ("2Ag + Zn^2+ -> 2Ag^+ + Zn", "2Ag^+ + Zn -> 2Ag + Zn^2+", -1),
        ("Ag^+ + Zn -> Ag + Zn^2+", "2Ag^+ + Zn -> 2Ag + Zn^2+", None),
        ("Cu^2+ + Zn -> Cu + Zn^2+", "2Ag^+ + Zn -> 2Ag + Zn^2+", None),
    ],
)
def test_the_factor_of_a_multiple(one, other, factor):
    assert multiple_of(parse_equation(one), parse_equation(other)) == factor
