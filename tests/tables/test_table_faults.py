"""What a teacher reads when a table or a sheet is wrong: whole messages, all at once."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from saltbridge.faults import Faulty
from saltbridge.home import shipped
from saltbridge.tables import (
    potentials,
    read_constants,
    read_elements,
    read_metals,
    read_potentials,
    read_sheet,
    sheet,
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(shipped("data"), tmp_path / "data"))


def edit(path: Path, *changes: tuple[str, str]) -> Path:
    text = path.read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    path.write_text(text, encoding="utf-8")
    return path


def line_of(path: Path, start: str) -> int:
    return next(number for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1) if line.startswith(start))


def told(read, *arguments: object) -> list[str]:
    with pytest.raises(Faulty) as caught:
        read(*arguments)
    return str(caught.value).splitlines()


def test_the_shipped_tables_have_no_fault(folder):
    assert read_potentials(folder) == potentials()


def test_every_bad_row_of_the_potentials_is_told_at_once(folder):
    table = folder / "potentials.csv"
    edit(
        table,
        ("Zn^2+/Zn,Zn^2+(aq) + 2 e- -> Zn(s),2,-0.7618", "Zn^2+/Zn,Zn^2+(aq) + 2 e- -> Zn(s),3,-0.7618"),
        ("Cd^2+(aq) + 2 e- -> Cd(s),2,-0.403", "Cd^2+(aq) + 2 e- -> Cd(s),2,-0·403"),
        ("Ag^+(aq) + e- -> Ag(s)", "Ag(s) -> Ag^+(aq) + e-"),
        (
            "F2/F^-,F2(g) + 2 e- -> 2 F^-(aq),2,2.866,-1.871,C",
            "F2/F^-,F2(g) + 2 e- -> 2 F^-(aq),2,2.866,-1.871,D",
        ),
    )
    zinc, cadmium, silver, fluorine = (line_of(table, start) for start in ("Zn^2+/Zn,", "Cd^2+/Cd,", "Ag^+/Ag,", "F2/F^-,"))
    assert told(read_potentials, folder) == [
        f'potentials.csv:{zinc}: n: expected 2, the number of electrons in Zn^2+(aq) + 2 e- -> Zn(s); found "3" [bad-cell]',
        f'potentials.csv:{cadmium}: E0/V: expected a decimal number such as -0.76; found "-0·403" [bad-cell]',
        (
            f"potentials.csv:{silver}: half_reaction: expected a reduction such as Zn^2+(aq) + 2 e- -> Zn(s); "
            'found "Ag(s) -> Ag^+(aq) + e-" [bad-cell]'
        ),
        f'potentials.csv:{fluorine}: grade: expected one of A, B, C; found "D" [bad-cell]',
    ]


def test_a_repeated_id_a_short_row_and_a_source_nobody_describes_are_told(folder):
    table = folder / "potentials.csv"
    edit(table, ("Cd^2+/Cd,", "Zn^2+/Zn,"), ("wateq4f/V", "guess/V"))
    lines = table.read_text(encoding="utf-8").splitlines()
    cells = len(lines[0].split(","))
    table.write_text("\n".join([*lines, "Xx,Xx^+(aq) + e- -> Xx(s),1"]) + "\n", encoding="utf-8")
    first, second = (number for number, line in enumerate(lines, 1) if line.startswith("Zn^2+/Zn,"))
    assert told(read_potentials, folder) == [
        'potentials.csv:2: guess/V: expected a column described in sources.csv; found "guess/V" [unknown-column]',
        f'potentials.csv:{second}: id: expected a name used once; found "Zn^2+/Zn". It stands on line {first} already. [repeated]',
        f"potentials.csv:{len(lines) + 1}: expected {cells} cells; found 3 [bad-row]",
    ]


def test_a_grade_c_without_a_note_is_told(folder):
    note = "traditional value; formation data give -0.68 to -0.71 V"
    table = edit(folder / "potentials.csv", (note, ""))
    assert told(read_potentials, folder) == [
        f"potentials.csv:{line_of(table, 'Cr^3+/Cr,')}: note: expected a text; found an empty cell [bad-cell]"
    ]


def test_a_temperature_coefficient_needs_its_source_and_a_grade_above_c(folder):
    table = edit(folder / "potentials.csv", (",0.119,A,A,", ",0.119,A,C,"), (",-0.030,A,A,", ",,A,A,"))
    cadmium = 'expected an empty cell, as there is no dE0dT; found "computed from the NBS tables of 1982'
    lines = told(read_potentials, folder)
    assert lines[0] == (
        f"potentials.csv:{line_of(table, 'Zn^2+/Zn,')}: dE0dT/(mV/K): expected an empty cell, as the grade is C; "
        'found "0.119" [bad-cell]'
    )
    assert lines[1].startswith(f"potentials.csv:{line_of(table, 'Cd^2+/Cd,')}: dE0dT_citation: {cadmium}")
    assert len(lines) == 2


def test_a_wrong_heading_is_told_in_full(tmp_path):
    path = tmp_path / "constants.csv"
    path.write_text("symbol,name,value\nF,Faraday constant,96485\n", encoding="utf-8")
    assert told(read_constants, path) == [
        "constants.csv:1: expected symbol,name,value,unit,source; found symbol,name,value [bad-heading]"
    ]


def test_a_table_that_is_not_there_or_not_utf8_is_told(tmp_path):
    assert told(read_elements, tmp_path / "elements.csv") == [
        "elements.csv: expected a table; found No such file or directory [unreadable]"
    ]
    (tmp_path / "elements.csv").write_bytes(b"symbol,\xff\n")
    assert told(read_elements, tmp_path / "elements.csv")[0].startswith(
        "elements.csv: expected a table with commas, in UTF-8; found 'utf-8' codec"
    )


def test_bad_cells_of_elements_constants_and_metals_are_told(folder):
    edit(folder / "elements.csv", ("Zn,zinc,30,65.38", "Zn,zinc,0,65.38(2)"))
    assert told(read_elements, folder / "elements.csv") == [
        'elements.csv:31: atomic_number: expected a whole number above zero; found "0" [bad-cell]',
        'elements.csv:31: standard_atomic_weight: expected a decimal number such as -0.76; found "65.38(2)" [bad-cell]',
    ]
    edit(folder / "constants.csv", ("6.02214076e23", "6.022 × 10^23"))
    assert told(read_constants, folder / "constants.csv") == [
        'constants.csv:4: value: expected a number such as 96485 or 6.022e23; found "6.022 × 10^23" [bad-cell]'
    ]
    table = edit(folder / "metals.csv", ("Zn^2+,Zn^2+/Zn,zinc sulfate,ZnSO4,no", "Zn^2+,Zn2+/Zn,,ZnSO4,maybe"))
    zinc = line_of(table, "Zn,")
    assert told(read_metals, table, potentials()) == [
        (
            f'metals.csv:{zinc}: couple: expected the id of a row in potentials.csv; found "Zn2+/Zn". '
            'Did you mean "Zn^2+/Zn"? [unknown-couple]'
        ),
        f"metals.csv:{zinc}: salt: expected a text; found an empty cell [bad-cell]",
        f'metals.csv:{zinc}: needs_acid: expected the word "yes" or "no"; found "maybe" [bad-cell]',
    ]


GOOD = """title: Harbour school sheet
citation: our own printed sheet
order: downward
constants:
  F: {printed: 96500, unit: C/mol, name: Faraday constant, source: printed}
  R: {printed: 8.31, unit: J/(mol K), name: gas constant, source: printed}
  T: {printed: 298, unit: K, name: temperature (25 °C), source: printed}
  V_m: {printed: 24.0, unit: dm3/mol, name: molar volume, source: printed}
  slope: {printed: 0.059, unit: V, name: slope, source: printed}
