"""Results that a line takes in: which they are, and that signs stay plain."""

from __future__ import annotations

import pytest

from saltbridge.algebra.expression import evaluate, names, parse
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.graph.laws import Given, Situation, instance
from saltbridge.graph.planner import plan
from saltbridge.graph.put_in import flagged, plain_signs, put_in

KNOWN = {"E_pH0": "1.507", "m_H": "8", "n_half": "5", "pH": "3.0", "R": "8.314", "T": "298.15", "F": "96485"}


def _planned(target: str, *further: str):
    relations, quantities = catalogue().relations, catalogue().quantities
    situation = Situation(laws=[instance(relations["ph-slope"]), instance(relations["ph-line"])])
    situation.given = {name: Given(float(text), "", text) for name, text in KNOWN.items()}
    return plan(situation, [target, *further], (), quantities), quantities


@pytest.mark.parametrize(
    ("before", "after"),
    [("a + -b*c", "a - b*c"), ("a - -b", "a + b"), ("-a*b*c", "-(a*b*c)"), ("a + b", "a + b"), ("lg(a + -b)", "lg(a - b)")],
)
def test_signs_are_plain_and_the_value_stays(before, after):
    tree = plain_signs(parse(before))
    assert tree == plain_signs(parse(after)) == parse(after)
    values = dict(zip("abc", (7.0, 2.0, 3.0), strict=True))
    assert evaluate(tree, values) == pytest.approx(evaluate(parse(before), values))


def test_a_slope_that_nobody_asks_for_stands_in_its_line():
    steps, quantities = _planned("E")
    found = put_in(steps, "E", quantities)
    assert "slope_pH" in flagged(steps, quantities)
    assert "slope_pH" not in {step.node for step in found}
    line = next(step for step in found if step.node == "E")
    assert {"m_H", "n_half", "pH", "E_pH0"} <= set(names(line.tree))
    values = {name: float(text) for name, text in KNOWN.items()}
    assert evaluate(line.tree, values) == pytest.approx(1.507 - 8.314 * 298.15 * 2.302585093 / 96485 * 8 / 5 * 3.0, abs=1e-6)


def test_what_is_asked_for_keeps_its_line():
    steps, quantities = _planned("slope_pH")
    assert "slope_pH" in {step.node for step in put_in(steps, "slope_pH", quantities)}
