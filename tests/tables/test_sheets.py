"""The shipped data sheets, and both printing orders."""

from __future__ import annotations

import csv
import math
import pickle
import re
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty
from saltbridge.graph.laws import Situation
from saltbridge.home import shipped
from saltbridge.scenarios.corrosion.corrosion_situation import add_rusting
from saltbridge.tables import constants, elements, ordered, potentials, sheet, sheet_names

SHEETS = ("college", "school")
_CITED = re.findall(
    r"^  (\S+): -?[\d.]+ +# row (\d+)$", (shipped("data") / "sheets" / "school.yaml").read_text(encoding="utf-8"), re.MULTILINE
)
ROWS = dict(_CITED)
"""The rows of the printed table that the school sheet names, by couple."""


def places(text: str) -> int:
    return len(text.partition(".")[2])


def test_two_sheets_are_shipped():
    assert sheet_names() == SHEETS


@pytest.mark.parametrize("name", SHEETS)
def test_the_line_under_a_sheet_names_no_file_of_ours(name):
    assert not re.search(r"\w\.(csv|yaml)|saltbridge", sheet(name).citation)


@pytest.mark.parametrize("name", SHEETS)
def test_every_row_without_a_printed_source_is_our_value_rounded_once_half_away_from_zero(name):
    for row in sheet(name).rows:
        ours = potentials()[row.couple]
        assert row.half_reaction == ours.half_reaction
        assert row.decimals == places(row.E0)
        if name == "college" or row.couple not in ROWS:
            assert Decimal(row.E0) == Decimal(ours.E0).quantize(Decimal(row.E0), ROUND_HALF_UP), row.couple


def test_the_school_sheet_prints_the_open_table_by_its_rows_but_for_its_misprints():
    """``appendix_l.csv``: rows of Appendix L of OpenStax Chemistry 2e (module m68870 at commit 32c7196, CC BY 4.0).

    Row 98, lead(II) sulfate, looks like the value of a lead amalgam and is left out, with a note.
    """
    with (Path(__file__).parent / "appendix_l.csv").open(encoding="utf-8", newline="") as file:
        table = {line["couple"]: line for line in csv.DictReader(file) if line["couple"] != "PbSO4/Pb"}
    assert {couple: line["row"] for couple, line in table.items()} == ROWS
    for row in sheet("school").rows:
        if row.couple in table:
            assert Decimal(row.E0) == Decimal(table[row.couple]["E0/V"]).quantize(Decimal("0.01"), ROUND_HALF_UP), row.couple
    assert len(table) >= 40


def test_a_note_says_why_the_school_sheet_differs_from_the_college_sheet():
    college = {row.couple: Decimal(row.E0) for row in sheet("college").rows}
    unlike = {row.couple for row in sheet("school").rows if abs(Decimal(row.E0) - college[row.couple]) >= Decimal("0.02")}
    assert unlike == {"Co^3+/Co^2+", "Cr2O7^2-/Cr^3+"}
    assert unlike < {row.couple for row in sheet("school").rows if row.note}


def test_school_prints_two_decimals_throughout():
    assert {row.decimals for row in sheet("school").rows} == {2}


def test_college_prints_three_or_four_decimals_and_fewer_only_where_the_source_has_fewer():
    for row in sheet("college").rows:
        source = potentials()[row.couple].E0
        assert row.decimals in {3, 4} or row.decimals == places(source) == 2, row.couple
    printed = {row.couple: row.E0 for row in sheet("college").rows}
    known = {
        "Zn^2+/Zn": "-0.762",
        "Cu^2+/Cu": "0.340",
        "Ag^+/Ag": "0.7996",
        "AgCl/Ag": "0.2223",
        "Na^+/Na": "-2.71",
        "H^+/H2": "0.000",
    }
    assert {couple: printed[couple] for couple in known} == known


def test_school_holds_the_values_that_school_tables_print():
    """Two-decimal values as common in school tables (common practice; the sheet itself is rounded from the cited rows)."""
    printed = {row.couple: row.E0 for row in sheet("school").rows}
    known = {
        "Li^+/Li": "-3.04",
        "Mg^2+/Mg": "-2.37",
        "Al^3+/Al": "-1.66",
        "Zn^2+/Zn": "-0.76",
        "Fe^2+/Fe": "-0.45",
        "Pb^2+/Pb": "-0.13",
        "H^+/H2": "0.00",
        "Cu^2+/Cu": "0.34",
        "I2/I^-": "0.54",
        "Fe^3+/Fe^2+": "0.77",
        "Ag^+/Ag": "0.80",
        "Cl2/Cl^-": "1.36",
        "MnO4^-/Mn^2+": "1.51",
        "F2/F^-": "2.87",
    }
    assert {couple: printed[couple] for couple in known} == known


