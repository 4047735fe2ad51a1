"""Scenarios filled from a table of the bank: what it gives, and what is wrong with it by row and column."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from saltbridge.bank.bank import load_bank
from saltbridge.bank.rows import MOST_ROWS
from saltbridge.build import practice_variants
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.deliver.proof.content import content_of
from saltbridge.deliver.proof.proof_run import prove
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.faults import Faulty

TEMPLATE = """\
title: The masses that the groups found
outcome: T6.8
level: core
scenario:
  electrolysis: {metals: [Cu]}
rows: rows/currents.csv
text: Group {{ row.group }} passed {{ I }} for {{ t }} through copper sulfate.
parts:
  - ask: Calculate the mass of copper.
    find: m
"""
TABLE = "row.group,current in A,time in min\nred,0.50,20\nblue,0.62,25\ngreen,0.80,30\n"


def _bank(folder: Path, table: str, template: str = TEMPLATE) -> Path:
    (folder / "rows").mkdir()
    (folder / "rows" / "currents.csv").write_text(table, "utf-8")
    (folder / "bank.yaml").write_text("format: 1\nid: pier\ntitle: Pier Bank\n", "utf-8")
    (folder / "one.yaml").write_text(template, "utf-8")
    return folder


def _draws(folder: Path, read: Callable[[Drawn], object]) -> set[object]:
    bank = load_bank(folder)
    drawer = Drawer(bank.templates[0], bank, catalogue())
    return {read(drawer.draw(f"try {number}")) for number in range(40)}


def _told(folder: Path) -> list[str]:
    with pytest.raises(Faulty) as caught:
        load_bank(folder)
    return [str(fault) for fault in caught.value.faults]


def _row(drawn: Drawn) -> tuple[object, ...]:
    return str(drawn.lookup("row.group")), drawn.situation.given["I"].printed, drawn.situation.given["t:min"].printed


@pytest.mark.parametrize("parting", [",", ";"])
def test_each_version_takes_one_row_whole(tmp_path, parting):
    folder = _bank(tmp_path, TABLE.replace(",", parting))
    assert _draws(folder, _row) == {("red", "0.50", "20"), ("blue", "0.62", "25"), ("green", "0.80", "30")}


def test_there_are_as_many_versions_as_rows(tmp_path):
    bank = load_bank(_bank(tmp_path, TABLE))
    _, variants = practice_variants(bank, bank.templates[0], 30)
    assert len(variants) == 3


def test_a_row_added_takes_only_the_draws_that_it_wins(tmp_path):
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    short, long = _bank(tmp_path / "a", TABLE), _bank(tmp_path / "b", TABLE + "white,0.80,35\n")
    drawers = []
    for folder in (short, long):
        bank = load_bank(folder)
        drawers.append(Drawer(bank.templates[0], bank, catalogue()))
    pairs = [tuple(_row(drawer.draw(f"try {number}"))[0] for drawer in drawers) for number in range(40)]
    assert {new for _, new in pairs} == {"red", "blue", "green", "white"}
    assert all(new in (old, "white") for old, new in pairs)


def test_a_list_stands_in_one_cell(tmp_path):
    template = (
        TEMPLATE.replace("electrolysis: {metals: [Cu]}", "galvanic cell:")
        .replace("through copper sulfate.", "")
        .replace("find: m", "find: E0_cell")
    )
    template = template.replace("passed {{ I }} for {{ t }}", "joined {{ left.metal }} and {{ right.metal }}")
    folder = _bank(tmp_path, "row.group,metals\nred,Zn; Cu\nblue,Fe; Ag\n", template)
    found = _draws(
        folder,
        lambda drawn: (
            str(drawn.lookup("row.group")),
            frozenset(str(drawn.lookup(f"{side}.symbol")) for side in ("left", "right")),
        ),
    )
    assert found == {("red", frozenset({"Zn", "Cu"})), ("blue", frozenset({"Fe", "Ag"}))}


@pytest.mark.parametrize(
    ("table", "told"),
    [
        (TABLE.replace("0.62", "-0.62"), ["rows/currents.csv:3: current: expected a value above zero; found `-0.62 A` [quantity-sign]"]),
        (
            TABLE.replace("0.62", "0,62").replace("blue,", "blue,"),
            ["rows/currents.csv:3: expected 3 cells; found 4. A cell that holds a comma stands in double quotes. [bad-row]"],
        ),
        (TABLE.replace("time in min", "time in V"), [f"rows/currents.csv:{n}: time: expected a unit of the kind s; found `{v} V`. Usual: s, ms, min, h, d, y. [quantity-kind]" for n, v in ((2, 20), (3, 25), (4, 30))]),
        (TABLE.replace("blue", ""), ["rows/currents.csv:3: row.group: expected a value; found nothing. Fill it, or leave the row out. [empty-cell]"]),
        (TABLE.replace("time", "current"), ["rows/currents.csv:1: current: expected each column once; found `current` twice [repeated]"]),
        ("metals,time in min\nCu,20\n", ["rows/currents.csv:2: metals: expected a list; found `Cu`. A list of one ends with a semicolon: `Cu;`. [wrong-type]"]),
        (TABLE.splitlines()[0], [f"rows/currents.csv:1: expected 1 to {MOST_ROWS} rows below the heading; found 0 [row-count]"]),
        ("", ["rows/currents.csv:1: expected a heading with keys of the scenario; found an empty file [bad-heading]"]),
        (TABLE.replace("red", "r\u202eed"), ["rows/currents.csv:2: row.group: expected printable characters; found U+202E. Delete it. [bad-character]"]),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_by_row_and_column(tmp_path, table, told):
    assert _told(_bank(tmp_path, table)) == told


def test_a_column_that_is_no_key_of_the_scenario_is_told_once_with_the_nearest(tmp_path):
    (told,) = _told(_bank(tmp_path, TABLE.replace("current in", "curent in")))
    assert told.startswith("rows/currents.csv:1: curent: expected one of the keys ")
    assert "Did you mean `current`?" in told


def test_a_table_is_a_file_of_the_bank(tmp_path):
    for name, code in (("../currents.csv", "path-outside"), ("rows/none.csv", "no-file"), ("rows", "not-a-file")):
        place = tmp_path / code
        place.mkdir()
        (told,) = _told(_bank(place, TABLE, TEMPLATE.replace("rows/currents.csv", name)))
        assert told.startswith("one.yaml:6: rows: ")
        assert f"[{code}]" in told


def test_faults_of_the_template_itself_are_told_once_and_at_home(tmp_path):
    told = _told(
        _bank(
            tmp_path,
            TABLE.replace("0.62", "0"),
            TEMPLATE.replace("level: core", "level: hard").replace("metals: [Cu]", "metals: [Xx]"),
        )
    )
    assert [line.split(": ")[0] for line in told] == ["one.yaml:3", "one.yaml:5", "rows/currents.csv:3"]


def test_scatter_strays_by_whole_steps_within_its_size(tmp_path):
    template = TEMPLATE.replace("{metals: [Cu]}", "{metals: [Cu], current: {from: [0.50 A], scatter: 0.03 A}}").replace(
        "rows: rows/currents.csv\n", ""
    )
    template = template.replace("metals: [Cu],", "metals: [Cu], time: 20 min,").replace("Group {{ row.group }}", "A group")
    found = _draws(_bank(tmp_path, TABLE, template), lambda drawn: drawn.situation.given["I"].printed)
    assert found == {"0.47", "0.48", "0.49", "0.50", "0.51", "0.52", "0.53"}


@pytest.mark.parametrize("size", ["0.005 A", "30 mA", "0.60 A", "0 A"])
def test_a_scatter_fits_the_value_that_strays(tmp_path, size):
    template = TEMPLATE.replace(
        "metals: [Cu]", f"metals: [Cu], time: 20 min, current: {{from: [0.50 A], scatter: {size}}}"
    ).replace("rows: rows/currents.csv\n", "")
    (told,) = _told(_bank(tmp_path, TABLE, template))
    assert "expected a size in A, less than 0.50 and a whole number of steps of 0.01" in told
    assert "[scatter]" in told


def test_proof_names_the_row_that_no_draw_keeps_and_why(tmp_path):
    folder = _bank(tmp_path, TABLE.replace("0.80", "0.71"))
    (found,) = (each.fault for each in prove(folder, 6).findings if each.fault.code == "row-left-out")
    assert str(found) == (
        "rows/currents.csv:4: expected a row that gives a version; found m comes out otherwise from the lines as written. "
        "Change the row, or what turns it down. [row-left-out]"
    )


def test_a_signature_is_bound_to_the_rows_too(tmp_path):
    bank = load_bank(_bank(tmp_path, TABLE))
    before = content_of(bank.templates[0], bank, catalogue())
    (tmp_path / "rows" / "currents.csv").write_text(TABLE.replace("0.62", "0.65"), "utf-8")
    bank = load_bank(tmp_path)
    assert content_of(bank.templates[0], bank, catalogue())["template"] != before["template"]


def test_a_wrong_name_elsewhere_leaves_the_words_of_a_row_known(tmp_path):
    bank = load_bank(_bank(tmp_path, TABLE, TEMPLATE.replace("find: m\n", "find: m_kopper\n")))
    with pytest.raises(Faulty) as caught:
        practice_variants(bank, bank.templates[0], 3)
    assert {fault.code for fault in caught.value.faults} == {"unknown-quantity"}
