"""Cases that are written wrong: each slip gives one whole message at its line, with what to write instead."""

from __future__ import annotations

import pytest
from bank_samples import template_of

from saltbridge.bank.bank import Bank, load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.draw.drawer import Drawer
from saltbridge.faults import Faulty

HEAD = """\
title: A fault
outcome: T9.1
level: core
text: The meter shows {{ case.seen }}.
parts:
  - ask: What is the cause?
"""
OWN = f"""{HEAD}\
    cases:
      - case: It never changes.
        with: {{seen: 0.00 V}}
        right: A clip is loose.
        why: The way round is open.
        wrong:
          The cell is dead.: negative-reading-means-dead-cell
          The paper is wet.: What does wet paper do?
      - case: It is always negative.
        with: {{seen: a minus sign}}
        right: The leads are swapped.
        why: The meter compares red with black.
        wrong: {{The cell is dead.: negative-reading-means-dead-cell}}
"""
COMMON = f"""{HEAD.replace("{{ case.seen }}", "nothing")}\
    from: {{loose: A clip is loose., dead: The cell is dead.}}
    shows: {{dead: negative-reading-means-dead-cell}}
    cases:
      - case: It never changes.
        right: loose
        why: The way round is open.
      - case: It is all used up.
        right: dead
        why: There is nothing left that reacts.
"""


def faults_of(text: str, bank: Bank) -> list[str]:
    """What is told of a template, as it is read or else as it is drawn."""
    try:
        template = template_of(text)
        Drawer(template, bank, catalogue()).draw("practice 1")
    except Faulty as trouble:
        return [str(each) for each in trouble.faults]
    return []


@pytest.fixture(scope="module")
def bank(tmp_path_factory) -> Bank:
    """An empty bank."""
    folder = tmp_path_factory.mktemp("bank")
    (folder / "bank.yaml").write_text("format: 1\nid: harbour\ntitle: Harbour bank\n", "utf-8")
    return load_bank(folder)


@pytest.mark.parametrize("text", [OWN, COMMON])
def test_the_samples_themselves_are_right(bank, text):
    assert faults_of(text, bank) == []


