"""What a galvanic cell's situation says of itself, and which cells share a plan."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from cells_for_tests import cell, solved, two_metals

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.chemistry.diagrams import parse_diagram
from saltbridge.faults import Faulty
from saltbridge.graph.laws import quantity_of
from saltbridge.scenarios.cell.galvanic import Temperature, galvanic
from saltbridge.tables import sheet


def test_roles_labels_and_words_of_a_working_cell():
    situation = cell(two_metals("Ag", "Zn"))
    assert situation.words["anode.metal"] == "zinc"
    assert situation.words["cathode.metal"] == "silver"
    assert (situation.words["anode.side"], situation.words["cathode.side"]) == ("right", "left")
    assert situation.labels["anode.couple"].plain == "Zn2+/Zn"
    assert situation.labels["left.couple"] == situation.labels["cathode.couple"]
    assert situation.words["equation"] == "2Ag^+ + Zn -> 2Ag + Zn^2+"
    assert situation.about["E0_anode"] == "anode.couple"
    counted = ("equation.count", "n_cathode", "n_anode", "nu_cathode", "nu_anode")
    assert [situation.given[name].value for name in counted] == [2, 1, 2, 2, 1]


def test_as_written_the_diagram_rules():
    situation = cell(two_metals("Ag", "Zn"), as_written=True)
    assert situation.words["equation"] == "Zn^2+ + 2Ag -> Zn + 2Ag^+"
    run = solved(situation, "E_cell", "anode")
    assert run["E_cell"] < 0
    assert run["anode"] == "right"


def test_every_given_says_where_it_was_read():
    situation = cell(two_metals("Zn", "Cu", "0.10", "0.50"), "school")
    assert (situation.given["left.E0"].how, situation.given["left.E0"].printed) == ("read", "-0.76")
    assert situation.given["left.E0"].source
    assert (situation.given["left.c"].how, situation.given["left.c"].printed) == ("given", "0.10")
    assert situation.given["equation.count"].how == "balance"


SAME = two_metals("Zn", "Cu", "0.10", "0.50")


@pytest.mark.parametrize(
    ("other", "same"),
    [
        (two_metals("Fe", "Cu", "0.20", "1.0"), True),  # other metals of the same charges, the anode on the same side
        (two_metals("Mg", "Ni", "0.10", "0.50"), True),
        (two_metals("Cu", "Zn", "0.10", "0.50"), False),  # the anode on the other side
        (two_metals("Zn", "Ag", "0.10", "0.50"), False),  # other powers in Q
        ("Zn(s) | Zn^2+(aq) || Cu^2+(aq, 0.50) | Cu(s)", False),  # one amount fewer in Q
    ],
)
def test_cells_of_one_structure_share_a_plan(other: str, same: bool):
    assert (cell(SAME).key() == cell(other).key()) == same
    first, second = solved(cell(SAME), "dG"), solved(cell(other), "dG")
    assert (first.graph is second.graph) == same
    assert first["dG"] != second["dG"]


def test_a_shared_plan_holds_no_number_of_the_first_cell():
    solved(cell(SAME), "E_cell")
    run = solved(cell(two_metals("Fe", "Cu", "0.20", "1.0")), "E_cell")
    E0 = run["right.E0"] - run["left.E0"]
    assert run["E_cell"] == pytest.approx(E0 - run["slope"] / 2 * math.log10(0.20 / 1.0), rel=1e-12)


def test_warmth_and_form_belong_to_the_shape():
    keys = [
        cell(SAME).key(),
        cell(SAME, nernst="ln").key(),
        cell(SAME, "college", Temperature("310.15", "K")).key(),
        cell(SAME, "college", Temperature("37", "°C")).key(),
        cell(SAME, electrodes=True).key(),
        cell(SAME, as_written=True).key(),
    ]
    assert len(set(keys)) == len(keys)
    assert cell(SAME, "school").key() == cell(SAME, "college").key()


def test_a_couple_that_is_not_on_the_sheet_is_named():
    college = sheet("college")
    diagram = parse_diagram("Pt(s) | Fe^2+(aq, 0.10), Fe^3+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)", college.rows)
    short = replace(college, rows=tuple(row for row in college.rows if row.couple != "Fe^3+/Fe^2+"))
    with pytest.raises(Faulty) as raised:
        galvanic(diagram, short, catalogue())
    assert str(raised.value) == f"expected a couple of {college.title}; found Fe^3+/Fe^2+ [couple-not-on-sheet]"


@pytest.mark.parametrize(
    ("node", "symbol"),
    [("left.c2", "c"), ("t:min", "t"), ("E0_cell", "E0_cell"), ("right.E0", "E0"), ("left.p", "p"), ("cell.lgK", "lgK")],
)
def test_a_node_stands_for_its_quantity(node: str, symbol: str):
    assert quantity_of(node, catalogue().quantities) is catalogue().quantities[symbol]
