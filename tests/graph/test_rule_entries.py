"""Rules with their sentences, hints and common errors: what a scenario names stands in the data, and what is wrong there is told."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty
from saltbridge.scenarios.figures.figure_entries import figures

SCENARIOS = Path(__file__).resolve().parents[2] / "generator" / "saltbridge" / "scenarios"
SILENT = {
    "pick", "other", "same", "untold", "highest of the others", "lowest of the others", "oxidising-itself", "reducing-itself",
}  # fmt: skip
"""Rules that a scenario uses without a line of their own in a working: they only hand on what is known already."""


def _texts_of_scenarios() -> set[str]:
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in SCENARIOS.parent.rglob("*.py")]
    nodes = (node for tree in trees for node in ast.walk(tree))
    in_code = {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    of_figures = {use.rule for each in figures().values() for use in (*each.asked, *each.follows)}
    return in_code | of_figures | {use.rule for kind in catalogue().scenarios.values() for use in kind.rules}


def _uses() -> Iterator[ast.Call]:
    for path in SCENARIOS.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Rule":
                yield node


def test_a_rule_that_a_scenario_names_has_a_sentence_and_a_hint_or_is_silent():
    """The hint is a question of its own and never the sentence; names that a use picks from a variable are in the next test."""
    rules = catalogue().rules
    named = {use.args[1].value for use in _uses() if isinstance(use.args[1], ast.Constant)}
    assert named - rules.keys() == set()
    assert {name for name in named if not rules[name].hint} <= SILENT
    assert [name for name, rule in rules.items() if rule.say and rule.hint in {"", rule.say}] == []


def test_every_rule_that_is_said_is_named_by_a_scenario_or_a_figure():
    said = {name for name, rule in catalogue().rules.items() if rule.say or rule.wrong}
    assert said - _texts_of_scenarios() - {name for name, rule in catalogue().rules.items() if rule.gives} == set()


def test_no_use_of_a_rule_holds_a_sentence():
    """The sentence stands in the data: node, rule and inputs are all that a use tells by place."""
    assert {len(use.args) for use in _uses()} == {3}


RULE = """mine:
  like: lowest
  say: The lower one is meant.
  hint: Which is the lower one?
  wrong:
    - takes: other
      shows: the-higher-one
      hint: Is that the higher one?
      source: made up for this test
"""
# written instead of what, and the fault
FAULTY = [
    ("  hint: Which is the lower one?\n", "", "rules.yaml:3: mine.say: expected say and hint together; found say alone. Add a question that leads to it. [bad-shape]"),
    ("  say: The lower one is meant.\n", "", "rules.yaml:3: mine.hint: expected say and hint together; found hint alone. Add its sentence. [bad-shape]"),
    ("hint: Which is the lower one?", "hint: The lower one is meant.", "rules.yaml:4: mine.hint: expected a question; found ' lower one is meant.' [sentence]"),
    ("hint: Which is the lower one?", "hint: 'Is it {anode.couple}?'", "rules.yaml:4: mine.hint: expected plain words, without holes; found a curly bracket [sentence]"),
    ("takes: other", "takes: othr", "rules.yaml:6: mine.wrong[1].takes: expected a wrong way of this rule; found othr. Did you mean other? [unknown-way]"),
    ("takes: other", "take: other", "rules.yaml:6: mine.wrong[1].take: expected a key of this kind of entry; found take. Did you mean takes? [unknown-key]"),
    ("takes: other", "key: left\n      says: none", "rules.yaml:6: mine.wrong[1]: expected one of takes, key and says; found key and says [bad-shape]"),
    ("      shows: the-higher-one\n", "", "rules.yaml:6: mine.wrong[1]: expected the key shows; found none [missing-key]"),
    ("shows: the-higher-one", "shows: The higher one", "rules.yaml:7: mine.wrong[1].shows: expected small letters, digits and hyphens, such as `anode-always-plus`; found The higher one [identifier]"),
    ("      source: made up for this test\n", "", "rules.yaml:6: mine.wrong[1]: expected hint and source together, or neither where both stand elsewhere; found hint alone [bad-shape]"),
    ("shows: the-higher-one", "shows: anode-gains-mass", "rules.yaml:7: mine.wrong[1].shows: expected an error told in one place; found anode-gains-mass twice. Leave its hint and source out here, or give it another id. [repeated]"),
    ("      shows: the-higher-one\n      hint: Is that the higher one?\n      source: made up for this test\n", "      shows: anode-gain-mass\n", "rules.yaml:7: mine.wrong[1].shows: expected the id of a common error; found anode-gain-mass. Did you mean anode-gains-mass? [unknown-slip]"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "told"), FAULTY)
def test_what_is_wrong_with_a_rule_is_told_at_its_line(tmp_path: Path, old: str, new: str, told: str):
    assert RULE.count(old) == 1
    (tmp_path / "rules.yaml").write_text(RULE.replace(old, new), encoding="utf-8")
    with pytest.raises(Faulty) as error:
        catalogue(tmp_path)
    assert told in [str(each) for each in error.value.faults]


def test_a_common_error_at_a_rule_is_refused_among_the_slips(tmp_path: Path):
    """It stands with its rule; the fault says where to write it."""
    slip = 'mine:\n  at: "rule: lowest"\n  hint: Is it so?\n  source: made up for this test\n'
    (tmp_path / "slips.yaml").write_text(slip, encoding="utf-8")
    with pytest.raises(Faulty) as error:
        catalogue(tmp_path)
    assert [each.hint for each in error.value.faults] == ["Write it under `wrong` of that rule in rules.yaml."]


USE = """mine:
  gives: steadier
  name: the metal that is meant
  like: lowest
  inputs: [left.E0, right.E0]
  keys: [left, right]
  say: The lower one is meant.
  hint: Which is the lower one?
  wrong:
    - key: left
      shows: left-is-meant
      hint: Is it always the left one?
      source: made up for this test
