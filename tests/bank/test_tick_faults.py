"""Ticks, reasons and steps that are written wrong: each slip gives one whole message at its line, with what to write instead."""

from __future__ import annotations

import pytest
from bank_samples import BANK, template_of

from saltbridge.bank.bank import Bank, load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.faults import Faulty

HEAD = "title: A cell\noutcome: T8.3\nlevel: core\n"
WORDS = f"""{HEAD}text: Nails stand in tubes.
parts:
  - ask: What does a nail need?
    tick: [water, oxygen]
    leave:
      salt: Is there salt in rain?
      light: size-sets-voltage
"""
THINGS = f"""{HEAD}scenario:
  metals beside a structure: {{structure: Fe, metals beside: [Mg, Zn, Cu, Ag]}}
text: Blocks lie beside a pipe.
parts:
  - ask: Which protect it?
    tick: helpers
    where: E0 < structure.E0
"""
REASON = f"""{HEAD}text: Two metals touch.
parts:
  - ask: Which corrodes?
    choose: the first
    from: [the first, the second]
    reason:
      right: It lies lower.
      wrong: {{It lies higher.: nobler-partner-corrodes}}
"""
STEPS = f"""{HEAD}text: A cell is built.
parts:
  - ask: In which order?
    steps:
      - Fill the beakers.
      - [Hang in the zinc., Hang in the copper.]
      - Close the switch.: Is the way round there yet?
"""


def faults_of(text: str, bank: Bank) -> list[str]:
    """What is told of a template as it is read, drawn and composed."""
    try:
        Composer(template_of(text), bank, catalogue()).variant(1, "practice 1")
    except Faulty as trouble:
        return [str(each) for each in trouble.faults]
    return []


@pytest.fixture(scope="module")
def bank(tmp_path_factory) -> Bank:
    """An empty bank."""
    folder = tmp_path_factory.mktemp("bank")
    (folder / "bank.yaml").write_text(BANK, "utf-8")
    return load_bank(folder)


@pytest.mark.parametrize("text", [WORDS, THINGS, REASON, STEPS])
def test_the_samples_themselves_are_right(bank, text):
    assert faults_of(text, bank) == []


LISTS = '`saltbridge names "metals beside a structure"` lists them all.'
ONE = [
    ("nothing to leave", WORDS, "    leave:\n      salt: Is there salt in rain?\n      light: size-sets-voltage\n", "", "t.yaml:6: parts[1]: expected wrong options under `leave`; found none. Or add `where: E0 < structure.E0`, if the scenario tells which are right. [no-options]"),
    ("right and wrong", WORDS, "      salt:", "      water:", "t.yaml:6: parts[1]: expected each option once; found `water` twice [repeated]"),
    ("more than there are", WORDS, "    tick:", "    draw: 5\n    tick:", "t.yaml:6: parts[1]: expected 2 to 4 options to show; found `draw: 5` [draw]"),
    ("unknown belief", WORDS, "size-sets-voltage", "size-sets-voltages", "t.yaml:10: parts[1].leave.light: expected the id of an idea or common error, or a sentence; found `size-sets-voltages`. Did you mean `size-sets-voltage`? [unknown-idea]"),
    ("words beside a condition", THINGS, "tick: helpers", "tick: [the first metal]", "t.yaml:8: parts[1]: expected a list of the scenario or its things, such as `metals`, beside `where`; found `the first metal` [name]"),
    ("leave beside a condition", THINGS, "    where:", "    leave:\n      gold: Is it there?\n    where:", "t.yaml:8: parts[1]: expected `where` without `leave`: the scenario tells which things there are; found both `where` and `leave` [tick]"),
    ("two comparisons", THINGS, "E0 < structure.E0", "E0 < structure.E0 and E0 > E0_cell", "t.yaml:8: parts[1]: expected one quantity of the things, < or >, and one of the scenario; found another condition. As `where: E0 < structure.E0`. [where]"),
    ("a number in the condition", THINGS, "E0 < structure.E0", "E0 < 0 V", "t.yaml:8: parts[1]: expected one quantity of the things, < or >, and one of the scenario; found another condition. As `where: E0 < structure.E0`. [where]"),
    ("no condition", THINGS, "    where: E0 < structure.E0\n", "", "t.yaml:8: parts[1]: expected wrong options under `leave`; found none. Or add `where: E0 < structure.E0`, if the scenario tells which are right. [no-options]"),
    ("unknown list", THINGS, "tick: helpers", "tick: helper", f"t.yaml:9: parts[1].tick: expected a list or things of this scenario; found `helper`. Did you mean `helpers`? {LISTS} [unknown-name]"),
    ("unknown quantity", THINGS, "E0 < structure.E0", "E0 < structure.E", f"t.yaml:10: parts[1].where: expected quantities of this scenario; found `structure.E`. Did you mean `structure.E0`? {LISTS} [unknown-name]"),
    ("one reason twice", REASON, "{It lies higher.:", "{It lies lower.:", "t.yaml:9: parts[1].reason: expected each reason once; found `It lies lower.` twice [repeated]"),
    ("no wrong reason", REASON, "      wrong: {It lies higher.: nobler-partner-corrodes}\n", "", "t.yaml:9: parts[1].reason.wrong: expected the key `wrong`; found no such key [missing-key]"),
    ("unknown belief of a reason", REASON, "nobler-partner-corrodes", "nobler-partner-corrode", "t.yaml:11: parts[1].reason.wrong.It lies higher.: expected the id of an idea or common error, or a sentence; found `nobler-partner-corrode`. Did you mean `nobler-partner-corrodes`? [unknown-idea]"),
    ("unknown key of a reason", REASON, "      right:", "      wright:", "t.yaml:10: parts[1].reason.wright: expected one of the keys `ask`, `right`, `wrong`; found `wright`. Did you mean `right`? [unknown-key]"),
    ("too few steps", STEPS, "      - [Hang in the zinc., Hang in the copper.]\n", "", "t.yaml:7: parts[1].steps: expected 3 to 12 steps in two or more stages; found 2 in 2. Steps that may change places stand in square brackets; some of the others must have a place of their own. [list-length]"),
    ("steps in one stage", STEPS, "      - Fill the beakers.\n      - [Hang in the zinc., Hang in the copper.]\n      - Close the switch.: Is the way round there yet?\n", "      - [Fill the beakers., Hang in the zinc., Close the switch.]\n", "t.yaml:7: parts[1].steps: expected 3 to 12 steps in two or more stages; found 3 in 1. Steps that may change places stand in square brackets; some of the others must have a place of their own. [list-length]"),
    ("one step twice", STEPS, "Fill the beakers.", "Hang in the zinc.", "t.yaml:7: parts[1].steps: expected each step once; found `Hang in the zinc.` twice [repeated]"),
    ("two steps in one entry", STEPS, "      - Close the switch.: Is the way round there yet?", "      - Close the switch.: Is it there?\n        Open it.: Is it closed?", "t.yaml:7: parts[1].steps: expected one step an entry; found 2 keys. Put a hyphen before each step. [wrong-type]"),
    ("steps as one text", STEPS, "    steps:\n      - Fill the beakers.\n      - [Hang in the zinc., Hang in the copper.]\n      - Close the switch.: Is the way round there yet?\n", "    steps: first this, then that\n", "t.yaml:7: parts[1].steps: expected steps in a list, in the order in which they are done; found `first this, then that` [wrong-type]"),
    ("too few to show", STEPS, "    steps:", "    draw: 2\n    steps:", "t.yaml:6: parts[1]: expected 3 to 4 steps to show; found `draw: 2` [draw]"),
    ("a hint that is no sentence", STEPS, "Is the way round there yet?", "way round", "t.yaml:10: parts[1].steps[3].Close the switch.: expected an id, or a sentence of at most 200 characters with its full stop; found `way round`. Write the id of an idea or common error, or a sentence of your own that says what to look at. [sentence]"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "old", "new", "expected"), [each[1:] for each in ONE], ids=[each[0] for each in ONE])
