"""Rules as macros: what each gives for values worked out by hand, and how a macro that can't be read is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from saltbridge.algebra.programs import NoValue, compiled
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.macros import MacroError, expand
from saltbridge.faults import Faulty

AB, ABC, YES = ("a", "b"), ("a", "b", "c"), ("yes", "no")
SIDES = ("a.oxidised", "b.oxidised", "c.oxidised")
# rule, way, values of the inputs, keys → what it gives
BY_HAND = [
    ("lowest", "", (0.34, -0.76), AB, "b"),
    ("lowest", "lowest magnitude", (0.34, -0.76), AB, "a"),
    ("highest", "", (0.34, -0.76, 0.80), ABC, "c"),
    ("highest", "other side", (0.34, -0.76, 0.80), SIDES, "c.reduced"),
    ("highest", "place in print", (0.34, -0.76, 0.80), ABC, "a"),
    ("lowest", "place in print", (0.34, -0.76, 0.80), ABC, "c"),
    ("other", "", ("a",), AB, "b"),
    ("same", "", ("a", 1.0), AB, "a"),
    ("pick", "", ("b", 1.0, 2.0), AB, 2.0),
    ("alone", "", ("yes", "no"), AB, "a"),
    ("under a film", "", ("no", "yes", -1.66, -0.45), AB, "b"),
    ("under a film", "highest", ("no", "yes", -1.66, -0.45), AB, "b"),
    ("then", "", ("1 step", "2 steps"), (), "2 steps"),
    ("rising", "", (0.34, -0.76, 0.80), ABC, "b<a<c"),
    ("rising", "other", (0.34, -0.76, 0.80), ABC, "c<a<b"),
    ("rising", "rising magnitude", (0.34, -0.76, 0.80), ABC, "a<b<c"),
    ("those-below", "", (-2.37, 0.34, -0.76, -0.45), ABC, "a+c"),
    ("those-below", "other", (-2.37, 0.34, -0.76, -0.45), ABC, "b"),
    ("those-below", "magnitude", (-2.37, 0.34, -0.76, -0.45), ABC, "b"),
    ("those-below", "", (0.34, 0.80, -0.45), AB, "none"),
    ("those-above", "", (-2.37, 0.34, -0.76, -0.45), ABC, "b"),
    ("those-above", "magnitude", (-0.14, 0.34, -0.76, -0.45), ABC, "c"),
    ("above", "", (0.34, -0.76), YES, "yes"),
    ("below", "", (0.34, -0.76), YES, "no"),
    ("by sign", "", (-0.10,), YES, "no"),
    ("by sign", "sign of the first alone", (-0.10, 0.34), YES, "yes"),
    ("sign", "", (0.0,), ("positive", "zero", "negative"), "zero"),
    ("sign", "", (-3.0,), ("positive", "zero", "negative"), "negative"),
    ("sign-of-a-value", "", (0.42,), ("positive", "zero", "negative"), "positive"),
    ("size-of-a-value", "", (0.42,), (), 99.0),
    ("size-of-a-value", "", (-212.0,), (), -102.0),
    ("alike", "", ("a", "b"), ("agree", "swap"), "swap"),
    ("both", "", ("yes", "no"), YES, "no"),
    ("both", "either", ("yes", "no"), YES, "yes"),
    ("lcm", "", (2.0, 3.0, 4.0), (), 12.0),
    ("round up", "", (4.2,), (), 5.0),
    ("round up", "", (4.0000000001,), (), 4.0),
    ("round up", "round down", (4.2,), (), 4.0),
    ("widest gap", "", (0.34, -0.76, 0.80), ("a b", "a c", "b c"), "b c"),
    ("widest gap", "gap of sizes", (0.34, -0.90, 0.80), ("a b", "a c", "b c"), "a b"),
    ("narrowest gap", "", (0.34, -0.76, 0.80), ("a b", "a c", "b c"), "a c"),
    ("inverted", "", (0.1, 0.2, 0.3, 1.1, 1.3, 1.2), ("a b", "a c", "b c"), "b c"),
    ("between", "", (0.0, 1.0, -0.5, 0.5, 1.5), ABC, "b"),
    ("between", "highest", (0.0, 1.0, -0.5, 0.5, 1.5), ABC, "c"),
    ("nearest", "", (1.0, 0.5, 1.2, 2.0), ABC, "b"),
    ("steepest", "", (0.1, 0.2, 0.9, 1.0), ABC, "b"),
    ("farthest", "", (1.0, 1.1, 1.9), ABC, "c"),
    ("highest of the others", "", ("c", 1.0, 1.1, 1.9), ABC, 1.1),
    ("lowest of the others", "", ("a", 1.0, 1.1, 1.9), ABC, 1.1),
    ("against", "", (1.0, 0.0, 0.0), ("rises", "falls", "stays"), "falls"),
    ("against", "with the size", (1.0, 0.0, -1.0), ("rises", "falls", "stays"), "falls"),
    ("by limits", "", (2.5, 2.0, 0.1), ("anion", "oxygen"), "anion"),
    ("by limits", "", (0.05, 2.0, 0.1), ("anion", "oxygen"), "oxygen"),
    ("pH", "", ("hydrogen", "anion"), ("rises", "falls", "stays"), "rises"),
    ("pH", "", ("cation", "oxygen"), ("rises", "falls", "stays"), "falls"),
    ("pH", "", ("hydrogen", "oxygen"), ("rises", "falls", "stays"), "stays"),
    ("ions left", "", ("cation",), ("fewer", "as many"), "fewer"),
    ("extent", "", (17.0,), ("products", "both", "reactants"), "products"),
    ("extent", "", (-0.3,), ("products", "both", "reactants"), "both"),
    ("extent", "", (-17.0,), ("products", "both", "reactants"), "reactants"),
    ("figures", "", (0.02, 3.0), ("none", "one", "two", "three"), "one"),
    ("figures", "figures as told", (0.02, 3.0), ("none", "one", "two", "three"), "three"),
    ("by numbers", "", (-3.0, 1.0), ("oxidation", "reduction", "neither"), "reduction"),
    ("by numbers", "by oxygen", (-3.0, 1.0), ("oxidation", "reduction", "neither"), "oxidation"),
    ("unchanged", "", (2.0, 0.0, 1.0, 0.0, 1.0, 1.0), ABC, "b"),
    ("unchanged", "by oxygen", (2.0, 0.0, 1.0, 0.0, 1.0, 1.0), ABC, "a"),
    ("kind of reaction", "", (1.0, 2.0), ("disproportionation", "redox", "neither"), "disproportionation"),
    ("kind of reaction", "", (0.0, 0.0), ("disproportionation", "redox", "neither"), "neither"),
    ("partner", "", (2.0,), YES, "yes"),
    ("charge fits", "", (2.0, 0.0, -1.0), ABC, "b"),
    ("charge fits", "charge twice off", (2.0, 0.0, -1.0), ABC, "a"),
    ("carrier-at-a-letter", "", ("metal",), (), "electrons"),
    ("carrier-at-a-letter", "", ("solution",), (), "ions"),
    ("carrier-at-a-letter", "", ("bridge",), (), "ions"),
    ("carrier-at-a-letter", "electrons all round", ("bridge",), (), "electrons"),
    ("carrier-at-a-letter", "ions all round", ("metal",), (), "ions"),
    ("part-at-a-letter", "", ("left", "left"), (), "the anode"),
    ("part-at-a-letter", "", ("right", "left"), (), "the cathode"),
    ("part-at-a-letter", "", ("wire", "left"), (), "the wire"),
    ("part-at-a-letter", "", ("bridge", "right"), (), "the salt bridge"),
    ("part-at-a-letter", "", ("left solution", "left"), (), "a solution"),
    ("part-in-a-bath", "", ("left", "left"), (), "the anode"),
    ("part-in-a-bath", "", ("right", "left"), (), "the cathode"),
    ("part-in-a-bath", "", ("wire", "left"), (), "the wire"),
    ("part-in-a-bath", "", ("solution", "left"), (), "the bath"),
    ("part-in-a-bath", "changed over", ("left", "left"), (), "the cathode"),
]
# rule, values, keys, why there is no value
NO_VALUE = [
    ("lowest", (0.34, 0.34 + 1e-12), AB, "the values are equal, so neither can be chosen"),
    ("above", (0.34, 0.34), YES, "the values are equal, so neither can be chosen"),
    ("by sign", (0.0,), YES, "the cell potential is zero, so nothing is oxidised or reduced"),
    ("by limits", (0.5, 2.0, 0.1), ("anion", "oxygen"), "0.5 mol/L lies between 0.1 and 2 mol/L, where both form"),
    ("nearest", (1.0, 0.5, 1.5), AB, "two lie equally near, so neither can be chosen"),
    ("steepest", (0.0, 1.0, 2.0), AB, "two steps are equally steep"),
    ("between", (0.0, 1.0, 0.4, 0.5), AB, "none of them fits, or more than one"),
    ("rising", (0.1, 0.1), AB, "the values are equal, so neither can be chosen"),
    ("untold", (), ("only their mean can be told",), "only their mean can be told"),
]


def worked(rule: str, way: str, values: tuple[object, ...], keys: tuple[str, ...]) -> object:
    names = tuple(f"x{place}" for place in range(len(values)))
    entry = catalogue().rules[rule]
    tree = entry.way(way, names, keys) if way else entry.program(names, keys)
    return compiled(tree, {name: place for place, name in enumerate(names)})(list(values))


@pytest.mark.parametrize(("rule", "way", "values", "keys", "expected"), BY_HAND)
def test_a_rule_gives_what_is_worked_out_by_hand(rule, way, values, keys, expected):
    assert worked(rule, way, values, keys) == expected


def test_every_rule_has_a_case_by_hand():
    told = {rule for rule, *_ in BY_HAND} | {rule for rule, *_ in NO_VALUE}
    assert {name for name, rule in catalogue().rules.items() if rule.macro == name} - told == set()


@pytest.mark.parametrize(("rule", "values", "keys", "why"), NO_VALUE)
def test_a_rule_says_why_it_has_no_value(rule, values, keys, why):
    with pytest.raises(NoValue) as found:
        worked(rule, "", values, keys)
    assert str(found.value) == why


FAULTY = [
    ("[lowst, {each key: its input}]", "lowst", "an operation: "),
    ("[lowest, {each kee: its input}]", "each kee", "each key, each pair, key 1 or last key before the colon"),
    ("[lowest, {each key: its imput}]", "its imput", "a number, [text, WORD] or one of input 1, key 1"),
    ('["-", input 1]', "1", "2 term(s) after -"),
    ("[order, upward, {each key: its input}]", "upward", "one of rising, falling"),
    ("[at, input 1, all keys]", "all keys", "every key, or a list of trees"),
    ("[max, {each other: its input}]", "it elsewhere", "each other inside each key"),
    ("{each key: its input}", "a mapping", "an operation: "),
]


@pytest.mark.parametrize(("tree", "found", "expected"), FAULTY)
def test_a_wrong_word_in_a_macro_is_told_at_its_line(tmp_path: Path, tree: str, found: str, expected: str):
    (tmp_path / "rules.yaml").write_text(f"mine:\n  tree: {tree}\n", encoding="utf-8")
    with pytest.raises(Faulty) as error:
        catalogue(tmp_path)
    (fault,) = error.value.faults
    assert (fault.file, fault.line, fault.key, fault.found) == ("rules.yaml", 2, "mine.tree", found)
    assert fault.expected.startswith(expected)


def test_a_use_with_too_few_keys_is_told():
    with pytest.raises(MacroError) as found:
        expand(["pick", "input 1", {"key 1": "key 2"}], ("x",), ("a",))
    assert (found.value.expected, found.value.found) == ("as many keys as key 2 needs", "1")