def test_every_school_row_is_on_the_college_sheet():
    assert {row.couple for row in sheet("school").rows} <= {row.couple for row in sheet("college").rows}


def test_upward_means_rising_from_the_top_and_downward_falling():
    rising, falling = (sheet(name) for name in ("school", "college"))
    assert (rising.order, falling.order) == ("upward", "downward")
    assert [float(row.E0) for row in rising.rows] == sorted(float(row.E0) for row in rising.rows)
    assert [float(row.E0) for row in falling.rows] == sorted((float(row.E0) for row in falling.rows), reverse=True)


@given(name=some.sampled_from(SHEETS), order=some.sampled_from(["upward", "downward"]))
def test_printing_the_other_way_round_keeps_the_rows(name, order):
    other = ordered(sheet(name), order)
    assert other.order == order
    assert set(other.rows) == set(sheet(name).rows)
    assert ordered(other, sheet(name).order).rows == sheet(name).rows


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        ("school", {"F": "96500", "R": "8.31", "T": "298", "V_m": "24.8", "slope": "0.059"}),
        ("college", {"F": "96485", "R": "8.314", "T": "298.15", "V_m": "24.79", "slope": "0.0592"}),
    ],
)
def test_constants_are_codata_values_rounded_to_the_printed_digits(name, printed):
    assert {symbol: constant.printed for symbol, constant in sheet(name).constants.items()} == printed
    R, F = (float(constants()[symbol].printed) for symbol in "RF")
    exact = {"R": R, "T": 298.15, "V_m": R * 298.15 / 100, "slope": R * 298.15 * math.log(10) / F}
    for symbol, value in exact.items():
        digits = Decimal(printed[symbol])
        assert Decimal(str(value)).quantize(digits, ROUND_HALF_UP) == digits, symbol
    assert float(f"{F:.3g}") == 96500
    assert float(f"{F:.5g}") == 96485


@pytest.mark.parametrize("name", SHEETS)
def test_every_element_on_the_sheet_has_a_mass(name):
    printed = sheet(name)
    used = {symbol for row in printed.rows for symbol in re.findall(r"[A-Z][a-z]?", row.half_reaction)}
    assert used <= printed.atomic_masses.keys()


@pytest.mark.parametrize("name", SHEETS)
def test_masses_are_the_abridged_weights_rounded(name):
    for symbol, mass in sheet(name).atomic_masses.items():
        assert Decimal(mass) == Decimal(elements()[symbol].weight).quantize(Decimal(mass), ROUND_HALF_UP), symbol
    assert {places(mass) for mass in sheet("school").atomic_masses.values()} == {1}
    assert sheet("college").atomic_masses == {symbol: element.weight for symbol, element in elements().items()}


def test_a_sheet_travels_between_processes():
    printed = sheet("school")
    assert pickle.loads(pickle.dumps(printed)) == printed  # noqa: S301 - our own bytes


def test_an_unknown_sheet_is_told_with_the_nearest_name():
    with pytest.raises(Faulty) as caught:
        sheet("collage")
    assert str(caught.value) == ('expected one of college, school; found "collage". Did you mean "college"? [unknown-sheet]')


def test_a_row_is_found_by_its_couple_and_a_missing_one_is_told():
    printed = sheet("school")
    assert printed.row("Zn^2+/Zn") in printed.rows
    assert printed.required("Zn^2+/Zn") is printed.row("Zn^2+/Zn")
    assert printed.row("Xx/X") is None
    with pytest.raises(Faulty) as caught:
        printed.required("Xx/X")
    assert str(caught.value) == "expected a couple of School data sheet; found Xx/X [couple-not-on-sheet]"


def test_rusting_on_a_sheet_without_oxygen_in_acid_is_told():
    printed = sheet("college")
    short = replace(printed, rows=tuple(row for row in printed.rows if row.couple != "O2/H2O"))
    with pytest.raises(Faulty, match=r"expected a couple of College data sheet; found O2/H2O \[couple-not-on-sheet\]"):
        add_rusting(Situation(), "neutral", short, catalogue())