def test_one_slip_gives_one_message(bank, text, old, new, expected):
    """The whole message is compared."""
    assert old in text
    assert faults_of(text.replace(old, new, 1), bank) == [expected]


def test_a_draw_in_which_nothing_fits_is_turned_down_unless_none_is_an_option(bank):
    noble = THINGS.replace("[Mg, Zn, Cu, Ag]", "[Cu, Ag, Sn, Ni]").replace("where: E0", "or none: no\n    where: E0")
    (found,) = faults_of(noble, bank)
    assert "none of the things fits" in found
    assert "rejects-almost-every-draw" in found
    assert faults_of(noble.replace("or none: no", "or none: yes"), bank) == []


def test_two_parts_that_tell_one_value_are_told_apart(bank):
    case = "      - case: {text}\n        with: {{{{seen: {text}}}}}\n        right: a\n        why: So it is.\n"
    part = "  - ask: {ask}\n    from: [a, b]\n    cases:\n" + case.format(text="One.") + case.format(text="Two.")
    text = f"{HEAD}text: It shows {{{{ case.seen }}}}.\nparts:\n{part.format(ask='What?')}{part.format(ask='Why?')}"
    assert faults_of(text, bank) == [
        "t.yaml:19: parts[2].cases: expected a name that part 1 does not tell; found `seen`. Call one of the two otherwise. [repeated]"
    ]


MEAN = ["<script>alert(1)</script>", "{{ 7*7 }}", "{{ a.__class__ }}", "{% for x in y %}", "`" * 400, "x" * 100_000, "[a](javascript:alert(1))", "\u202eabc"]  # fmt: skip


@pytest.mark.parametrize("mean", MEAN)
@pytest.mark.parametrize(
    ("text", "place"),
    [
        (WORDS, "water"),
        (WORDS, "salt"),
        (REASON, "It lies lower."),
        (REASON, "It lies higher."),
        (STEPS, "Fill the beakers."),
        (STEPS, "Hang in the zinc."),
        (STEPS, "Close the switch."),
    ],
)
def test_mean_texts_are_told_or_printed_as_words(bank, text, place, mean):
    """A fault with its line, or words; nothing else is raised and nothing is run."""
    for each in faults_of(text.replace(place, f'"{mean}"', 1), bank):
        assert each.startswith("t.yaml:"), each
