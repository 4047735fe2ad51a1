"""The usual wrong answers, each worked here by plain arithmetic from the printed answers, and the word that each gets.

The list is what came up when the site was tried as students would: common practice, no source.
"""

from __future__ import annotations

import pytest
from shipped import samples
from snapshot.taking import banks

from saltbridge.answers import judge, merge
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.chemistry.equations import parse_equation
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed

F = 96500.0
"""As the shipped bank's school sheet prints it, in C/mol."""


def told(key, typed, earlier=None):
    """The errors by which an answer is explained."""
    verdict = judge(key, typed, earlier or {})
    return set(verdict.slips) if verdict.verdict == "slip" else {verdict.verdict}


def exact(sample, label):
    return float(sample.key(label)["exact"])


def number(value):
    return f"{value:.4g}"


# template, part that asks, the wrong answer from the answers before it, its word
NUMBERS = [
    ("mass-deposited", "c", lambda each: exact(each, "b"), "faraday-left-out"),
    ("mass-deposited", "c", lambda each: exact(each, "b") * F, "charge-times-faraday"),
    ("mass-deposited", "c", lambda each: exact(each, "c") / each.number("z"), "amount-of-metal-for-electrons"),
    ("mass-deposited", "d", lambda each: exact(each, "d") * each.number("z"), "no-electron-ratio"),
    ("mass-deposited", "d", lambda each: exact(each, "d") * each.number("z") ** 2, "multiply-by-charge-number"),
    ("time-for-a-mass", "b", lambda each: exact(each, "b") * each.number("efficiency"), "efficiency-ignored"),
    ("time-for-a-mass", "b", lambda each: exact(each, "b") * each.number("efficiency") ** 2, "efficiency-upside-down"),
    ("unequal-charges", "d", lambda each: 1 / exact(each, "d"), "quotient-turned-over"),
    ("gibbs-energy", "c", lambda each: F * exact(each, "b") / 1000, "delta-g-neither-n-nor-sign"),
    ("gibbs-energy", "c", lambda each: -F * exact(each, "b") / 1000, "delta-g-without-n"),
    ("gibbs-energy", "c", lambda each: -exact(each, "c"), "delta-g-sign-lost"),
    ("equilibrium-constant", "b", lambda each: -exact(each, "b"), "k-exponent-negative"),
]  # fmt: skip


@pytest.mark.parametrize(("template", "part", "wrong", "word"), NUMBERS, ids=[f"{each[0]} {each[3]}" for each in NUMBERS])
def test_a_usual_wrong_number_has_its_word(template, part, wrong, word):
    """Wherever it differs from the right one it is told; where another error gives the same, that one may be told."""
    found = [told(sample.key(part), number(wrong(sample))) for sample in samples(template)]
    assert any(word in each for each in found)
    assert {each for each in found if "not-yet" in each or "follows" in each} == set()


def test_the_logarithm_given_for_the_constant_has_its_word():
    bank = banks()["concentration"]
    composer = Composer(bank.template("reversal"), bank, catalogue(bank.folder))
    for each in range(1, 7):
        variant = composer.variant(each, practice_seed(each))
        question = composer.question(variant)
        logarithm, constant = (
            merge(part.judge, variant.judge[place], question.graph, variant.given) for place, part in enumerate(question.parts)
        )
        assert told(constant, logarithm["value"]) == {"logarithm-given-for-the-constant"}


def reversed_equation(text):
    return parse_equation(text).reverse().text


def electrons_changed_over(text):
    """The half-equation with its electrons on the other side, written with the pencil."""
    left, right = text.split(" -> ")
    ion, electrons = left.split(" + ")
    return f"{ion} -> {right} + {electrons}"


def without_electrons(text):
    left, right = text.split(" -> ")
    return f"{left.split(' + ')[0]} -> {right}"


def each_once(text):
    """The two half-equations added as they stand, the electrons forgotten: no number before any species."""
    return " -> ".join(" + ".join(term.lstrip("0123456789") for term in side.split(" + ")) for side in text.split(" -> "))


EQUATIONS = [
    ("mass-deposited", "a", reversed_equation, "half-equation-the-other-way-round"),
    ("mass-deposited", "a", electrons_changed_over, "cation-carries-spare-electrons"),
    ("mass-deposited", "a", without_electrons, "atoms-balanced-charge-ignored"),
    ("unequal-charges", "b", reversed_equation, "equation-the-other-way-round"),
    ("unequal-charges", "b", each_once, "electrons-left-unbalanced"),
    ("gibbs-energy", "a", reversed_equation, "equation-the-other-way-round"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("template", "part", "wrong", "word"), EQUATIONS, ids=[f"{template} {word}" for template, _, _, word in EQUATIONS]
)
def test_a_usual_wrong_equation_has_its_word(template, part, wrong, word):
    for sample in samples(template):
        key = sample.key(part)
        assert word in told(key, wrong(key["right"]))
