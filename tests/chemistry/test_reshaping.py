"""The ways in which equations are written wrong: each is what its name says, and none is a multiple of the right one."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge.chemistry.equation_operations import OPERATIONS, added, half_of, multipliers
from saltbridge.chemistry.equations import imbalance, multiple_of, parse_equation
from saltbridge.chemistry.half_reactions import combine, parse_half_reaction
from saltbridge.chemistry.reshaping import RESHAPES, electrons_of, reshaped
from saltbridge.home import shipped
from saltbridge.tables.potentials import potentials

HALVES = [parse_half_reaction(row.half_reaction) for row in potentials().values()]
PAIRS = [
    (one, other) for one, other in combinations(HALVES, 2) if not {s.bare for s in one.species} & {s.bare for s in other.species}
]
PERMANGANATE = parse_equation("MnO4^- + 8H^+ + 5 e- -> Mn^2+ + 4H2O")
IRON = parse_equation("Fe^2+ -> Fe^3+ + e-")
WHOLE = parse_equation("MnO4^- + 8H^+ + 5Fe^2+ -> Mn^2+ + 4H2O + 5Fe^3+")


@given(st.sampled_from(PAIRS))
def test_a_sum_is_balanced_and_keeps_no_electrons(pair):
    """Atoms, charge, electrons; and the multipliers are the fewest that make the electrons as many."""
    reduction, oxidation = pair[0].reduction.bare, pair[1].oxidation.bare
    whole = added((reduction, oxidation))
    assert imbalance(whole) == {}
    assert electrons_of(whole) == 0
    assert whole == combine(pair[0], pair[1]).equation.bare
    forward, backward = multipliers(reduction, oxidation)
    assert forward * pair[0].n == backward * pair[1].n


@given(st.sampled_from(HALVES), st.booleans())
def test_reversed_twice_is_the_same(half, oxidation):
    equation = (half.oxidation if oxidation else half.reduction).bare
    once = reshaped("reversed", (), equation)
    assert multiple_of(once, equation) == -1
    assert reshaped("reversed", (), once) == equation
    assert half_of(equation) == half_of(once)


@given(st.sampled_from(HALVES), st.booleans())
def test_reshaped_halves_are_no_multiple_and_say_what_is_off(half, oxidation):
    """Electrons on the other side are off by twice their number in charge; without electrons by once."""
    equation = (half.oxidation if oxidation else half.reduction).bare
    for name, times in (("electrons on the other side", 2), ("charge ignored", 1)):
        wrong = reshaped(name, (), equation)
        left, right = imbalance(wrong)["charge"]
        assert abs(left - right) == times * half.n
        assert set(imbalance(wrong)) == {"charge"}


@given(st.sampled_from(PAIRS))
def test_sums_of_unlike_halves_go_wrong_where_nothing_is_multiplied(pair):
    made_from = (pair[0].reduction.bare, pair[1].oxidation.bare)
    right = added(made_from)
    stands, left = reshaped("added as they stand", made_from, right), reshaped("electrons left over", made_from, right)
    if pair[0].n == pair[1].n:
        assert left is None
        assert stands is None or multiple_of(stands, right) == 1
    else:
        assert imbalance(left) == {}
        assert abs(electrons_of(left)) > 0
        assert set(imbalance(stands)) == {"charge"}


@pytest.mark.parametrize(
    ("name", "made_from", "right", "wrong"),
    [
        ("reversed", (PERMANGANATE, IRON), WHOLE, "Mn^2+ + 4H2O + 5Fe^3+ -> MnO4^- + 8H^+ + 5Fe^2+"),
        ("electrons on the other side", (), IRON, "Fe^2+ + e- -> Fe^3+"),
        ("electrons by the charge of the species", (), PERMANGANATE, "MnO4^- + 8H^+ + 3 e- -> Mn^2+ + 4H2O"),
        ("charge ignored", (), PERMANGANATE, "MnO4^- + 8H^+ -> Mn^2+ + 4H2O"),
        ("charge ignored", (PERMANGANATE, IRON), WHOLE, None),
        ("hydrogen ions kept", (), parse_equation("MnO4^- + 2H2O + 3 e- -> MnO2 + 4OH^-"), "MnO4^- + 3 e- + 4H^+ -> MnO2 + 2H2O"),
        ("hydrogen ions kept", (), PERMANGANATE, None),
        ("added as they stand", (PERMANGANATE, IRON), WHOLE, "MnO4^- + 8H^+ + Fe^2+ -> Mn^2+ + 4H2O + Fe^3+"),
        ("electrons left over", (PERMANGANATE, IRON), WHOLE, "MnO4^- + 8H^+ + 4 e- + Fe^2+ -> Mn^2+ + 4H2O + Fe^3+"),
    ],
)
def test_what_a_student_writes(name, made_from, right, wrong):
    """Common practice, no source: the forms that the misconceptions of the data files name."""
    found = reshaped(name, made_from, right)
    assert found is None if wrong is None else multiple_of(found, parse_equation(wrong)) == 1


def test_the_closed_lists_are_told_in_the_data():
    """Whoever adds a way or an operation tells it at the head of the data file, where an author looks."""
    heads = {
        name: " ".join((shipped("data") / name).read_text("utf-8").split("\n\n")[0].replace("#", "").split())
        for name in ("slips.yaml", "balances.yaml")
    }
    assert [name for name in RESHAPES if name not in heads["slips.yaml"]] == []
    assert [name for name in OPERATIONS if name not in heads["balances.yaml"]] == []
