"""A fact stands once: half-reactions in the tables of couples, energies of formation and constants in theirs."""

from __future__ import annotations

import ast
import csv
import math
import re
from collections import Counter
from decimal import Decimal
from functools import reduce
from pathlib import Path

import pytest
import yaml

from saltbridge.chemistry.half_reactions import HalfReaction, parse_half_reaction
from saltbridge.faults import Faulty
from saltbridge.home import shipped
from saltbridge.tables import constant, constants, sheet, sheet_names
from saltbridge.tables.batteries import batteries, fuels
from saltbridge.tables.benches import read_reference_electrodes, reference_electrodes
from saltbridge.tables.half_rows import half_rows, read_half_rows
from saltbridge.tables.potentials import potentials
from saltbridge.tables.reactions import formation_energies, reactions, terms_of

DATA = shipped("data")
SITE = shipped("site")
PACKAGE = Path(__file__).parents[2] / "generator" / "saltbridge"
TABLES_OF_COUPLES = ("potentials.csv", "half_reactions.csv")


def _leaves(tree):
    if isinstance(tree, dict):
        for key, value in tree.items():
            if key != "source":
                yield from _leaves(value)
    elif isinstance(tree, list):
        for value in tree:
            yield from _leaves(value)
    else:
        yield str(tree)


