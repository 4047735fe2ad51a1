"""The planner: shortest paths, ties, what is missing."""

from __future__ import annotations

import pytest
from cells_for_tests import bath, cell, two_metals

from saltbridge.algebra.expression import parse_equation
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty
from saltbridge.graph.laws import Conversion, Given, Instance, Situation, instance
from saltbridge.graph.planner import plan, reachable


def _situation(known: str, *equations: str) -> Situation:
    laws = [Instance(f"law {place}", *parse_equation(text), "") for place, text in enumerate(equations, 1)]
    return Situation(given={name: Given(1.0, "", "1") for name in known.split()}, laws=list(laws))


def _in_minutes(known: str, *equations: str) -> Situation:
    """As ``_situation``, with a time that is printed in another unit than it is worked in."""
    situation = _situation(known, *equations)
    situation.laws.append(Conversion("t:min", "t", "s", "min", 1 / 60))
    return situation


def _path(situation: Situation, *targets: str) -> list[str]:
    return [f"{step.node} by {step.law_id}" for step in plan(situation, targets) if step.law is not None]


def test_the_shortest_path_is_taken():
    situation = _situation("a", "b = a", "c = b", "d = c", "d = a*a")
    assert _path(situation, "d") == ["d by law 4"]


def test_ties_go_by_the_order_of_the_laws():
    assert _path(_situation("a b", "x = a + b", "x = a*b"), "x") == ["x by law 1"]
    assert _path(_situation("a b", "x = a*b", "x = a + b"), "x") == ["x by law 1"]
    assert _path(_situation("a", "p = a", "q = a", "x = q", "x = p"), "x")[-1] == "x by law 3"


def test_a_relation_may_be_given_twice():
    assert _path(_situation("a", "x = a", "x = a"), "x") == ["x by law 1"]


def test_laws_that_lead_in_circles_end():
    situation = _situation("z", "a = b + 1", "b = c + 1", "c = a + 1")
    assert reachable(situation) == ("z",)
    with pytest.raises(Faulty):
        plan(situation, ["a"])
    assert _path(_situation("c", "a = b + 1", "b = c + 1", "c = a + 1"), "b") == ["b by law 2"]


def test_what_is_given_is_not_derived():
    assert _path(_situation("a b x", "x = a + b"), "x") == []


def test_every_name_of_a_relation_can_be_wanted():
    for name in ["q", "I", "t"]:
        known = " ".join(each for each in ["q", "I", "t"] if each != name)
        assert _path(_situation(known, "q = I*t"), name) == [f"{name} by law 1"]


def test_inputs_stand_before_what_needs_them_in_the_order_of_the_equation():
    situation = _situation("a b c", "s = a + b", "t = b*c", "x = t - s")
    assert [step.node for step in plan(situation, ["x"])] == ["b", "c", "t", "a", "s", "x"]


def test_reachable_names_are_all_that_can_be_derived():
    assert set(reachable(_situation("a b", "x = a + b", "y = x*z", "w = x"))) == {"a", "b", "x", "w"}
    assert {"q", "n_e", "n_B", "m", "t", "I"} <= set(reachable(bath("Cu", I="2.50 A", t="30 min")))


def test_a_conversion_is_a_step():
    situation = bath("Cu", I="2.50 A", t="30 min")
    assert "t by min -> s" in _path(situation, "m")
    assert any(isinstance(law, Conversion) for law in situation.laws)


@pytest.mark.parametrize(
    ("situation", "target", "message"),
    [
        (_situation("I", "q = I*t"), "q", "expected enough to derive q; found I. Also give t. [not-derivable]"),
        (_situation("I", "q = I*t"), "m", ("expected a quantity that follows from what is given; found m. "
         "Can be found here: I. [not-derivable]")),
        (_situation("a", "x = a*b*c"), "x", "expected enough to derive x; found a. Also give b and c. [not-derivable]"),
        (_situation("I", "q_mean = I"), "q_mena", ("expected a quantity that follows from what is given; found q_mena. "
         "Did you mean q_mean? [not-derivable]")),
        (_in_minutes("I", "q = I*t"), "t:min", "expected enough to derive t; found I. Also give q. [not-derivable]"),
        (_in_minutes("I", "q = I*I"), "t:min", ("expected enough to derive t; found I. Nothing leads to t here; "
         "it can only be given. [not-derivable]")),
    ],
)  # fmt: skip
def test_what_is_missing_is_named(situation: Situation, target: str, message: str):
    with pytest.raises(Faulty) as raised:
        plan(situation, [target])
    assert str(raised.value) == message


def test_all_that_is_missing_is_named_at_once():
    with pytest.raises(Faulty) as raised:
        plan(_situation("I", "q = I*t", "m = n*M"), ["q", "m"])
    assert len(raised.value.faults) == 2


def test_the_whole_catalogue_can_be_planned_cold():
    """Each relation, given all its names but one, leads to that one; and all laws at once make no confusion."""
    for relation in catalogue().relations.values():
        for unknown in relation.symbols:
            situation = Situation(given={name: Given(1.0, "", "1") for name in relation.symbols if name != unknown})
            situation.laws = [instance(each) for each in catalogue().relations.values()]
            steps = plan(situation, [unknown])
            assert steps[-1].node == unknown
            assert len([step for step in steps if step.law is not None]) == 1


def test_an_answer_of_an_earlier_part_is_the_same_graph():
    steps = plan(cell(two_metals("Zn", "Cu")), ["anode", "E0_cell", "dG0"])
    order = [step.node for step in steps]
    assert order.index("anode") < order.index("E0_cell") < order.index("dG0")
    assert len(order) == len(set(order))
