"""A class's readings as they come: read rightly, or refused with row and cure."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge.bank.practical import Practical, PracticalKeys
from saltbridge.deliver.bench.readings_file import readings_of
from saltbridge.faults import Faulty

KEYS = {
    "title": "Metals", "metals": ["Mg", "Zn", "Fe", "Ag"], "classes": [{"name": "10a", "groups": 8}],
    "safety": "Goggles on, and wash your hands afterwards.",
}  # fmt: skip


def practical(**more):
    return Practical(PracticalKeys.model_validate({**KEYS, **more}), "metals.yaml", {})


def read(*rows, plan=None):
    found = readings_of([(at, row) for at, row in enumerate(rows, 1)], plan or practical(), "readings.csv")
    return [(each.class_name, each.group, each.red, each.black, round(each.volts, 6)) for each in found]


def refused(*rows, plan=None):
    with pytest.raises(Faulty) as trouble:
        read(*rows, plan=plan)
    return [str(each) for each in trouble.value.faults]


def test_a_row_a_group_with_gaps_and_repeats():
    assert read(["group", "Zn/mV", "Ag (V)"], ["1", "-750", "0,12"], ["1", "−740", ""], ["2", "", ".1"]) == [
        ("10a", "1", "Zn", "Cu", -0.75),
        ("10a", "1", "Ag", "Cu", 0.12),
        ("10a", "1", "Zn", "Cu", -0.74),
        ("10a", "2", "Ag", "Cu", 0.1),
    ]


def test_a_row_a_reading_with_metals_by_name_or_symbol():
    assert read(["Group", "red", "black", "reading/mV"], ["1", "zinc", "Cu", "-750"], ["1", "Mg", "Zn", "-600 mV"]) == [
        ("10a", "1", "Zn", "Cu", -0.75),
        ("10a", "1", "Mg", "Zn", -0.6),
    ]


def test_leads_the_other_way_round_are_turned():
    assert read(["group", "Cu-Zn/mV"], ["1", "750"]) == [("10a", "1", "Zn", "Cu", -0.75)]


def test_a_cell_may_carry_its_own_unit():
    assert read(["group", "Zn/mV"], ["1", "-0.75 V"]) == [("10a", "1", "Zn", "Cu", -0.75)]


ROWS = ["group", "Zn/mV", "Mg/mV"]
WRONG = [
    (("group", "Zx/mV"), ("1", "-750"), 'readings.csv:1: expected `class`, `group`, or a metal with its unit; found "Zx/mV". As `Zn/mV` for zinc, or `Mg-Zn/mV` for a pair. [column]'),
    (("Zn/mV", "Mg/mV"), ("-750", "-1350"), "readings.csv:1: expected a column `group`; found none. Name the column that tells the groups apart `group`. [column]"),
    (("group", "Zn"), ("1", "-750"), 'readings.csv:2: Zn-Cu: expected volts or millivolts; found "-750" without a unit. Write the unit into the heading, as `Zn/mV`, or into the cell. [reading]'),
    (("group", "Zn/mV"), ("1", "-750 A"), 'readings.csv:2: Zn-Cu: expected volts or millivolts; found "-750 A". Write the unit into the heading, as `Zn/mV`, or into the cell. [reading]'),
    (("group", "Zn/mV"), ("1", "abc"), 'readings.csv:2: Zn-Cu: expected a reading such as `-0.75 V` or `-750`; found "abc". Leave the cell empty where nothing was read. [reading]'),
    (("group", "red", "black", "reading/mV"), ("Zn", "1", "Cu", "-750"), 'readings.csv:2: group: expected a group; found "Zn". Are the columns of group and metal swapped? [reading]'),
    (("group", "red", "black", "reading/mV"), ("1", "Zn", "Zn", "-750"), "readings.csv:2: Zn-Zn: expected two metals; found `Zn` against itself [reading]"),
    (("group", "red", "black", "reading/mV"), ("1", "Mg", "Zn", "-750"), "readings.csv:1: expected readings against `Cu`; found none. Every pair needs the black lead on `Cu`, or name another `reference` in the plan. [no-reference]"),
    (("group", "Zn/mV", "Mg/mV"), ("1", "750", "1350"), "readings.csv:1: expected readings with their signs; found no minus sign in the whole file. Write the sign of each reading: a minus where the red lead was on the negative pole. [no-signs]"),
    (("group", "Zn/mV", "Zn/V"), ("1", "-750", "-0.75"), "readings.csv:1: expected each column once; repeats are further rows; found `Zn-Cu` twice [column]"),
    (("group", "Zn/mV"), ("", "-750"), "readings.csv:2: group: expected the group of this row; found an empty cell. Write the group into every row. [reading]"),
]  # fmt: skip


@pytest.mark.parametrize(("heading", "row", "told"), WRONG)
def test_what_is_doubtful_is_refused_with_row_and_cure(heading, row, told):
    assert refused(heading, row) == [told]


def test_all_faulty_rows_are_told_at_once():
    assert len(refused(ROWS, ["1", "x", "y"], ["", "1", "2"], ["3", "-750", "-1350"])) == 3


def test_several_classes_need_a_column_for_the_class():
    plan = practical(classes=[{"name": "10a", "groups": 8}, {"name": "10b", "groups": 7}])
    assert "Add a column `class`." in refused(["group", "Zn/mV"], ["1", "-750"], plan=plan)[0]
    assert read(["class", "group", "Zn/mV"], ["10b", "1", "-750"], plan=plan) == [("10b", "1", "Zn", "Cu", -0.75)]


cells = st.text(max_size=20)


@given(st.lists(st.lists(cells, max_size=6), max_size=6))
def test_any_cells_are_read_or_refused_in_words(rows):
    try:
        found = read(*rows)
    except Faulty as trouble:
        told = trouble.faults
    else:
        told = ()
        assert all(abs(each[4]) < 1e300 for each in found)
    assert all(each.expected and each.found and each.file == "readings.csv" for each in told)


@given(st.lists(st.tuples(st.integers(1, 12), st.integers(-2000, -1)), min_size=1, max_size=40))
def test_readings_written_out_are_read_back(made):
    rows = [[str(group), str(millivolts)] for group, millivolts in made]
    assert read(["group", "Zn/mV"], *rows) == [("10a", str(group), "Zn", "Cu", millivolts / 1000) for group, millivolts in made]
