"""Routes and accepted ranges: every way a careful student may go, worked out by hand."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from cells_for_tests import Solved, bath, cell, solved, two_metals

from saltbridge.algebra.rounding import rounder
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty
from saltbridge.graph.routes import MOST_ROUTES, WIDEST, Accepted, Asked, accepted, results, routes, step_figures
from saltbridge.graph.solved import outcome, points_of
from saltbridge.scenarios.cell.galvanic import Temperature
from saltbridge.sigfigs import to_figures

SHAPES = [
    (lambda: cell(two_metals("Zn", "Cu", "0.010", "0.50"), nernst="lg"), "E_cell"),
    (lambda: cell(two_metals("Al", "Ag", "0.010", "0.50"), nernst="ln", electrodes=True), "dG:kJ/mol"),
    (lambda: cell(two_metals("Zn", "Cu", "0.010", "0.50"), "school", Temperature("25", "°C")), "dG:kJ/mol"),
    (lambda: cell(two_metals("Zn", "Cu"), "college", Temperature("310.15", "K")), "K"),
    (lambda: bath("Cu", I="250 mA", t="1.5 h", efficiency="85 %"), "m"),
]


def _all(run: Solved, target: str, figures: int = 3) -> list[float]:
    rough = run.graph.run(run.start, None, rounder(figures), target)
    return results(run.graph, run.cells, rough, target, figures)


def _holds(values: list[float], wanted: float) -> bool:
    return any(value == pytest.approx(wanted, rel=1e-12) for value in values)


@pytest.mark.parametrize(("situation", "target"), SHAPES, ids=range(len(SHAPES)))
def test_there_are_at_most_24_routes_and_the_plain_one_is_first(situation, target: str):
    run = solved(situation(), target)
    found = routes(run.graph, target)
    assert 2 <= len(found) <= MOST_ROUTES == 24
    assert (dict(found[0].json), found[0].rounded) == ({}, False)
    assert _all(run, target)[0] == run[target]


@pytest.mark.parametrize("page", ["school", "college"])
def test_every_careful_way_to_a_cell_potential_is_among_the_results(page: str):
    run = solved(cell(two_metals("Zn", "Cu", "0.010", "0.50"), page, nernst="lg"), "E_cell")
    values = _all(run, "E_cell")
    E0, Q, n = run["E0_cell"], 0.010 / 0.50, 2
    r = lambda value: float(to_figures(value, 3))  # noqa: E731 - a short name for a short sum
    for slope in (0.0592, 0.059, run["slope"]):
        assert _holds(values, E0 - slope / n * math.log10(Q))
        assert _holds(values, r(E0) - slope / n * math.log10(r(Q)))
    assert _holds(values, E0 - run["R"] * run["T"] / (n * run["F"]) * math.log(Q))


def test_every_careful_way_to_a_mass_is_among_the_results():
    run = solved(bath("Cu", I="2.53 A", t="31 min"), "m")
    values = _all(run, "m")
    M, q = run["M"], 2.53 * 31 * 60
    r = lambda value: float(to_figures(value, 3))  # noqa: E731 - a short name for a short sum
    for F in (96485, 96500):
        assert _holds(values, q / F / 2 * M)
        assert _holds(values, r(r(r(q) / F) / 2) * M)
    found = outcome(run.graph, run.start, "m", Asked(figures=4), points_of(run.graph, "m", run.situation, catalogue()))
    assert found.right.lo <= to_figures(q / 96500 / 2 * M, 4) <= found.right.hi


@pytest.mark.parametrize(
    ("warm", "others"),
    [(Temperature("298.15", "K"), {298.0}), (Temperature("298", "K"), {298.15}), (Temperature("310.15", "K"), set())],
)
def test_298_stands_for_298_15_only_at_25_degrees(warm: Temperature, others: set[float]):
    run = solved(cell(two_metals("Zn", "Cu", "0.010", "0.50"), "college", warm, nernst="ln"), "E_cell")
    values = _all(run, "E_cell")
    E0, R, F, Q = run["E0_cell"], run["R"], run["F"], run["Q"]
    for kelvin in (298.0, 298.15):
        here = _holds(values, E0 - R * kelvin / (2 * F) * math.log(Q))
        assert here == (kelvin in others or kelvin == run["T"])


def test_273_stands_for_273_15_where_celsius_is_given():
    run = solved(cell(two_metals("Zn", "Cu", "0.010", "0.50"), "college", Temperature("37", "°C"), nernst="ln"), "E_cell")
    values = _all(run, "E_cell")
    E0, R, F, Q = run["E0_cell"], run["R"], run["F"], run["Q"]
    assert run["T"] == 310.15
    assert _holds(values, E0 - R * 310.0 / (2 * F) * math.log(Q))
    assert not _holds(values, E0 - R * 298.15 / (2 * F) * math.log(Q))


def test_the_lg_form_is_no_route_away_from_25_degrees():
    run = solved(cell(two_metals("Zn", "Cu", "0.010", "0.50"), "college", Temperature("60", "°C")), "E_cell")
    assert not _holds(_all(run, "E_cell"), run["E0_cell"] - 0.0592 / 2 * math.log10(run["Q"]))
    assert all("slope" not in route.json for route in routes(run.graph, "E_cell"))


@pytest.mark.parametrize(
    ("values", "asked", "lo", "hi", "width"),
    [
        ([1.1027], Asked(decimals=2), "1.095", "1.105", 0),
        ([1.1027], Asked(figures=3), "1.095", "1.105", 0),
        ([2.675], Asked(decimals=2), "2.675", "2.685", 0),  # a tie goes away from zero
        ([-2.675], Asked(decimals=2), "-2.685", "-2.675", 0),
        ([1.104, 1.106, 1.114], Asked(decimals=2), "1.095", "1.115", 1),
        ([1.104, 1.096], Asked(decimals=2), "1.095", "1.105", 0),
        ([96485.0, 96512.0], Asked(figures=3), "96450", "96550", 0),
        ([96485.0, 96551.0], Asked(figures=3), "96450", "96650", 1),
        ([0.0], Asked(decimals=2), "-0.005", "0.005", 0),
        ([999.6], Asked(figures=3), "995", "1005", 0),
        ([-212.3, -212.9], Asked(figures=3), "-213.5", "-211.5", 1),
        ([12.345, 12.405], Asked(decimals=2), "12.345", "12.415", 6),
    ],
)
def test_the_accepted_range_is_the_hull_and_half_a_place(values: list[float], asked: Asked, lo: str, hi: str, width: float):
    found = accepted(values, asked)
    assert (found.lo, found.hi, found.width) == (Decimal(lo), Decimal(hi), width)
    assert found.lo < found.printed < found.hi or found.printed in {found.lo, found.hi}


def test_a_hull_too_wide_is_told_by_its_width():
    assert accepted([12.345, 12.405], Asked(decimals=2)).width > WIDEST
    assert accepted([12.345, 12.355], Asked(decimals=2)).width < WIDEST


def test_the_order_of_routes_does_not_matter_but_the_first():
    asked = Asked(decimals=2)
    assert accepted([1.104, 1.126, 1.086], asked) == accepted([1.104, 1.086, 1.126], asked)


def test_a_constant_of_equilibrium_is_judged_by_its_logarithm():
    found = accepted([1.0e37, 1.5e37], Asked(figures=2, log=True))
    assert isinstance(found, Accepted)
    assert float(found.lo) == pytest.approx(10 ** (37 - 0.05), rel=1e-12)
    assert float(found.hi) == pytest.approx(10 ** (math.log10(1.5e37) + 0.05), rel=1e-12)
    assert found.width == pytest.approx(math.log10(1.5) / 0.1)


@pytest.mark.parametrize(("printed", "figures"), [("1.10", 3), ("0.5", 3), ("1.2346", 5), ("8.6E+35", 3), ("213", 3)])
def test_a_student_who_rounds_keeps_the_figures_of_the_answer_and_three_at_least(printed: str, figures: int):
    assert step_figures(Decimal(printed)) == figures


def test_an_answer_that_does_not_exist_is_a_fault():
    run = solved(cell(two_metals("Zn", "Cu")), "E_cell")
    broken = list(run.start)
    broken[run.graph.index["left.c"]] = 0.0
    with pytest.raises(Faulty) as raised:
        outcome(run.graph, broken, "E_cell", Asked(figures=3), ())
    assert (
        str(raised.value)
        == "expected E_cell to exist; found no value for E_cell: the logarithm or root of a number that has none [undefined]"
    )
