"""What a program can end in: the reading of its tree against runs of it, and the rules of the shipped data."""

from __future__ import annotations

import pytest

from saltbridge.algebra.possible_words import possible_words
from saltbridge.algebra.programs import ByName, compiled


@pytest.mark.parametrize(
    ("tree", "words"),
    [
        (["text", "left"], ("left",)),
        (["none", "no reason"], ()),
        (["if", ["<", "a", 1], ["text", "small"], ["text", "great"]], ("small", "great")),
        (["if", ["<", "a", 1], ["text", "small"], "b"], None),
        (["pick", "side", {"left": ["text", "one"], "right": ["highest", {"x": "a", "y": 2}]}], ("one", "x", "y")),
        (["pick", "side", {"left": "a", "right": "b"}], None),
        (["at", "a", [["text", "none"], ["text", "some"], ["text", "none"]]], ("none", "some")),
        (["nth", 0, {"x": "a", "y": "b"}], ("x", "y")),
        (["only", {"x": ["<", "a", 1]}, "why"], ("x",)),
        (["+", "a", 1], None),
        ("a", None),
        (2, None),
    ],
)
def test_the_words_of_a_tree(tree, words):
    assert possible_words(tree) == words


def test_every_word_is_reached_by_a_run():
    tree = ["at", "a", [["text", "none"], ["if", ["==", "b", 1], ["text", "one"], ["text", "several"]]]]
    run = compiled(tree, ByName())
    assert {run({"a": a, "b": b}) for a in (0, 1) for b in (1, 2)} == set(possible_words(tree))