rows:
  Zn^2+/Zn: -0.76
  Fe^2+/Fe: −0.44
  Cu^2+/Cu: +0.34
atomic_masses: {Zn: 65.4, Fe: 56, Cu: 63.5, Cl: 35.5}
"""


def own(tmp_path: Path, *changes: tuple[str, str]) -> Path:
    path = tmp_path / "harbour.yaml"
    path.write_text(GOOD, encoding="utf-8")
    return edit(path, *changes)


def test_a_banks_own_sheet_prints_its_own_texts(tmp_path):
    printed = read_sheet(own(tmp_path), potentials())
    assert printed.name == "harbour"
    assert [(row.couple, row.E0, row.decimals) for row in printed.rows] == [
        ("Cu^2+/Cu", "0.34", 2),
        ("Fe^2+/Fe", "-0.44", 2),
        ("Zn^2+/Zn", "-0.76", 2),
    ]
    assert printed.atomic_masses["Fe"] == "56"
    assert printed.constants["V_m"].printed == "24.0"
    assert printed.warnings == ()


def test_a_potential_far_from_ours_and_a_slope_that_does_not_follow_are_warned_of(tmp_path):
    path = own(tmp_path, ("Zn^2+/Zn: -0.76", "Zn^2+/Zn: 0.76"), ("printed: 0.059", "printed: 0.0571"))
    printed = read_sheet(path, potentials())
    assert [str(warning) for warning in printed.warnings] == [
        (
            "harbour.yaml:9: constants.slope: expected 0.05912 V, RT ln 10 / F; found 0.0571 V. "
            "Print the digits that follow from R and F, or leave digits out. [doubtful-value]"
        ),
        (
            "harbour.yaml:11: rows.Zn^2+/Zn: expected a value within 0.05 V of -0.7618 V; found 0.76 V. "
            "Check the sign and the digits in your printed table. [doubtful-value]"
        ),
    ]
    assert printed.rows[0].couple == "Zn^2+/Zn"


def test_exactly_a_twentieth_of_a_volt_is_not_warned_of(tmp_path):
    assert read_sheet(own(tmp_path, ("−0.44", "-0.497")), potentials()).warnings == ()
    assert len(read_sheet(own(tmp_path, ("−0.44", "-0.498")), potentials()).warnings) == 1


def test_all_faults_of_a_sheet_are_told_at_once(tmp_path):
    path = own(
        tmp_path,
        ("order: downward", "order: down"),
        ("title:", "titel:"),
        ("F: {printed: 96500, unit: C/mol", "F: {printed: 9650, unit: C/mol"),
        ("unit: dm3/mol", "unit: cm3/mol"),
        ("Fe^2+/Fe: −0.44", "Fe^2+/Fee: −0,44"),
        ("Cu: 63.5, Cl: 35.5", "Cu: 53.5, Ci: 35.5"),
    )
    assert told(read_sheet, path, potentials()) == [
        (
            'harbour.yaml:1: titel: expected one of title, citation, order, constants, rows, atomic_masses; found "titel". '
            'Did you mean "title"? [unknown-key]'
        ),
        'harbour.yaml:1: title: expected the key "title"; found none [missing-key]',
        'harbour.yaml:3: order: expected downward or upward; found "down". Did you mean "downward"? [bad-value]',
        "harbour.yaml:5: constants.F.printed: expected a value from 95520.5 to 97450.2 C/mol; found 9650 [implausible]",
        'harbour.yaml:8: constants.V_m.unit: expected the unit dm3/mol; found "cm3/mol" [bad-unit]',
        (
            'harbour.yaml:12: rows.Fe^2+/Fee: expected a decimal number; found "−0,44". '
            "Write a decimal point and no spaces; the bank's settings choose how numbers print. [bad-number]"
        ),
        (
            'harbour.yaml:12: rows.Fe^2+/Fee: expected the id of a known couple; found "Fe^2+/Fee". '
            'Did you mean "Fe^2+/Fe"? [unknown-couple]'
        ),
        "harbour.yaml:14: atomic_masses.Cu: expected a value near 63.546; found 53.5 [implausible]",
        'harbour.yaml:14: atomic_masses.Ci: expected the symbol of an element; found "Ci". Did you mean "C"? [unknown-element]',
    ]


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            ("Zn^2+/Zn: -0.76", "Zn^2+/Zn: &a -0.76"),
            (
                "harbour.yaml:11: expected plain keys and values; found an anchor (&). "
                "Write the value out, or put it in quotes. [bad-yaml]"
            ),
        ),
        (
            ("Zn^2+/Zn: -0.76", "Zn^2+/Zn: !!python/name:os.system -0.76"),
            "harbour.yaml:11: expected plain keys and values; found a tag (!). Write the value out, or put it in quotes. [bad-yaml]",
        ),
        (
            ("Fe^2+/Fe", "Zn^2+/Zn"),
            (
                'harbour.yaml:12: rows.Zn^2+/Zn: expected a key used once; found "Zn^2+/Zn" again. '
                "It stands on line 11 already. [repeated]"
            ),
        ),
        (
            ("  Zn^2+/Zn: -0.76", "  [Zn(OH)4]^2-/Zn: -1.20"),
            (
                "harbour.yaml:11: expected well-formed YAML; found a line that can't be followed (expected <block end>, but found '<scalar>'). "
                "Put a name that begins with a bracket in quotes. [bad-yaml]"
            ),
        ),
        (
            ("  Cu^2+/Cu: +0.34", "    Cu^2+/Cu: +0.34"),
            (
                "harbour.yaml:13: expected well-formed YAML; found a line that can't be followed (mapping values are not allowed here). "
                "Look at the indentation, colons and quotes of this line and the line before. [bad-yaml]"
            ),
        ),
        (
            (GOOD[GOOD.index("rows:") : GOOD.index("atomic_masses")], "rows: {}\n"),
            "harbour.yaml:10: rows: expected at least one couple; found none [bad-value]",
        ),
        (
            (GOOD[GOOD.index("rows:") : GOOD.index("atomic_masses")], "rows: none\n"),
            'harbour.yaml:10: rows: expected a mapping; found "none" [bad-value]',
        ),
        (
            ("Zn^2+/Zn: -0.76", "Zn^2+/Zn: [-0.76]"),
            "harbour.yaml:11: rows.Zn^2+/Zn: expected a text or a mapping; found a list [bad-shape]",
        ),
    ],
)
def test_yaml_that_is_no_sheet_is_told(tmp_path, change, message):
    assert message in told(read_sheet, own(tmp_path, change), potentials())


def test_a_sheet_that_is_missing_empty_not_utf8_or_too_big_is_told(tmp_path):
    path = tmp_path / "harbour.yaml"
    assert told(read_sheet, path, potentials()) == [
        "harbour.yaml: expected a file that can be read; found No such file or directory [unreadable]"
    ]
    path.write_text("", encoding="utf-8")
    assert told(read_sheet, path, potentials()) == [
        "harbour.yaml:1: expected a mapping of keys; found an empty file or another shape [bad-shape]"
    ]
    path.write_bytes(b"title: \xff")
    assert told(read_sheet, path, potentials()) == [
        "harbour.yaml: expected text in UTF-8; found other bytes. Save the file as UTF-8. [unreadable]"
    ]
    path.write_text("#" * 1_000_001, encoding="utf-8")
    assert told(read_sheet, path, potentials()) == ["harbour.yaml: expected a file up to 1 MB; found 1000001 bytes [too-big]"]


def test_nesting_without_end_is_told(tmp_path):
    path = tmp_path / "harbour.yaml"
    path.write_text("{a: " * 5000 + "1" + "}" * 5000, encoding="utf-8")
    assert told(read_sheet, path, potentials()) == [
        "harbour.yaml:1: expected at most 40 brackets and indents; found more [bad-shape]"
    ]


@given(text=some.text(max_size=200) | some.binary(max_size=200))
def test_any_file_is_a_sheet_or_a_list_of_faults(tmp_path_factory, text):
    path = tmp_path_factory.mktemp("any") / "own.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"))
    with pytest.raises(Faulty) as caught:
        read_sheet(path, potentials())
    assert all(fault.file == "own.yaml" and fault.expected and fault.found for fault in caught.value.faults)


def test_the_shipped_sheets_have_no_doubts():
    assert sheet("school").warnings == sheet("college").warnings == ()
