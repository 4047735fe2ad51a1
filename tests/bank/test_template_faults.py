"""Templates that are wrong: one slip gives one whole message, with line, key path and what to write instead."""

from __future__ import annotations

import pytest
from bank_samples import ASKED, GALVANIC, changed, messages, template_messages, template_of

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.scenarios.joining import DIAGRAM

KEYS = (
    "expected one of the keys `title`, `outcome`, `level`, `demand`, `use`, `minutes`, `context`, `scenario`, `rows`, `further quantities`, `spare`, `keep only if`, `rules`, "
    "`must reveal`, `method`, `form`, `few versions`, `figure`, `hide row`, `given`, `text`, `parts`"
)
KINDS = ", ".join(f"`{kind}`" for kind in catalogue().scenarios if kind != DIAGRAM)
METALS = "Known: `Li`, `Na`, `K`, `Ca`, `Sr`, `Ba`, `Mg`, `Al`, `Mn`, `Zn`, `Cr`, `Fe`, `Cd`, `Co`, `Ni`, `Sn`, `Pb`, `Cu`, `Ag`, `Au`."
CELL = "scenario.galvanic cell"
PAIR = "[Zn, Cu]"
LEVEL = "level: core"
LIST = "[Zn, Cu, Ag]"
FIND = "    find: E0_cell\n"
CONDITION = "keep only if: E0_cell >= 0.20 V"
LEVELS = "expected one of `introductory`, `core`, `advanced`, `first-year`"


def test_the_sample_itself_is_right():
    assert template_of(GALVANIC).title == "Cell potential of two metals"


