"""Every relation has a second route, and a planted sign or factor error in it shows against that route."""

from __future__ import annotations

import math
from collections.abc import Iterator

import pytest

from saltbridge.algebra.expression import Bin, Fn, Neg, Num, Tree, evaluate, names
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.check.factors import to_coherent
from saltbridge.check.resolve import resolve
from saltbridge.deliver.proof.independent import agrees

RELATIONS = catalogue().relations
QUANTITIES = catalogue().quantities
USUAL = {
    "T": 330.0,
    "R": 8.314,
    "F": 96485.0,
    "slope": 0.0592,
    "p_gas": 101.3,
    "K": 0.4,
    "pH": 3.5,
    "pOH": 10.5,
    "x_reacted": 0.3,
    "n_first": 1.0,
    "n_second": 2.0,
    "n_chain": 3.0,
    "k_repeats": 5.0,
}


def _values(symbols) -> dict[str, float]:
    """Told values that differ from one another, in the quantities' own units: 0.31, 0.57, 0.83…."""
    found = {symbol: round(0.31 + 0.26 * at, 2) for at, symbol in enumerate(symbols)}
    return found | {symbol: value for symbol, value in USUAL.items() if symbol in symbols}


def _coherent(symbol: str, value: float) -> float:
    return to_coherent(value, QUANTITIES[symbol].unit)


def _trees(relation) -> Iterator[tuple[str, Tree]]:
    """The equation and each of its forms."""
    yield "equation", relation.tree
    yield from ((form.id, form.tree) for form in relation.forms)


CASES = [
    pytest.param(relation, tree, id=f"{name}-{form}") for name, relation in RELATIONS.items() for form, tree in _trees(relation)
]


def _plain(subject: str, told: dict[str, float]) -> float | None:
    return resolve(subject, {symbol: _coherent(symbol, value) for symbol, value in told.items()})


@pytest.mark.parametrize(("relation", "tree"), CASES)
def test_a_relation_and_the_plain_formulas_give_the_same(relation, tree):
    told = _values(names(tree))
    plain = _plain(relation.subject, told)
    assert plain is not None, f"no second route to {relation.subject}"
    assert agrees(relation.subject, _coherent(relation.subject, evaluate(tree, told)), plain)


@pytest.mark.parametrize(("relation", "tree"), CASES)
def test_a_relation_turned_round_has_a_second_route_too(relation, tree):
    """Each name of the equation is asked back from its result and the others."""
    told = _values(names(tree))
    whole = {**told, relation.subject: evaluate(tree, told)}
    for symbol in names(tree):
        if symbol in {"R", "F", "slope"}:
            continue
        plain = _plain(symbol, {name: value for name, value in whole.items() if name != symbol})
        assert plain is not None, f"no second route to {symbol}"
        assert math.isclose(plain, _coherent(symbol, told[symbol]), rel_tol=1e-8), symbol


def _mutants(tree: Tree) -> Iterator[Tree]:
    """The tree with one sign turned, one factor of 2 slipped in, or one operation changed for its opposite, at every place."""
    yield Neg(tree)
    yield Bin("*", Num("2"), tree)
    match tree:
        case Neg(body):
            yield body
            yield from (Neg(each) for each in _mutants(body))
        case Bin(op, left, right):
            yield Bin({"+": "-", "-": "+", "*": "/", "/": "*", "^": "*"}[op], left, right)
            yield from (Bin(op, each, right) for each in _mutants(left))
            yield from (Bin(op, left, each) for each in _mutants(right))
        case Fn(name, args):
            for at, arg in enumerate(args):
                yield from (Fn(name, (*args[:at], each, *args[at + 1 :])) for each in _mutants(arg))
        case _:
            pass


@pytest.mark.parametrize(("relation", "tree"), CASES)
def test_every_planted_error_is_caught(relation, tree):
    told = _values(names(tree))
    plain = _plain(relation.subject, told)
    right = evaluate(tree, told)
    missed = []
    for mutant in _mutants(tree):
        try:
            wrong = evaluate(mutant, told)
        except (ArithmeticError, ValueError):
            continue  # not defined: the draw itself fails
        if math.isclose(wrong, right, rel_tol=1e-12):
            continue  # the same formula in another writing, such as the even power of a turned sign
        if agrees(relation.subject, _coherent(relation.subject, wrong), plain):
            missed.append(mutant)
    assert missed == []


def test_there_are_errors_to_catch():
    """A mutation test that plants nothing would prove nothing."""
    counts = [sum(1 for _ in _mutants(tree)) for relation in RELATIONS.values() for _, tree in _trees(relation)]
    assert min(counts) >= 2
    assert sum(counts) > 800