READ = [
    ("belief without a full stop", OWN, "What does wet paper do?", "wet-paper conducts", "t.yaml:14: parts[1].cases[1].wrong.The paper is wet.: expected an id, or a sentence of at most 200 characters with its full stop; found `wet-paper conducts`. Write the id of an idea or common error, or a sentence of your own that says what to look at. [sentence]"),
    ("belief with a hole", OWN, "What does wet paper do?", "'See {{ x }}.'", "t.yaml:14: parts[1].cases[1].wrong.The paper is wet.: expected plain words, without holes and marks; found `See {{ x }}.`. It is said as it stands, whatever is drawn. [sentence]"),
    ("unknown belief", OWN, "        wrong: {The cell is dead.: negative-reading-means-dead-cell}", "        wrong: {The cell is dead.: negative-reading-means-ded-cell}", "t.yaml:19: parts[1].cases[2].wrong.The cell is dead.: expected the id of an idea or common error, or a sentence; found `negative-reading-means-ded-cell`. Did you mean `negative-reading-means-dead-cell`? [unknown-idea]"),
    ("no wrong option", OWN, "        wrong: {The cell is dead.: negative-reading-means-dead-cell}\n", "", "t.yaml:15: parts[1].cases[2]: expected wrong options under `wrong`; found none. Or give the part options that are common to all cases, as `from: [a clip is loose, the leads are swapped]`. [no-options]"),
    ("right among the wrong", OWN, "          The paper is wet.:", "          A clip is loose.:", "t.yaml:12: parts[1].cases[1].wrong: expected other options than the right one; found `A clip is loose.`. An option is right or wrong in one case. [repeated]"),
    ("a value that another case tells", OWN, "        with: {seen: a minus sign}\n", "", "t.yaml:15: parts[1].cases[2]: expected a value for `case.seen`, which a text prints; found none. Add `with: {seen: …}`. [not-told]"),
    ("a value that no case tells", OWN, "It never changes.", "'It shows {{ case.sen }}.'", "t.yaml:8: parts[1].cases[1]: expected a value that the case tells under `with`; found `case.sen`. It has `seen`. [unknown-name]"),
    ("a value that is no species", OWN, "a minus sign", "'`Zx^2+`'", "t.yaml:16: parts[1].cases[2].with: expected"),
    ("a list in a case", OWN, "It never changes.", "|\n          - one\n          - two", "t.yaml:8: parts[1].cases[1].case: expected one paragraph, without lists and tables; found 1 of them or another kind. A text of several paragraphs goes under `text`. [one-paragraph]"),
    ("no why", OWN, "        why: The way round is open.\n", "", "t.yaml:8: parts[1].cases[1].why: expected the key `why`; found no such key [missing-key]"),
    ("the same case twice", OWN, "It is always negative.", "It never changes.", "t.yaml:6: parts[1]: expected each case once; found `It never changes.` twice [repeated]"),
    ("more than there are", OWN, "    cases:\n", "    draw: 3\n    cases:\n", "t.yaml:6: parts[1]: expected at most 2 cases to draw, as many as there are; found `draw: 3` [too-many]"),
    ("one case", COMMON, "      - case: It is all used up.\n        right: dead\n        why: There is nothing left that reacts.\n", "", "t.yaml:9: parts[1].cases: expected 2 to 200 entries; found 1. Write 2 or more, each by itself, in square brackets. [list-length]"),
    ("right is no option", COMMON, "right: loose", "right: lose", "t.yaml:11: parts[1].cases[1].right: expected one of the options under `from`, word for word; found `lose`. Did you mean `loose`? [no-right-option]"),
    ("shown of no option", COMMON, "shows: {dead:", "shows: {deaf:", "t.yaml:8: parts[1].shows: expected one of the options under `from`, word for word; found `deaf`. Did you mean `dead`? [no-right-option]"),
    ("shows without options", OWN, "    cases:\n", "    shows: {x: y-z}\n    cases:\n", "t.yaml:6: parts[1]: expected `from` with options that are common to all cases, beside `shows`; found no `from`. Or tell them under `wrong` in each case. [no-options]"),
    ("a part that needs a scenario", COMMON, "  - ask: What is", "  - ask: How much?\n    find: E0_cell\n  - ask: What is", "t.yaml:5: scenario: expected the key `scenario`; found no such key. It names the kind of situation, as `galvanic cell:` with its `metals:` beneath. [missing-key]"),
    ("a name without a scenario", COMMON, "It never changes.", "'{{ anode.metal }} lies there.'", "t.yaml:10: parts[1].cases[1].case: expected a name of this scenario; found `anode.metal`. There is no scenario here that has names; `saltbridge names` lists the kinds of scenario. [unknown-name]"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "old", "new", "expected"), [each[1:] for each in READ], ids=[each[0] for each in READ])
def test_one_slip_gives_one_message(bank, text, old, new, expected):
    """The whole message is compared, but where the reader of species tells more."""
    assert old in text
    (found,) = faults_of(text.replace(old, new, 1), bank)
    assert found == expected or (expected.endswith("expected") and found.startswith(expected))


HOSTILE = [
    "{{ 7*7 }}",
    "{% for x in y %}",
    "<script>alert(1)</script>",
    "`" * 400,
    "x" * 100_000,
    "\u202e",
    "&#60;b>",
    "[a](javascript:alert(1))",
    "{{ case.__class__ }}",
]


@pytest.mark.parametrize(
    "key",
    ["It never changes.", "A clip is loose.", "The way round is open.", "0.00 V", "What does wet paper do?", "The paper is wet."],
)
@pytest.mark.parametrize("mean", HOSTILE)
def test_mean_texts_are_told_or_printed_as_words(bank, key, mean):
    """Nothing raises but a fault, and what is let through stands in the page as words."""
    found = faults_of(OWN.replace(key, repr(mean).replace('"', "'") if "'" not in mean else f'"{mean}"', 1), bank)
    assert found or mean in {
        "\u202e",
        "&#60;b>",
        "<script>alert(1)</script>",
        "`" * 400,
        "{{ 7*7 }}",
        "{% for x in y %}",
        "[a](javascript:alert(1))",
        "{{ case.__class__ }}",
    }