CASES = [
    ("unknown key", "keep only if:", "keep if:", f"t.yaml:7: keep if: {KEYS}; found `keep if`. Did you mean `keep only if`? [unknown-key]"),
    ("misspelt needed key", "title:", "titel:", f"t.yaml:1: titel: {KEYS}; found `titel`. Did you mean `title`? [unknown-key]"),
    ("underscore in a key", "keep only if:", "keep_only_if:", f"t.yaml:7: keep_only_if: {KEYS}; found `keep_only_if`. Did you mean `keep only if`? [unknown-key]"),
    ("missing key", LEVEL + "\n", "", "t.yaml:1: level: expected the key `level`; found no such key. As `level: core`. [missing-key]"),
    ("unknown word", LEVEL, "level: cor", f"t.yaml:3: level: {LEVELS}; found `cor`. Did you mean `core`? [unknown-word]"),
    ("list for a word", LEVEL, "level: [core]", f"t.yaml:3: level: {LEVELS}; found a list [unknown-word]"),
    ("nothing", LEVEL, "level:", f"t.yaml:3: level: {LEVELS}; found nothing [unknown-word]"),
    ("keys for a text", "outcome: T3.4", "outcome: {a: b}", "t.yaml:2: outcome: expected a text; found keys with values [wrong-type]"),
    ("unknown outcome", "outcome: T3.4", "outcome: T3.44", "t.yaml:2: outcome: expected the id of a learning outcome; found `T3.44`. Did you mean `T3.4`? [unknown-outcome]"),
    ("outcome that is a gas", "outcome: T3.4", "outcome: NO", "t.yaml:2: outcome: expected the id of a learning outcome; found `NO` [unknown-outcome]"),
    ("time for a number", CONDITION, "minutes: 1:30", "t.yaml:7: minutes: expected a whole number; found `1:30` [wrong-type]"),
    ("no minutes at all", CONDITION, "minutes: 0", "t.yaml:7: minutes: expected a whole number from 1 up; found `0`. Leave the key out: marks and minutes are counted then. [wrong-type]"),
    ("power of ten for a number", CONDITION, "minutes: 1e-5", "t.yaml:7: minutes: expected a whole number; found `1e-5` [wrong-type]"),
    ("minus", CONDITION, "minutes: -3", "t.yaml:7: minutes: expected a whole number; found `-3` [wrong-type]"),
    ("long title", "title: Cell potential of two metals", "title: " + "x" * 121, "t.yaml:1: title: expected at most 120 characters on one line; found 121 characters [too-long]"),
    ("not yes or no", CONDITION, "hide row: maybe", "t.yaml:7: hide row: expected `true` or `false`; found `maybe` [wrong-type]"),
    ("not a slip's id", CONDITION, "must reveal: [Add both]", "t.yaml:7: must reveal[1]: expected small letters, digits and hyphens, such as `add-both-as-printed`; found `Add both` [identifier]"),
    ("no list", CONDITION, "must reveal: add-both", "t.yaml:7: must reveal: expected a list; found `add-both`. Put it in square brackets: `[add-both]`. [wrong-type]"),
    ("unknown rule", CONDITION, "rules: [R-EMFF]", "t.yaml:7: rules[1]: expected the code of a realism rule; found `R-EMFF`. Did you mean `R-EMF`? [unknown-rule]"),
    ("unknown use", CONDITION, "use: [practice, test]", "t.yaml:7: use[2]: expected one of `practice`, `homework`, `exam`; found `test` [unknown-word]"),
    ("twice in a list", CONDITION, "use: [exam, exam]", "t.yaml:7: use: expected each entry once; found `exam` twice [repeated]"),
    ("empty list", CONDITION, "given: []", "t.yaml:7: given: expected 1 to 200 entries; found 0 [list-length]"),
    ("bad condition", CONDITION, "keep only if: E0_cell => 0.20 V", 't.yaml:7: keep only if: expected a comparison of two terms; found `E0_cell => 0.20 V`. Write it as `E0_cell >= 0.20 V`, `left.metal != "Zn"`, `abs(E_cell) > 0.1 V`, or several of these joined by `and` and `or`. [condition]'),
    ("bad condition in a list", CONDITION, "keep only if: [n == 2, n = 2]", 't.yaml:7: keep only if[2]: expected a comparison of two terms; found `n = 2`. Write it as `E0_cell >= 0.20 V`, `left.metal != "Zn"`, `abs(E_cell) > 0.1 V`, or several of these joined by `and` and `or`. [condition]'),
    ("list for a condition", CONDITION, "keep only if: [[n == 2]]", "t.yaml:7: keep only if[1]: expected a condition, as `E0_cell >= 0.20 V`; found a list [wrong-type]"),
    # scenario
    ("unknown metal", LIST, "[Zn, Cu, Zi]", f"t.yaml:6: {CELL}.metals[3]: expected the symbol of a metal; found `Zi`. {METALS} [unknown-metal]"),
    ("metal in small letters", LIST, "[Zn, cu]", f"t.yaml:6: {CELL}.metals[2]: expected the symbol of a metal; found `cu`. Did you mean `Cu`? [unknown-metal]"),
    ("metal twice", LIST, "[Zn, Cu, Zn]", f"t.yaml:6: {CELL}.metals: expected each entry once; found `Zn` twice [repeated]"),
    ("metal without brackets", LIST, "Zn", f"t.yaml:6: {CELL}.metals: expected a list; found `Zn`. Put it in square brackets: `[Zn]`. [wrong-type]"),
    ("list in a list", LIST, "[Zn, [Cu]]", f"t.yaml:6: {CELL}.metals[2]: expected a text; found a list [wrong-type]"),
    ("one metal", LIST, "[Zn]", f"t.yaml:5: {CELL}: expected two or more to draw from; found only `Zn`. For a concentration cell write `half cells: same`. [half-cells]"),
    ("metals and couples", LIST, PAIR + "\n    couples: [Zn^2+/Zn]", f"t.yaml:5: {CELL}: expected either `metals` or `couples`; found both. As `metals: [Zn, Cu, Ag]`. [half-cells]"),
    ("unknown couple", LIST, PAIR + "\n    couples: [Zn^2+/Z]", f"t.yaml:7: {CELL}.couples[1]: expected the id of a couple; found `Zn^2+/Z`. Did you mean `Zn^2+/Zn`? [unknown-couple]"),
    ("metal by its name", LIST, "[Zn, Copper]", f"t.yaml:6: {CELL}.metals[2]: expected the symbol of a metal; found `Copper`. Write `Cu`. [unknown-metal]"),
    ("misspelt half-cells", "    metals:", "    metls:", f"t.yaml:6: {CELL}.metls: expected one of the keys `metals`, `couples`, `half cells`, `concentrations`, `pressures`, `temperature`, `swap sides`, `written`, `mass lost`, `mass gained`, `amount dissolved`, `current`, `time`, `bridge salts`, `bridge`, `voltage wanted`, `wrong diagrams`; found `metls`. Did you mean `metals`? [unknown-key]"),
    ("concentration cell without concentrations", LIST, LIST + "\n    half cells: same", f"t.yaml:5: {CELL}: expected two or more concentrations for a concentration cell; found fewer. As `concentrations: {{from: [0.010, 0.10, 1.0]}}`. [half-cells]"),
    ("wrong kind of unit", LIST, PAIR + "\n    concentrations: {from: [0.10, 1.0 V]}", f"t.yaml:7: {CELL}.concentrations: expected a unit of the kind mol/L; found `1.0 V`. Usual: mol/L, mol/dm3, mol/m3, mmol/L, mmol/dm3. [quantity-kind]"),
    ("no unit", LIST, PAIR + "\n    pressures: 2.0", f"t.yaml:7: {CELL}.pressures: expected a unit of the kind bar; found `2.0`. Write the unit: `2.0 bar`. Usual: Pa, hPa, kPa, MPa, bar, mbar. [quantity-kind]"),
    ("not a quantity", LIST, PAIR + "\n    temperature: warm", f"t.yaml:7: {CELL}.temperature: expected a number with a decimal point and a unit, such as 2.50 A; found 'warm' [quantity]"),
    ("concentration below zero", LIST, PAIR + "\n    concentrations: -1 mol/L", f"t.yaml:7: {CELL}.concentrations: expected a value above zero; found `-1 mol/L` [quantity-sign]"),
    ("grid without step", LIST, PAIR + "\n    concentrations: {between: [0.10, 1.0]}", f"t.yaml:7: {CELL}.concentrations: expected either `from` with a list, or `between` and `step`; found another mixture. As `from: [0.50 A, 1.00 A]`. [drawn]"),
    ("grid that does not meet its end", LIST, PAIR + "\n    concentrations: {between: [0.10, 1.0], step: 0.4}", f"t.yaml:7: {CELL}.concentrations: expected a whole number of steps from low to high; found 0.10 to 1.0 by 0.4 [drawn]"),
    ("grid in two units", LIST, PAIR + "\n    temperature: {between: [20 °C, 300 K], step: 1 K}", f"t.yaml:7: {CELL}.temperature: expected `between: [low, high]` and `step` in one unit; found something else. As `between: [0.20 A, 1.00 A]`. [drawn]"),
    ("grid too fine", LIST, PAIR + "\n    concentrations: {between: [0.10, 1.10], step: 0.0001}", f"t.yaml:7: {CELL}.concentrations: expected at most 1000 values; found 0.10 to 1.10 by 0.0001 [drawn]"),
    ("misspelt from", LIST, PAIR + "\n    concentrations: {frm: [0.10]}", f"t.yaml:7: {CELL}.concentrations.frm: expected one of the keys `from`, `between`, `step`, `scatter`; found `frm`. Did you mean `from`? [unknown-key]"),
    ("unknown scenario", "galvanic cell:", "galvanic sell:", f"t.yaml:5: scenario.galvanic sell: expected one of the keys {KINDS}; found `galvanic sell`. Did you mean `galvanic cell`? [unknown-key]"),
    ("scenario as a word", "  galvanic cell:\n    metals: [Zn, Cu, Ag]\n", "  galvanic\n", "t.yaml:4: scenario: expected keys with values; found `galvanic` [wrong-type]"),
    ("two scenarios", "  galvanic cell:", "  bench: {reference: Cu, metals: [Zn, Ag]}\n  galvanic cell:", "t.yaml:4: scenario: expected exactly one kind of scenario, such as `galvanic cell`, `electrolysis` or `bench`; found 2 of them [scenario-kind]"),
    # parts
    ("missing kind of part", FIND, "", f"t.yaml:13: parts[2]: expected exactly one of {ASKED}; found none of them. As `find: E0_cell`. [part-kind]"),
    ("misspelt kind of part", FIND, "    fnd: E0_cell\n", f"t.yaml:13: parts[2]: expected exactly one of {ASKED}; found none of them. Did you mean `find`? [part-kind]"),
    ("two kinds of part", FIND, FIND + "    balance: cell equation\n", f"t.yaml:13: parts[2]: expected exactly one of {ASKED}; found `find` and `balance`. Make it two parts. [part-kind]"),
    ("part as a word", "  - ask: Calculate the standard cell potential.\n    find: E0_cell\n    decimals: 2\n", "  - E0_cell\n", "t.yaml:13: parts[2]: expected keys with values; found `E0_cell` [wrong-type]"),
    ("unknown key of a part", "    decimals: 2", "    decimal: 2", "t.yaml:15: parts[2].decimal: expected one of the keys `ask`, `marks`, `hint`, `find`, `in`, `figures`, `decimals`; found `decimal`. Did you mean `decimals`? [unknown-key]"),
    ("key of another kind", "    decimals: 2", "    by: E0", "t.yaml:15: parts[2].by: expected one of the keys `ask`, `marks`, `hint`, `find`, `in`, `figures`, `decimals`; found `by` [unknown-key]"),
    ("bad name", FIND, "    find: E0 cell\n", "t.yaml:14: parts[2].find: expected a name such as `E0_cell` or `left.metal`; found `E0 cell` [name]"),
    ("figures and decimals", "    decimals: 2", "    decimals: 2\n    figures: 3", "t.yaml:13: parts[2]: expected either `figures` or `decimals`; found both. Keep one. [rounding]"),
    ("no figures", "    decimals: 2", "    figures: 0", "t.yaml:13: parts[2]: expected 1 to 10 figures, or 0 to 10 decimals; found 0 [rounding]"),
    ("half a decimal", "    decimals: 2", "    decimals: 2.5", "t.yaml:15: parts[2].decimals: expected a whole number; found `2.5` [wrong-type]"),
    ("one option", "[left.metal, right.metal]", "[left.metal]", "t.yaml:12: parts[1].from: expected 2 to 200 entries; found 1. Write 2 or more, each by itself, in square brackets. [list-length]"),
    ("drawing of another scenario", "  galvanic cell:\n    metals: [Zn, Cu, Ag]\n", "  bench: {reference: Cu, metals: [Zn, Ag]}\nfigure: galvanic cell\n", "t.yaml:6: figure: expected a figure for this scenario: `number line`, `salt paper`, `none`; found `galvanic cell`. It fits `galvanic cell`, `running cell`, `changed cell`, `reaction quotient`, `cell energy`. [figure]"),
    # prose
    ("unknown filter", "| name }}", "| nam }}", "t.yaml:8: text: expected one of the filters `name`, `symbol`, `number`, `unit`, `capital`; found `nam`. Did you mean `name`? [unknown-filter]"),
    ("number in a question", "Calculate the standard cell potential.", "Is it 1.10 V?", "t.yaml:13: parts[2].ask: expected no number that the data sheet prints; found `1.10 V`, a potential. Write a hole such as `{{ left.E0 }}` or `{{ E_cell }}`. [typed-number]"),
    ("empty text", "Calculate the standard cell potential.", "", "t.yaml:13: parts[2].ask: expected a text; found nothing [wrong-type]"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_one_slip_gives_one_message(old, new, expected):
    """The whole message is compared."""
    assert template_messages(old, new) == [expected]


ELECTROLYSIS = changed(
    "  galvanic cell:\n    metals: [Zn, Cu, Ag]\n", "  electrolysis:\n    metals: [Cu]\n    current: 0.50 A\n    time: 30 min\n"
)
BENCH = changed(
    "  galvanic cell:\n    metals: [Zn, Cu, Ag]\n", "  bench:\n    reference: Cu\n    metals: [Zn, Ag]\n    scatter: 0.02 V\n"
)


@pytest.mark.parametrize(
    ("text", "old", "new", "expected"),
    [
        (ELECTROLYSIS, "    time: 30 min\n", "", "t.yaml:5: scenario.electrolysis: expected two of `current`, `time` and `mass`; found only `current`. The third is what is left to find. [two-of]"),
        (ELECTROLYSIS, "30 min\n", "30 min\n    mass: 1 g\n", "t.yaml:5: scenario.electrolysis: expected two of `current`, `time` and `mass`; found all three. The third is what is left to find. [two-of]"),
        (ELECTROLYSIS, "0.50 A", "0.50 mol", "t.yaml:7: scenario.electrolysis.current: expected a unit of the kind A; found `0.50 mol`. Usual: A, mA, uA, kA. [quantity-kind]"),
        (ELECTROLYSIS, "    time:", "    tme:", "t.yaml:8: scenario.electrolysis.tme: expected one of the keys `metals`, `current`, `time`, `mass`, `efficiency`; found `tme`. Did you mean `time`? [unknown-key]"),
        (BENCH, "[Zn, Ag]", "[Zn, Cu]", "t.yaml:5: scenario.bench: expected test metals other than the reference; found `Cu` in `metals`. Take it out. [bench-reference]"),
        (BENCH, "0.02 V", "0.02 A", "t.yaml:5: scenario.bench: expected `scatter` in V or mV; found `0.02 A`. As `scatter: 0.02 V`. [quantity-kind]"),
    ],
)  # fmt: skip
def test_slips_of_other_scenarios(text, old, new, expected):
    """The whole message is compared."""
    assert messages(lambda: template_of(changed(old, new, text))) == [expected]


def test_faults_of_a_block_text_count_its_own_lines():
    text = changed(
        "text: A {{ left.metal | name }} strip stands in `{{ left.ion }}`.",
        "text: |\n  One.\n\n  Two <b>bold</b>.\n  {{ f(x) }}",
    )

    found = messages(lambda: template_of(text))
    assert [each.rpartition(" ")[2] for each in found] == ["[prose-forbidden]"]
    assert found[0].startswith("t.yaml:12: text: ")
    found = messages(lambda: template_of(text.replace("{{ f(x) }}", "{{ x }} and 1.10 V")))
    assert [each.partition(": ")[0] for each in found] == ["t.yaml:11", "t.yaml:12"]


def test_many_faults_of_one_file_come_in_order_of_lines():
    text = (
        changed("level: core", "level: hard")
        .replace("[Zn, Cu, Ag]", "[Zn, Qq]")
        .replace("decimals: 2", "decimls: 2\n    marks: two")
    )

    assert [each.rpartition(" ")[2] for each in messages(lambda: template_of(text))] == [
        "[unknown-word]",
        "[unknown-metal]",
        "[unknown-key]",
        "[wrong-type]",
    ]
