"""Everything that can be told wrongly to ``saltbridge work``, each with its whole message; exit code 1, nothing on stdout."""

from __future__ import annotations

import re

import pytest
from click.testing import CliRunner

from saltbridge.api import working_out
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.cli import main
from saltbridge.faults import Faulty

DANIELL = "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)"
UNKNOWN = "Zn(s) | Zn^2+(aq, ?) || Cu^2+(aq) | Cu(s)"
NO_BRIDGE = "Write for example Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s); what the bridge holds is left out. [diagram-unread]"


def told(*knows, find="q", diagram=None, more=()):
    """Arguments for the command."""
    return [*([diagram] if diagram else []), *(part for know in knows for part in ("--given", know)), "--find", find, *more]


CASES = {
    "no equals sign": (told("I 2.5 A"), ["I 2.5 A: expected NAME = VALUE; found 'I 2.5 A'. Write for example \"I = 2.50 A\". [given]"]),
    "no number": (told("I = x"), ["I = x: expected a number with a decimal point and a unit, such as 2.50 A; found 'x' [quantity]"]),
    "decimal comma": (told("I = 2,5 A"), ["I = 2,5 A: expected a decimal point; found '2,5 A'. Write \"I = 2.5 A\". [decimal-comma]"]),
    "several at once": (
        told("I = 2.5", "metl = Cu", find="mm"),
        [
            "I = 2.5: expected I with its unit, such as A; found '2.5'. Write \"I = 2.5 A\". [unit-needed]",
            "metl = Cu: expected the name of a quantity; found metl. Did you mean metal? [unknown-quantity]",
            "expected the name of a quantity; found mm. Did you mean m? [unknown-quantity]",
        ],
    ),
    "told twice": (told("t = 1 h", "t = 2 h"), ["t = 2 h: expected t once; found twice. Leave one out. [given-twice]"]),
    "a couple told twice": (
        told("E0(Zn^2+/Zn) = -0.76 V", "E0(Zn2+/Zn) = -0.76 V", find="E0_cell", diagram=DANIELL),
        ["E0(Zn2+/Zn) = -0.76 V: expected E0 once; found twice. Leave one out. [given-twice]"],
    ),
    "unit of another kind": (
        told("I = 2.5 V"), ["I = 2.5 V: expected I in a unit of its kind (A, mA, uA, kA); found V [dimension]"],
    ),
    "unknown unit": (
        told("I = 2.5 amps"), ["I = 2.5 amps: expected I in a unit of its kind (A, mA, uA, kA); found '2.5 amps' [unit]"],
    ),
    "energy without unit, meant in kilojoules": (
        told("dG0 = -212", "n = 2", find="E0_cell"),
        ["dG0 = -212: expected dG0 with its unit, such as kJ/mol; found '-212'. Write \"dG0 = -212 kJ/mol\". [unit-needed]"],
    ),
    "temperature without unit": (
        told("T = 25", find="E_cell", diagram=DANIELL),
        ["T = 25: expected T with its unit, such as °C; found '25'. Write \"T = 25 °C\". [unit-needed]"],
    ),
    "degrees told as kelvins": (
        told("T = 25 K", find="E_cell", diagram=DANIELL),
        [
            ("T = 25 K: expected a temperature from 200 K to 400 K, where a cell can hold water; found 25 K. "
            'Write "T = 25 °C". [impossible]')
        ],
    ),
    "kelvins told as degrees": (
        told("T = 298 °C", find="E_cell", diagram=DANIELL),
        [
            ("T = 298 °C: expected a temperature from 200 K to 400 K, where a cell can hold water; found 298 °C. "
            'Write "T = 298 K". [impossible]')
        ],
    ),
    "millivolts told as volts": (
        told("E_cell = 1130 V", find="c_anode", diagram=UNKNOWN),
        ['E_cell = 1130 V: expected E_cell within 1000 V, as in any battery or supply; found 1130 V. Write "E_cell = 1130 mV". [impossible]'],
    ),
    "negative current": (
        told("I = -2.5 A", "t = 1 h"), ["I = -2.5 A: expected I not below zero; found -2.5 A [impossible]"],
    ),
    "endless current": (
        told("I = 1e999 A", "t = 1 h"), ["I = 1e999 A: expected a number of some size for I; found 1e999 A [impossible]"],
    ),
    "efficiency above 100 %": (
        told("efficiency = 150 %", find="m"),
        ["efficiency = 150 %: expected efficiency above zero and up to 100 %; found 150 % [impossible]"],
    ),
    "efficiency without %": (
        told("efficiency = 85", find="m"),
        ['efficiency = 85: expected efficiency above zero and up to 100 %; found 85. Write "efficiency = 85 %". [impossible]'],
    ),
    "broken count": (told("z = 2.5", find="m"), ["z = 2.5: expected a whole number for z; found 2.5 [whole]"]),
    "unknown metal": (
        told("metal = Xx", find="m"),
        [
            ("expected a metal with its usual ion on the sheet: Ag, Al, Au, Ba, Ca, Cd, Co, Cr, Cu, Fe, K, Li, Mg, Mn, Na, Ni, Pb, "
            "Sn, Sr, Zn; found Xx. Give z and M instead. [unknown-metal]")
        ],
    ),
    "unknown sheet": (
        told("I = 1 A", more=("--sheet", "scool")),
        ['expected one of college, school; found "scool". Did you mean "school"? [unknown-sheet]'],
    ),
    "no bridge": (told(find="E_cell", diagram="hello"), [f"expected two half-cells with one salt bridge || between them; found 0 bridges in 'hello'. {NO_BRIDGE}"]),
    "both half-cells wrong": (
        told(find="E_cell", diagram="Zn(s) | Zn^2+(aq, -0.10) || Cu^2+(aq, 0) | Cu(s)"),
        [
            ("left half-cell: expected a number with a unit, or ?; found '-0.10'. Write for example 0.10 mol/L or 0.50 bar. "
            "[amount-unread]"),
            "right half-cell: expected an amount above 0 and up to 100 mol/L; found '0' [amount-out-of-range]",
        ],
    ),
    "couple of no cell": (
        told("E0(Fe^3+/Fe^2+) = 0.77 V", find="E_cell", diagram=DANIELL),
        [
            ("E0(Fe^3+/Fe^2+) = 0.77 V: expected a couple of this cell: Zn^2+/Zn or Cu^2+/Cu; found Fe^3+/Fe^2+ "
            "[couple-not-in-cell]")
        ],
    ),
    "couple of no sheet": (
        told("E0(Cu^3+/Cu) = 0.77 V", find="E_cell", diagram=DANIELL),
        [
            ("E0(Cu^3+/Cu) = 0.77 V: expected a couple of College data sheet; found Cu^3+/Cu. Near: Cu^+/Cu, Cu^2+/Cu, Cu^2+/Cu^+. "
            "[couple-not-on-sheet]")
        ],
    ),
    "potential of no couple": (
        told("E0 = 0.77 V", find="E_cell", diagram=DANIELL),
        [
            'E0 = 0.77 V: expected the couple in brackets; found E0 = 0.77 V. Write "E0(Cu^2+/Cu) = 0.34 V". [which-couple]'
        ],
    ),
    "concentration of nothing": (
        told("c = 0.1 mol/L", find="E_cell", diagram=DANIELL),
        ['c = 0.1 mol/L: expected the species in brackets; found c. Write "c(Cu^2+) = …". [which-species]'],
    ),
    "concentration of a stranger": (
        told("c(Ag^+) = 0.1 mol/L", find="E_cell", diagram=DANIELL),
        ["c(Ag^+) = 0.1 mol/L: expected a dissolved species of this cell (Zn^2+, Cu^2+); found Ag^+ [species-not-in-cell]"],
    ),
    "no acid": (
        told("pH = 3", find="E_cell", diagram=DANIELL),
        ["pH = 3: expected a dissolved species of this cell (Zn^2+, Cu^2+); found H^+ [species-not-in-cell]"],
    ),
    "concentration of zero": (
        told("c(Zn^2+) = 0 mol/L", find="E_cell", diagram=DANIELL),
        ["c(Zn^2+) = 0 mol/L: expected an amount above 0 and up to 100 mol/L; found 0 mol/L [impossible]"],
    ),
    "concentration by electrode": (
        told("c_anode = 0.1 mol/L", find="E_cell", diagram=DANIELL),
        [
            ("c_anode = 0.1 mol/L: expected a concentration by its species; found c_anode. Write it into the diagram, such as "
            'Zn^2+(aq, 0.10), or "c(Zn^2+) = 0.10 mol/L". [which-species]')
        ],
    ),
    "brackets where none belong": (
        told("I(Cu) = 2 A"), ["I(Cu) = 2 A: expected I without brackets; found I(Cu). Only E0(…), c(…) and p(…) take them. [owner]"],
    ),
    "nearest name": (
        told(find="E_cel", diagram=DANIELL), ["expected the name of a quantity; found E_cel. Did you mean E_cell? [unknown-quantity]"],
    ),
    "answer in a unit of another kind": (
        told(find="E_cell", diagram=DANIELL, more=("--in", "kJ/mol")),
        ["expected E_cell in a unit of its kind (V, mV, uV, kV); found kJ/mol [dimension]"],
    ),
    "answer in an unknown unit": (
        told(find="E_cell", diagram=DANIELL, more=("--in", "furlong")),
        ["expected E_cell in a unit of its kind (V, mV, uV, kV); found furlong [unit]"],
    ),
    "unit of an equation": (
        told(find="equation", diagram=DANIELL, more=("--in", "V")),
        ["expected no unit for the equation; found V. Leave out --in. [no-unit]"],
    ),
    "anode of no cell": (told("I = 1 A", find="anode"), ["expected a cell diagram to find the anode; found none [needs-diagram]"]),
    "missing: time and metal": (
        told("I = 2.5 A", find="m"),
        ["expected enough to derive m; found I. Also give t and metal (or M and z). [not-derivable]"],
    ),
    "missing: one of three": (
        told("metal = Cu", find="m"),
        ["expected enough to derive m; found nothing that leads there. Also give one of q, n_e, n_B, or I and t. [not-derivable]"],
    ),
    "missing: what is printed in another unit than it is worked in": (
        told("t = 30 min", find="j_corr"),
        ["expected enough to derive j_corr; found t. Also give A_corr and I. [not-derivable]"],
    ),
    "missing: the only way": (
        told("I = 2.5 A", find="V_titre"),
        [
            (
                "expected enough to derive V_titre; found I. Nothing leads to V_titre here; it can only be given. "
                "[not-derivable]"
            )
        ],
    ),
    "missing: a concentration": (
        told(find="E_cell", diagram=UNKNOWN),
        ["expected enough to derive E_cell; found nothing that leads there. Also give one of c(Zn^2+), Q, dG. [not-derivable]"],
    ),
    "missing: the cell potential": (
        told(find="c_anode", diagram=UNKNOWN),
        [
            ("expected enough to derive c_anode; found no cell potential. Also give the cell potential, such as "
            '"E_cell = 1.05 V". [not-derivable]')
        ],
    ),
    "missing: the unknown": (
        told("E_cell = 1.1 V", find="c_anode", diagram=DANIELL),
        [
            ("expected a ? in the diagram to find c_anode; found none. Write for example Zn^2+(aq, ?), and give "
            '"E_cell = 1.05 V". [not-derivable]')
        ],
    ),
    "unknown at the other electrode": (
        told("E_cell = 1.13 V", find="c_cathode", diagram=UNKNOWN),
        ["expected a ? that is c_cathode; found a ? in the left half-cell. Find c_anode. [not-derivable]"],
    ),
    "too large to hold": (
        told(find="K", diagram="K(s) | K^+(aq) || MnO4^-(aq), Mn^2+(aq), H^+(aq) | Pt(s)"),
        ["expected K to exist; found no value for K: a number too large to hold. Find lgK. [undefined]"],
    ),
    "too small to hold": (
        told("E_cell = 9.9 V", "T = 210 K", find="c_anode", diagram=UNKNOWN),
        ["expected c_anode to exist; found a number too small to hold [undefined]"],
    ),
    "division by zero": (
        told("I = 0 A", "q = 10 C", find="t"), ["expected t to exist; found no value for t: a division by zero [undefined]"],
    ),
    "neither oxidised nor reduced": (
        told(find="anode", diagram="Zn(s) | Zn^2+(aq) || Zn^2+(aq) | Zn(s)"),
        ["expected anode to exist; found the cell potential is zero, so nothing is oxidised or reduced [undefined]"],
    ),
    "no temperature coefficients": (
        told("T = 37 °C", find="E_cell", diagram="Pt(s) | Sn^2+(aq), Sn^4+(aq) || Sn^4+(aq), Sn^2+(aq, 0.1) | Pt(s)", more=("--shift-E0",)),
        ["expected a temperature coefficient for Sn^4+/Sn^2+; found none in the table. Leave out --shift-E0. [no-coefficient]"],
    ),
    "no temperature coefficient": (
        told("T = 37 °C", find="E_cell", diagram="Al(s) | Al^3+(aq) || Sn^4+(aq), Sn^2+(aq) | Pt(s)", more=("--shift-E0",)),
        ["expected a temperature coefficient for Sn^4+/Sn^2+; found none in the table. Leave out --shift-E0. [no-coefficient]"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_the_whole_message(case):
    arguments, lines = CASES[case]
    shown = CliRunner().invoke(main, ["work", *arguments])
    assert (shown.exit_code, shown.stdout) == (1, "")
    assert shown.stderr.splitlines() == lines


HOSTILE = [
    "x" * 10_000,
    "(" * 500,
    "I = " + "9" * 5000 + " A",
    "E0(" + "a" * 300 + ") = 1 V",
    "\x1b[31mI = 2 A",
    "I = 2 A\x00",
    "𝐈 = 2 A",
]


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
@pytest.mark.parametrize("place", ["--given", "--find", "--in", "--sheet", "diagram"])
def test_whatever_is_told_the_answer_is_one_short_line_each_in_words(text, place):
    arguments = {"--given": "I = 1 A", "--find": "q", "--in": "C", "--sheet": "college", "diagram": DANIELL} | {place: text}
    diagram = arguments.pop("diagram") if place == "diagram" else arguments.pop("diagram") and None
    shown = CliRunner().invoke(
        main, ["work", *([diagram] if diagram else []), *(part for pair in arguments.items() for part in pair)]
    )
    assert shown.exit_code in {1, 2}
    assert shown.stdout == ""
    assert "Traceback" not in shown.stderr
    assert "own-fault" not in shown.stderr
    assert "\x1b" not in shown.stderr
    assert all(len(line) <= 1000 for line in shown.stderr.splitlines())


def _said_of(symbol):
    """What is said where a temperature is all that is told."""
    try:
        working_out(None, ["T = 310 K"], symbol)
    except Faulty as trouble:
        return [str(each) for each in trouble.faults]
    return []


def test_every_quantity_of_which_too_little_is_told_names_the_rest_in_two_lines():
    """However many relations there are: what to give is named, and fits in two lines of a terminal."""
    asked = [symbol for symbol, each in catalogue().quantities.items() if not each.constant and symbol != "T"]
    said = [message for symbol in asked for message in _said_of(symbol)]
    assert len(said) > 300
    assert max(map(len, said)) <= 160
    underived = [message for message in said if message.startswith("expected enough")]
    assert len(underived) > 200
    assert [each for each in underived if not re.search(r"Also give (?!more)\w|can only be given", each)] == []


@pytest.mark.parametrize(("written", "name"), [("DeltaG", "dG"), ("ΔG°", "dG0"), ("E°_cell", "E0_cell"), ("e_cell", "E_cell")])
def test_a_quantity_by_its_printed_symbol_is_answered_with_its_name(written, name):
    fault = f"expected the name of a quantity; found {written}. Did you mean {name}? [unknown-quantity]"
    assert CliRunner().invoke(main, ["work", *told(find=written, diagram=DANIELL)]).stderr.splitlines() == [fault]
