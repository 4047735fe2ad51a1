"""Worked examples of open textbooks, by the derivation and by the plain formulas; each example names its source.

Both routes have to give the printed value, or the printed value with the rounding that the book made, which is named. A
misprint is kept, and neither route may give it.
"""

from __future__ import annotations

import pytest
from checks.outside import as_printed, cases, plain_values

from saltbridge.api import work
from saltbridge.check.chemistry import imbalance, sides
from saltbridge.check.factors import from_coherent
from saltbridge.check.resolve import resolve

EXAMPLES = cases("worked_examples.yaml", "examples")
KIND = "kind"
BOOK_ROUNDING = "book-rounding"


def _of(*kinds, agreement=None):
    chosen = [e for e in EXAMPLES if e.get(KIND, "number") in kinds and agreement in {None, e["agreement"]}]
    return pytest.mark.parametrize("example", chosen, ids=[e["id"] for e in chosen])


def _by_derivation(example, know=None):
    call = example["work"]
    diagram = call.get("diagram") if know is None else None
    return work(diagram, call["given"] if know is None else know, call["find"], call.get("in"), sheet="college")


def _by_formula(example, know=None):
    call = example["work"]
    told = example.get("plain", call) if know is None else {"given": know}
    values = plain_values(told.get("given", []), told.get("equation"), told.get("activities"))
    # A value that is asked and ready, such as Q from the equation, is the answer.
    found = values.get(call["find"]) or resolve(call["find"], values)
    assert found is not None, "no plain formula"
    return from_coherent(found, call.get("in", ""))


def _matches(example, value, text):
    return as_printed(value, text, example.get("figures"))


@_of("number", agreement="agrees")
def test_the_plain_formula_gives_what_the_book_prints(example):
    assert _matches(example, _by_formula(example), example["published"])


@_of("number", agreement="agrees")
def test_the_derivation_gives_what_the_book_prints(example):
    assert _matches(example, _by_derivation(example)["value"], example["published"])


@_of("number", agreement=BOOK_ROUNDING)
def test_the_plain_formula_needs_the_rounding_of_the_book(example):
    assert not _matches(example, _by_formula(example), example["published"])
    assert _matches(example, _by_formula(example, example["book"]["given"]), example["published"])


@_of("number", agreement=BOOK_ROUNDING)
def test_the_derivation_gives_the_book_with_its_rounding(example):
    assert _matches(example, _by_derivation(example, example["book"]["given"])["value"], example["published"])


@_of("number", agreement="misprint")
def test_the_plain_formula_does_not_repeat_a_misprint(example):
    value = _by_formula(example)
    assert not _matches(example, value, example["published"])
    assert as_printed(value, example["corrected"])


@_of("number", agreement="misprint")
def test_the_derivation_does_not_repeat_a_misprint(example):
    value = _by_derivation(example)["value"]
    assert not _matches(example, value, example["published"])
    assert as_printed(value, example["corrected"])


@_of("spontaneous")
def test_both_routes_say_as_the_book_does_whether_a_cell_runs_by_itself(example):
    runs = example["published"] == "yes"
    assert (_by_formula(example) < 0) is runs
    assert (_by_derivation(example)["value"] < 0) is runs


@_of("equation")
def test_the_derivation_balances_as_the_book_does(example):
    assert imbalance(example["published"]) == {}
    assert _bare(_by_derivation(example)["equation"]) == _bare(example["published"])


def _bare(equation):
    """Both sides of an equation as sets of (coefficient, formula) without states."""
    return [{(times, formula.split("(s)")[0].split("(aq)")[0]) for times, formula in side} for side in sides(equation)]


@_of("number", "spontaneous")
def test_the_derivation_and_the_plain_formula_agree_closely(example):
    """Data sheets print R, F and RT ln 10/F shorter: 0.0592 V is 0.07 % high, which K, being an exponential, enlarges."""
    close = 0.12 if example["work"]["find"] == "K" else 1e-3
    assert _by_derivation(example)["value"] == pytest.approx(_by_formula(example), rel=close, abs=1e-12)


def test_every_example_names_a_known_source_and_has_a_name_of_its_own():
    books = {source[:5] for source in ("os2e ", "os1e ")}
    assert {example["source"][:5] for example in EXAMPLES} <= books
    assert len({example["id"] for example in EXAMPLES}) == len(EXAMPLES)
    assert {e["agreement"] for e in EXAMPLES} == {"agrees", BOOK_ROUNDING, "misprint"}