def _texts():
    """(file, text) of each cell and value of the data, sources left out, and of each text in the code."""
    for path in sorted(DATA.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as stream:
            for row in csv.DictReader(stream):
                yield from ((path.name, cell) for column, cell in row.items() if "source" not in column)
    for path in sorted(DATA.rglob("*.yaml")):
        with path.open(encoding="utf-8") as stream:
            yield from ((path.name, text) for text in _leaves(yaml.load(stream, yaml.CSafeLoader)))
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield path.name, node.value


def _statement(half: HalfReaction):
    """A half-reaction as what it says: the species of both sides with their phases, in the smallest whole numbers."""
    terms = [
        (side, str(term.species.text), term.coefficient) for side in ("left", "right") for term in getattr(half.reduction, side)
    ]
    least = reduce(math.gcd, (count for _, _, count in terms))
    return tuple(sorted((side, species, count // least) for side, species, count in terms))


def _half_reactions(texts):
    for file, text in texts:
        if "e-" in text and "->" in text and "\n" not in text:
            try:
                yield file, _statement(parse_half_reaction(text))
            except Faulty:
                continue


def _stated_more_than_once(texts):
    found = list(_half_reactions(texts))
    counts = Counter(statement for _, statement in found)
    return [(file, statement) for file, statement in found if counts[statement] > 1 or file not in TABLES_OF_COUPLES]


def test_a_half_reaction_is_stated_once_and_in_a_table_of_couples():
    texts = list(_texts())
    assert len(list(_half_reactions(texts))) == len(half_rows())
    assert _stated_more_than_once(texts) == []


def test_a_second_statement_is_found_also_where_it_is_doubled_or_in_another_order():
    doubled = ("potentials.csv", "4 H2O(l) + 4 e- -> 4 OH^-(aq) + 2 H2(g)")
    assert {file for file, _ in _stated_more_than_once([*_texts(), doubled])} == {"potentials.csv"}
    assert [file for file, _ in _stated_more_than_once([*_texts(), ("laws.py", "Cu^3+(aq) + 3 e- -> Cu(s)")])] == ["laws.py"]


@pytest.mark.parametrize("battery", batteries().values(), ids=batteries())
def test_both_plates_of_a_battery_are_rows_of_the_tables(battery):
    known = {each.half_reaction: each.E0 for each in half_rows().values()}
    for half, printed in ((battery.negative_half, battery.E_negative), (battery.positive_half, battery.E_positive)):
        assert printed in {"", known[half]}


def test_a_half_reaction_that_the_table_of_potentials_has_is_refused_a_second_row(tmp_path):
    table = tmp_path / "half_reactions.csv"
    table.write_text("id,half_reaction,E0/V,potential_of,source\nZn^2+/Zn,Zn^2+(aq) + 2 e- -> Zn(s),-0.76,,x\n", encoding="utf-8")
    with pytest.raises(Faulty) as caught:
        read_half_rows(table, potentials())
    assert [str(each) for each in caught.value.faults] == [
        'half_reactions.csv:2: id: expected a half-reaction that potentials.csv lacks; found "Zn^2+/Zn" [repeated]'
    ]


@pytest.mark.parametrize("fuel", fuels().values(), ids=fuels())
def test_energies_of_a_fuel_are_sums_of_formation_data(fuel):
    reaction = next(each for each in reactions().values() if each.name == fuel.name)
    times = -next(count for count, species in terms_of(reaction.equation) if species.partition("(")[0] == fuel.fuel)
    for told, column in ((fuel.dG0, "printed"), (fuel.dH0, "enthalpy")):
        total = math.fsum(
            count * float(getattr(formation_energies()[species], column)) for count, species in terms_of(reaction.equation)
        )
        assert float(told) == pytest.approx(total / times, abs=1e-9)


def test_no_table_but_that_of_formation_states_an_energy():
    headings = {path.name: path.read_text(encoding="utf-8").splitlines()[0] for path in sorted(DATA.glob("*.csv"))}
    assert [name for name, heading in headings.items() if "kJ/mol" in heading] == ["formation.csv"]


def test_a_reference_electrode_at_activity_one_has_the_potential_of_its_couple(tmp_path):
    told = {name: each.E for name, each in reference_electrodes().items() if "activity 1" in each.filling}
    assert told == {
        "hydrogen": "0.000",
        "silver chloride standard": "0.222",
        "calomel standard": "0.268",
        "mercury sulfate standard": "0.615",
    }
    table = tmp_path / "reference_electrodes.csv"
    table.write_text("id,name,filling,couple,E/V,grade,source\nx,x,x,AgCl/Ag,0.222,opened,x\n", encoding="utf-8")
    with pytest.raises(Faulty) as caught:
        read_reference_electrodes(table)
    assert [str(each) for each in caught.value.faults] == [
        'reference_electrodes.csv:2: E/V: expected an empty cell, as the potential is that of the couple; found "0.222" [bad-cell]'
    ]


# ------------------------------------------------------------------ constants

NEAR = 6e-5
"""Nearer than this a number is taken for a constant: 8.314 is R and 96 485 is F, while 298 and 96 500 are roundings of their own."""
_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:e-?\d+)?(?![\w.])")


def _meant(number: float) -> list[str]:
    """The constants that a number with three figures or more stands for; 100 000 and the like are plain numbers too."""
    return [each for each in constants() if math.isclose(number, constant(each), rel_tol=NEAR) and each != "p_standard"]


def _numbers_of_code(text):
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Constant):
            yield from [node.value] if isinstance(node.value, float | int) else []
            yield from [float(node.value)] if isinstance(node.value, str) and _NUMBER.fullmatch(node.value) else []


def _constants_in(path: Path):
    text = path.read_text(encoding="utf-8")
    numbers = _numbers_of_code(text) if path.suffix == ".py" else map(float, _NUMBER.findall(text))
    return [name for number in numbers for name in _meant(float(number))]


def test_no_code_and_no_page_states_a_constant_anew():
    files = [
        path for kind in ("*.py", "*.js", "*.typ", "*.html") for home in (PACKAGE, SITE) for path in sorted(home.rglob(kind))
    ]
    assert len(files) > 200
    assert {path.name: found for path in files if (found := _constants_in(path))} == {}


def test_a_constant_stated_anew_is_found(tmp_path):
    for name, text in (("a.py", 'F = Decimal("96485")\nR = 8.314\n'), ("a.js", "const kelvin = 273.15 + celsius;\n")):
        (tmp_path / name).write_text(text, encoding="utf-8")
    assert sorted(_constants_in(tmp_path / "a.py")) == ["F", "R"]
    assert _constants_in(tmp_path / "a.js") == ["T_zero"]


@pytest.mark.parametrize("name", sheet_names())
def test_a_sheet_prints_the_constants_rounded(name):
    R, F, T = (constant(each) for each in ("R", "F", "T_25"))
    exact = {"F": F, "R": R, "T": T, "V_m": 1000 * R * T / constant("p_standard"), "slope": R * T * math.log(10) / F}
    for symbol, printed in sheet(name).constants.items():
        last = 10.0 ** min(0, Decimal(printed.printed).as_tuple().exponent)
        assert float(printed.printed) == pytest.approx(exact[symbol], abs=50 if symbol == "F" else last / 2 + 1e-9), symbol


def test_an_equation_of_the_catalogue_uses_a_constant_as_it_is():
    for path in [*sorted((DATA / "relations").glob("*.yaml")), DATA / "relations.yaml"]:
        with path.open(encoding="utf-8") as stream:
            entries = yaml.load(stream, yaml.CSafeLoader)
        for name, entry in entries.items():
            for number in map(float, _NUMBER.findall(str(entry["equation"]))):
                assert all(number == constant(meant) for meant in _meant(number)), name
