"""``saltbridge work``: the two examples of its help in full, plain data, the list."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.cli import main

GOLDEN = Path(__file__).parent / "golden"
DANIELL = "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)"
SWAPPED = "Cu(s) | Cu^2+(aq, 1.0) || Zn^2+(aq, 0.10) | Zn(s)"
PLATING = ["--given", "I = 2.50 A", "--given", "t = 30 min", "--given", "metal = Cu"]
CELL_KEYS = ["anode", "anode_side", "cathode", "cathode_side", "equation"]
STEP_KEYS = {"how", "say", "symbolic", "numbers", "value", "unit"}


def work(*arguments):
    """The output of the command, which must succeed and write nothing to stderr."""
    shown = CliRunner().invoke(main, ["work", *arguments])
    assert (shown.exit_code, shown.stderr) == (0, "")
    return shown.stdout


def data(*arguments):
    """The plain data of the command."""
    return json.loads(work(*arguments, "--json"))


@pytest.mark.parametrize(
    ("arguments", "golden"),
    [([DANIELL, "--find", "E_cell"], "zinc-copper"), ([*PLATING, "--find", "m"], "copper-mass"), (["--list"], "list")],
)
def test_a_whole_output_reads_as_it_was_read_and_approved(arguments, golden):
    assert work(*arguments) == (GOLDEN / f"{golden}.txt").read_text(encoding="utf-8")


# ------------------------------------------------------------------ plain data


def test_plain_data_of_a_cell_has_every_key_in_order():
    found = data(DANIELL, "--find", "E_cell")
    assert list(found) == ["find", "value", "unit", "text", "accepted", *CELL_KEYS, "steps", "slips", "unused"]
    assert (found["find"], found["unit"], found["text"]) == ("E_cell", "V", "1.132 V")
    assert (found["anode"], found["anode_side"]) == ("Zn^2+/Zn", "left")
    assert (found["cathode"], found["cathode_side"]) == ("Cu^2+/Cu", "right")
    assert found["equation"] == "Cu^2+ + Zn -> Cu + Zn^2+"
    assert found["accepted"][0] < found["value"] < found["accepted"][1]
    assert {tuple(slip) for slip in found["slips"]} == {("id", "value", "hint")}


def test_plain_data_of_a_bath_leaves_out_what_a_cell_has():
    assert list(data(*PLATING, "--find", "m")) == ["find", "value", "unit", "text", "accepted", "steps", "slips", "unused"]


def test_plain_data_of_a_pure_number_has_no_unit():
    assert "unit" not in data(DANIELL, "--find", "lgK")


def test_a_count_has_neither_range_nor_slips():
    found = data(DANIELL, "--find", "n")
    assert list(found) == ["find", "value", "text", *CELL_KEYS, "steps", "unused"]
    assert (found["value"], found["text"]) == (2, "2")


@pytest.mark.parametrize("find", ["anode", "cathode", "equation"])
def test_what_is_named_has_no_value(find):
    found = data(SWAPPED, "--find", find)
    assert list(found) == ["find", "text", *CELL_KEYS, "steps", "unused"]
    expected = {"anode": "Zn^2+/Zn (right)", "cathode": "Cu^2+/Cu (left)", "equation": "Zn^2+ + Cu -> Zn + Cu^2+"}
    assert found["text"] == expected[find]


@pytest.mark.parametrize("find", ["E_cell", "dG", "K", "E_anode", "Q"])
def test_every_step_says_how_and_why_and_ends_in_a_value(find):
    for step in data(DANIELL, "--given", "T = 37 °C", "--find", find)["steps"]:
        assert {"how", "say", "value"} <= set(step) <= STEP_KEYS
        assert step["how"] in {"read", "rule", "balance", "relation", "convert"}
        assert step["say"].strip()
        assert "{" not in step["say"]


def test_the_value_is_at_full_precision_in_the_unit_given():
    joules, kilojoules = (data(DANIELL, "--find", "dG", "--in", unit)["value"] for unit in ("J/mol", "kJ/mol"))
    assert joules == pytest.approx(1000 * kilojoules, rel=1e-12)
    assert len(repr(kilojoules)) > 10


# ------------------------------------------------------------------ what the text says


def test_a_negative_cell_potential_says_so():
    shown = work(SWAPPED, "--find", "E_cell")
    assert "E_cell = −1.132 V" in shown
    assert "The cell potential is negative: as written the reaction does not run by itself." in shown


def test_a_potential_told_is_not_said_to_be_read_from_the_sheet():
    shown = work(DANIELL, "--given", "E0(Cu2+/Cu) = 0.337 V", "--find", "E0_cell")
    assert "E°(Cu²⁺/Cu) = +0.337 V" not in shown
    assert "(+0.337) − (−0.762)" in shown


def test_both_sides_of_a_concentration_cell_are_read_once():
    shown = work("Cu(s) | Cu^2+(aq, 0.010) || Cu^2+(aq, 1.0) | Cu(s)", "--find", "E_cell")
    assert shown.count("E°(Cu²⁺/Cu) = +0.340 V") == 1
    assert "Both sides hold the same couple" in shown


def test_an_answer_keeps_its_closing_zeros():
    cell = "Cu(s) | Cu^2+(aq, 0.010) || Cu^2+(aq, ?) | Cu(s)"
    assert "c_cathode = 1.00 mol/L" in work(cell, "--given", "E_cell = 0.0592 V", "--find", "c_cathode")


def test_what_is_already_known_is_said_to_be():
    assert work(DANIELL, "--given", "E_cell = 1.13 V", "--find", "E_cell") == (
        "E_cell = 1.13 V\n\nE_cell is already given; nothing is left to derive.\n"
    )


def test_the_usual_ion_of_a_metal_is_named_unless_z_is_told():
    note = "Copper is taken as its usual ion Cu²⁺, z = 2."
    assert note in work(*PLATING, "--find", "m")
    assert note not in work(*PLATING, "--given", "z = 1", "--find", "m")


def test_what_was_told_for_nothing_is_named():
    assert work(DANIELL, "--given", "t = 5 s", "--find", "n").endswith("\n\nNot needed for this: t.\n")


def test_z_is_worked_out_where_mass_and_charge_are_told():
    found = data(*PLATING, "--given", "m = 2.96 g", "--find", "z")
    assert found["text"] == "1.00"


SAME_CELL = [
    ("--given", "E0(Cu^2+/Cu) = 340 mV"),
    ("--given", "c(Zn^2+) = 100 mmol/L"),
    ("--given", "c(Zn2+) = 0.1 mol/dm3"),
    ("--given", "T = 25 °C"),
]


@pytest.mark.parametrize("more", SAME_CELL, ids=lambda more: more[1])
def test_the_same_told_in_another_way_gives_the_same_value(more):
    plain = data(DANIELL, "--find", "E_cell")["value"]
    assert data(DANIELL, *more, "--find", "E_cell")["value"] == pytest.approx(plain, rel=1e-12)


def test_every_quantity_of_a_family_is_listed_with_its_unit():
    shown = work("--list")
    known = catalogue()
    for relation in known.relations.values():
        assert f"\n{relation.family}\n" in "\n" + shown
        for symbol in relation.symbols:
            quantity = known.quantities[symbol]
            assert re.search(
                rf"^  {re.escape(symbol)} +{re.escape(quantity.name)}(?: +{re.escape(quantity.show)})?$", shown, re.MULTILINE
            )


def test_potentials_of_25_degrees_at_another_temperature_are_named():
    note = "E° is that of 25 °C; --shift-E0 moves it to the temperature given."
    warm = (DANIELL, "--given", "T = 60 °C", "--find", "E_cell")
    assert note in work(*warm)
    assert note not in work(*warm, "--shift-E0")
    assert note not in work(DANIELL, "--find", "E_cell")


def test_a_shifted_potential_moves_by_its_coefficient():
    """Linear law with the table's own coefficients: 0.119 mV/K for zinc, 0.011 mV/K for copper, over 35 K."""
    cold, warm = (data(DANIELL, "--given", "T = 60 °C", "--find", "E0_cell", *more)["value"] for more in ((), ("--shift-E0",)))
    assert warm - cold == pytest.approx((0.011e-3 - 0.119e-3) * 35, abs=1e-12)


def test_a_symbol_before_a_bracket_is_set_apart_as_a_product():
    assert "E°(cell) = lg K (R T ln(10))/(n F)" in work("--given", "K = 1e37", "--given", "n = 2", "--find", "E0_cell")


def test_faradays_laws_work_beside_a_diagram():
    found = data(DANIELL, "--given", "I = 0.500 A", "--given", "t = 1.00 h", "--given", "metal = Zn", "--find", "m")
    assert found["value"] == pytest.approx(0.500 * 3600 * 65.38 / (2 * 96485), rel=1e-6)


def test_what_an_earlier_call_was_told_is_read_from_the_sheet_again_by_the_next():
    """A plan is kept for its shape; whether a potential is told or read belongs to that shape."""
    work(DANIELL, "--given", "E0(Cu2+/Cu) = 0.34 V", "--given", "E0(Zn2+/Zn) = -0.762 V", "--find", "E_cell")
    assert work(DANIELL, "--find", "E_cell").startswith("1. Read from the data sheet:")