"""
FAULTY_USE = [
    ("  gives: steadier\n", "", "rules.yaml:4: mine.inputs: expected gives beside it, the name of what follows; found none [bad-shape]"),
    ("gives: steadier", "gives: the steadier", "rules.yaml:2: mine.gives: expected a name of letters, digits and _; found the steadier [name]"),
    ("gives: steadier", "gives: E0_cell", "rules.yaml:3: mine.name: expected a name that no quantity has; found E0_cell [repeated]"),
    ("  name: the metal that is meant\n", "", "rules.yaml:2: mine: expected the key name; found none. Say in a few words what is asked, such as `what carries the charge in the wire`. [missing-key]"),
    ("[left.E0, right.E0]", "[left.E0, right.EO]", "rules.yaml:5: mine.inputs: expected a name of quantities.yaml; found right.EO. Add it to quantities.yaml. [unknown-quantity]"),
    ("[left.E0, right.E0]", "[left.E0]", "rules.yaml:5: mine.inputs: expected a number, [text, WORD] or one of input 1, key 1, last input, last key, its key, its input, its first input, its other side, one, other, one of the last, other of the last; found its input [bad-use]"),
    ("[left.E0, right.E0]", "[steadier, right.E0]", "rules.yaml:5: mine.inputs: expected inputs other than steadier itself; found steadier [cycle]"),
    ("key: left", "key: lft", "rules.yaml:10: mine.wrong: expected one of the keys of this rule; found lft. Did you mean left? [unknown-key-of-use]"),
    ("  say: The lower one is meant.\n  hint: Which is the lower one?\n", "", "rules.yaml:2: mine: expected the keys say and hint; found none [missing-key]"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "told"), FAULTY_USE)
def test_what_is_wrong_with_a_rule_that_joins_by_itself_is_told_at_its_line(tmp_path: Path, old: str, new: str, told: str):
    assert USE.count(old) == 1
    (tmp_path / "rules.yaml").write_text(USE.replace(old, new), encoding="utf-8")
    with pytest.raises(Faulty) as error:
        catalogue(tmp_path)
    assert told in [str(each) for each in error.value.faults]


def test_no_rule_is_its_own_answer():
    """Every rule gives another thing for other inputs: none has a word or a key for its whole tree."""
    own = [name for name, each in catalogue().rules.items() if isinstance(each.tree, str) and "input" not in each.tree]
    assert own == []
    assert [name for name, each in catalogue().rules.items() if each.tree[0] == "text"] == []
