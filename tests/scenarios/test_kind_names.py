"""What ``names`` lists of a kind is what its draws give: each name is met, described, and printed or worked out; none is missing."""

from __future__ import annotations

from functools import cache

import pytest
from test_every_kind import drawn, names_of

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.naming import OF_FIGURES
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_figures import FIGURE
from saltbridge.graph.laws import Balance
from saltbridge.graph.planner import reachable
from saltbridge.scenarios.equation_laws import EQUATIONS, INNER
from saltbridge.scenarios.figures.figure_entries import figures
from saltbridge.scenarios.kinds.example_scenes import examples_of
from saltbridge.scenarios.kinds.kind_names import KindNames
from saltbridge.scenarios.kinds.offered import kind_called, kinds, offered
from saltbridge.scenarios.kinds.shown_values import number_value
from saltbridge.tables import metals, sheet

KINDS = kinds(catalogue())


@cache
def listed(kind: str) -> KindNames:
    return offered(kind, catalogue())


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_examples_that_a_template_may_write(kind):
    assert examples_of(kind, catalogue(), sheet("college"))


@pytest.mark.parametrize("kind", KINDS)
def test_every_name_that_a_template_draws_is_listed(kind):
    for template, each, _ in drawn(kind):
        there = (
            {name for name in names_of(each) if _is_offered(name, each)} - template.further_quantities.keys() - each.extra.keys()
        )
        assert sorted(there - listed(kind).all) == [], template.id


def _is_offered(name: str, each: Drawn) -> bool:
    """Not what a template adds itself (rows of a table, metals that it names as options, what its figure draws), nor what it can't name as such: equations go by
    their key, rankings, sets and lists by what is put in order or ticked, and some words lead to others alone.
    """
    of_figures = {use.node for entry in figures().values() for use in entry.follows}
    if (
        name.rpartition(".")[2] in OF_FIGURES
        or name.partition(".")[0] == FIGURE
        or name in of_figures - offered(each.kind, catalogue()).all
    ):
        return False
    if name.partition(".")[0] in {"row", *metals()} or name in {
        *EQUATIONS.values(),
        *INNER,
        "ranking",
        "protectors",
        *each.lists,
    }:
        return False
    given = each.situation.given.get(name)
    if given is not None and isinstance(given.value, str):
        return name in catalogue().quantities
    return name not in each.situation.decided() or name in reachable(each.situation)


@pytest.mark.parametrize("kind", KINDS)
def test_every_listed_name_is_described_and_drawn(kind):
    names = listed(kind)
    for each in (*names.printed, *names.found, *names.balanced):
        assert each.means, each.name
        assert each.example, each.name
    for choice in names.chosen:
        assert choice.means, choice.name
        assert len(choice.words) > 1 or choice.open, choice.name
    assert all(order.means or not order.list for order in names.ordered)


@pytest.mark.parametrize("kind", KINDS)
def test_every_equation_that_a_template_may_ask_for_is_listed(kind):
    asked = {each.name for each in listed(kind).balanced}
    for _, each, _ in drawn(kind):
        there = {law.node for law in each.situation.laws if isinstance(law, Balance)} & each.graph.index.keys()
        assert {name for name, node in EQUATIONS.items() if node in there} <= asked


@pytest.mark.parametrize("kind", KINDS)
def test_every_word_of_a_choice_is_listed_with_its_errors(kind):
    """Whatever a rule or a common error comes out as in a draw stands among the words."""
    words = {choice.name: {each.word for each in choice.words} for choice in listed(kind).chosen if not choice.open}
    for _, each, _ in drawn(kind):
        for node in words.keys() & each.graph.index.keys():
            value = each.cells[each.graph.index[node]]
            if isinstance(value, str):
                assert {value, *each.choices(node)} <= words[node], node


def test_each_kind_is_found_by_its_name():
    assert [kind_called(kind, catalogue()) for kind in KINDS] == list(KINDS)


@pytest.mark.parametrize(
    ("symbol", "value", "shown"),
    [
        ("E0_cell", 1.1034, "1.10 V"),
        ("T", 298.15, "298 K"),
        ("t", 1800.0, "1800 s"),
        ("n", 2.0000000000001, "2"),
        ("K", 1.5e37, "1.50e37"),
        ("m", 0.000_52, "0.000520 g"),
    ],
)
def test_a_value_reads_in_its_usual_unit(symbol, value, shown):
    assert number_value(value, catalogue().quantities[symbol]) == shown
