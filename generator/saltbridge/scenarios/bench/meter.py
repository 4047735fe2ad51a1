"""Meters: loading, uncertainty of a reading and of a difference, repeats with one far off, comparison with the accepted value."""

from __future__ import annotations

from collections.abc import Sequence

from saltbridge.algebra.expression import Bin, Ref, Tree
from saltbridge.chemistry.inscriptions import in_english
from saltbridge.graph.laws import Given, Instance, Rule, Say, Situation

SUM = "Add up all repeats."
SUM_HINT = "What is the sum of all repeats?"
MOST_REPEATS = 12


def repeats(texts: Sequence[str], say: Say = in_english) -> Situation:
    """Repeated readings in V as printed."""
    situation = Situation(say=say)
    add_repeats(situation, texts)
    situation.shape = (f"{len(texts)} repeats",)
    return situation


def add_repeats(situation: Situation, texts: Sequence[str]) -> None:
    """The repeats ``x1``, ``x2``…, which of them lies far off, and mean and half range of the rest."""
    keys = tuple(f"x{place}" for place in range(1, len(texts) + 1))
    nodes = tuple(f"{key}.U_measured" for key in keys)
    for node, text in zip(nodes, texts, strict=True):
        situation.given[node] = Given(float(text), "V", text)
    situation.given["k_repeats"] = Given(float(len(texts)), "", str(len(texts)), "balance")
    total: Tree = Ref(nodes[0])
    for node in nodes[1:]:
        total = Bin("+", total, Ref(node))
    situation.laws += [
        Rule("outlier", "repeat-far-off", nodes, keys=keys),
        Rule("U_outlier", "pick", ("outlier", *nodes), keys=keys),
        Instance("sum", "U_sum", total, SUM, hint=SUM_HINT),
        Rule("U_highest", "highest of the others", ("outlier", *nodes), keys=keys),
        Rule("U_lowest", "lowest of the others", ("outlier", *nodes), keys=keys),
    ]
