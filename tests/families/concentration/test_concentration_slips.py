"""Slips of concentration, energy and equilibrium: each gives what its belief gives, computed apart."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import yaml

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.graph.solved import graph_of, points_of
from saltbridge.scenarios.assignments import read_told
from saltbridge.scenarios.free_situation import loose
from saltbridge.scenarios.situations import add_print_unit
from saltbridge.tables import sheet

CASES = yaml.safe_load((Path(__file__).parent / "slip_values.yaml").read_text(encoding="utf-8"))
EXACT = ("R = 8.31446261815324 J/(mol K)", "F = 96485.33212331001 C/mol")
SYMBOLS = {"R": 8.31446261815324, "F": 96485.33212331001, "T": 298.15, "lg": math.log10, "ln": math.log}
SYMBOLS["S"] = 8.31446261815324 * 298.15 * math.log(10) / 96485.33212331001
BY_RULE = {
    "more-product-more-volts", "concentration-stays-out", "bigger-plates-bigger-volts", "solid-in-quotient",
    "quotient-written-upside-down", "quotient-written-without-powers", "k-with-too-many-figures",
}  # fmt: skip
IN_A_CELL = {"voltage-constant-then-dead"}


def _by_hand(text):
    return float(eval(str(text), {"__builtins__": {}}, SYMBOLS))  # noqa: S307 - our own file, arithmetic apart from the derivation


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_a_slip_gives_what_its_belief_gives(case):
    known = catalogue()
    name, _, unit = case["find"].partition(":")
    situation = loose(read_told([*case["given"], *EXACT], known), sheet("college"), known, nernst="ln", wanted=name)
    target = add_print_unit(situation, known, name, unit) if unit else name
    graph = graph_of(situation, [target], known)
    start = graph.start(situation.given)
    assert graph.value(graph.run(start), target) == pytest.approx(_by_hand(case["right"]), rel=1e-9)
    point = next(point for point in points_of(graph, target, situation, known) if point.slip.id == case["id"])
    found = graph.value(graph.run(start, point.put), target)
    assert found == pytest.approx(_by_hand(case["wrong"]), rel=1e-9, abs=1e-12)


def test_every_slip_of_the_families_is_proved_somewhere():
    """Numbers here, choices in the bank's tests, the running cell in its own."""
    files = [Path(__file__).parents[3] / "data" / "slips" / f"{name}.yaml" for name in ("concentration", "equilibrium")]
    ours = {slip for path in files for slip in yaml.safe_load(path.read_text(encoding="utf-8"))}
    assert ours - {case["id"] for case in CASES} - BY_RULE - IN_A_CELL == set()
