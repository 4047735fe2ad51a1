"""Figures by the rules taught in school, against a table worked out by hand."""

from __future__ import annotations

import pytest
from cells_for_tests import bath, cell, solved, two_metals

from saltbridge.algebra.expression import parse
from saltbridge.graph.precision import Measured, figures, measured, of_printed, of_tree


def _of(text: str, **printed: str) -> Measured:
    known = {name: of_printed(value.rstrip("!"), exact=value.endswith("!")) for name, value in printed.items()}
    return of_tree(parse(text), known.__getitem__)


@pytest.mark.parametrize(
    ("text", "printed", "place", "count"),
    [
        ("a + b", {"a": "0.34", "b": "0.7618"}, -2, 3),  # 1.10|18
        ("a - b", {"a": "0.34", "b": "-0.76"}, -2, 3),
        ("a - b", {"a": "1.234", "b": "1.23"}, -2, 1),  # 0.00|4: nothing is left
        ("a*b", {"a": "2.50", "b": "1800"}, 1, 3),  # 45|00
        ("a/b", {"a": "0.10", "b": "1.000"}, -2, 2),
        ("a*b", {"a": "2.50", "b": "2!"}, -2, 3),  # a whole count is exact
        ("a/b", {"a": "3!", "b": "2!"}, None, None),
        ("2*a", {"a": "1.10"}, -2, 3),
        ("lg(a)", {"a": "0.0020"}, -2, 3),  # -2.70
        ("ln(a)", {"a": "75.0"}, -3, 4),  # 4.317
        ("exp10(a)", {"a": "37.25"}, 36, 2),  # 1.8e37
        ("exp10(a)", {"a": "37"}, 37, 1),
        ("sqrt(a)", {"a": "2.00"}, -2, 3),
        ("a^2", {"a": "0.010"}, -5, 2),
        ("-a", {"a": "0.340"}, -3, 3),
        ("abs(a)", {"a": "-0.76"}, -2, 2),
        ("max(a, b)", {"a": "0.34", "b": "0.7996"}, -4, 4),
        ("a", {"a": "1.50e-3"}, -5, 3),
        ("a", {"a": "9.65e4"}, 2, 3),
        ("a", {"a": "96500"}, 0, 5),
        ("a", {"a": "0.00"}, -2, 3),
        ("E - s/n*lg(Q)", {"E": "1.10", "s": "0.0592", "n": "2!", "Q": "0.010"}, -2, 3),
    ],
)
def test_figures_follow_the_school_rules(text: str, printed: dict[str, str], place: int | None, count: int | None):
    found = _of(text, **printed)
    assert found.place == place
    assert figures(found) == count


def test_a_cell_potential_has_the_decimals_of_its_table():
    situation = cell(two_metals("Zn", "Cu", "0.10", "0.50"), "school")
    run = solved(situation, "E_cell", "dG0:kJ/mol")
    known = measured(run.graph, run.cells, situation.given)
    assert (known["E0_cell"].place, figures(known["E0_cell"])) == (-2, 3)
    assert known["E_cell"].place == -2
    assert figures(known["dG0:kJ/mol"]) == 3
    assert known["n"].place is None
    assert known["E0_cathode"] == known["right.E0"]


def test_a_mass_has_the_fewest_figures_of_what_was_measured():
    situation = bath("Cu", I="2.50 A", t="30 min")
    run = solved(situation, "m")
    known = measured(run.graph, run.cells, situation.given)
    assert figures(known["t"]) == 2
    assert figures(known["q"]) == 2
    assert figures(known["m"]) == 2
