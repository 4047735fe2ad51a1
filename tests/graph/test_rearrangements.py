"""Every relation solved for every name: proved by SymPy, at random points, and on the outside cases."""

from __future__ import annotations

import math
import random

import pytest
import sympy
import yaml

from saltbridge.algebra.expression import as_text, evaluate, names, parse, substitute
from saltbridge.algebra.rearrange import solve
from saltbridge.algebra.sympy_bridge import from_sympy, to_sympy
from saltbridge.catalogue.catalogue import Relation, catalogue
from saltbridge.faults import Faulty
from saltbridge.home import shipped

RELATIONS = catalogue().relations
PAIRS = [(relation, symbol) for relation in RELATIONS.values() for symbol in relation.symbols]
IDS = [f"{relation.id}-{symbol}" for relation, symbol in PAIRS]


def _symbols(relation: Relation) -> dict[str, sympy.Symbol]:
    """Names that are positive by their quantity are positive to SymPy, all others real."""
    known = catalogue().quantities
    above_zero = {"positive", "not negative", "fraction"}
    return {name: sympy.Symbol(name, positive=True) if known[name].least in above_zero else sympy.Symbol(name, real=True)
            for name in relation.symbols}  # fmt: skip


@pytest.mark.parametrize(("relation", "unknown"), PAIRS, ids=IDS)
def test_put_back_a_rearrangement_leaves_nothing(relation: Relation, unknown: str):
    symbols = _symbols(relation)
    solved = to_sympy(solve(relation.subject, relation.tree, unknown), symbols)
    equation = symbols[relation.subject] - to_sympy(relation.tree, symbols)
    rest = sympy.simplify(sympy.expand_log(equation.subs(symbols[unknown], solved), force=True))
    assert sympy.simplify(rest) == 0


def _point(relation: Relation, dice: random.Random) -> dict[str, float]:
    values = {name: dice.uniform(0.2, 3.0) for name in names(relation.tree)}
    return {**values, relation.subject: evaluate(relation.tree, values)}


@pytest.mark.parametrize(("relation", "unknown"), PAIRS, ids=IDS)
def test_a_rearrangement_finds_the_number_again(relation: Relation, unknown: str):
    dice = random.Random(f"{relation.id} {unknown}")  # noqa: S311 - test points
    for _ in range(20):
        values = _point(relation, dice)
        found = evaluate(solve(relation.subject, relation.tree, unknown), {k: v for k, v in values.items() if k != unknown})
        assert found == pytest.approx(values[unknown], rel=1e-9, abs=1e-9)


CASES = [
    (relation, place, unknown)
    for relation in RELATIONS.values()
    for place in range(len(relation.cases))
    for unknown in relation.symbols
]


@pytest.mark.parametrize(("relation", "place", "unknown"), CASES, ids=[f"{r.id}-{p}-{u}" for r, p, u in CASES])
def test_outside_cases_hold_in_every_rearrangement(relation: Relation, place: int, unknown: str):
    """A printed number may be off in its last figure; what that may do to another name is told by the slope there."""
    values = dict(relation.cases[place].values)
    solved = solve(relation.subject, relation.tree, unknown)
    others = {name: value for name, value in values.items() if name != unknown}
    try:
        found = evaluate(solved, others)
    except ArithmeticError:
        assert 0 in values.values()  # a case at zero tells nothing of a factor
        return
    slack = 1e-3 * abs(values[unknown]) + 1e-9
    for name, value in others.items():
        nudged = evaluate(solved, {**others, name: value * (1 + 2e-5)})
        slack += abs(nudged - found) * 50  # a thousandth of each other name
    assert abs(found - values[unknown]) <= slack


def test_every_relation_has_two_cases_with_their_source():
    for relation in RELATIONS.values():
        assert len(relation.cases) >= 2
        assert len({tuple(case.values.items()) for case in relation.cases}) == len(relation.cases)
        assert all(len(case.source) > 15 for case in relation.cases), relation.id


def test_no_relation_of_the_main_file_leans_on_its_own_arithmetic():
    main = yaml.safe_load((shipped("data") / "relations.yaml").read_text(encoding="utf-8"))
    for name in main:
        assert not any("arithmetic" in case.source for case in RELATIONS[name].cases), (
            f"{name} wants cases from a book or an engine"
        )


FORMS = [(relation, form) for relation in RELATIONS.values() for form in relation.forms]


@pytest.mark.parametrize(("relation", "form"), FORMS, ids=[f"{r.id}-{f.id}" for r, f in FORMS])
def test_a_form_is_the_equation_with_its_constant_put_in(relation: Relation, form):
    assert form.subject == relation.subject
    assert form.at == {"T": 298.15}
    assert form.within
    symbols = {**_symbols(relation), **{name: sympy.Symbol(name, positive=True) for name in form.constant}}
    shown = to_sympy(substitute(form.tree, form.constant), symbols)
    pinned = {symbols[name]: sympy.Rational(str(value)) for name, value in form.at.items()}
    difference = (shown - to_sympy(relation.tree, symbols)).subs(pinned)
    assert sympy.simplify(sympy.expand_log(difference, force=True)) == 0


def test_the_slope_printed_on_a_sheet_is_the_constant_of_the_forms():
    values = {"R": 8.31446261815324, "F": 96485.33212331001, "T": 298.15}  # exact by the SI of 2019, CODATA 2022
    for relation, form in FORMS:
        assert set(form.constant) == {"slope"}, relation.id
        assert evaluate(form.constant["slope"], values) == pytest.approx(
            0.05915934968, rel=1e-9
        )  # as chempy 0.10.2 has it, case of RT/F


@pytest.mark.parametrize(
    ("equation", "unknown", "read"),
    [
        ("q = I*t", "t", "q/I"),
        ("E0_cell = E0_cathode - E0_anode", "E0_anode", "E0_cathode - E0_cell"),
        ("E0_cell = E0_cathode - E0_anode", "E0_cathode", "E0_cell + E0_anode"),
        ("n_B = n_e/z", "z", "n_e/n_B"),
        ("dG = -n*F*E_cell", "E_cell", "-dG/(n*F)"),
        ("E_cell = E0_cell - slope/n*lg(Q)", "Q", "exp10((E0_cell - E_cell)*n/slope)"),
        ("pH = -lg(c)", "c", "exp10(-pH)"),
        ("v = sqrt(2*a)", "a", "v**2/2"),
        ("a = x^3", "x", "a**(1/3)"),
    ],
)
def test_operations_are_undone_one_at_a_time_as_on_the_board(equation: str, unknown: str, read: str):
    subject, _, right = equation.partition(" = ")
    assert as_text(solve(subject, parse(right), unknown)) == read


def test_an_unknown_that_stands_twice_is_solved_by_sympy():
    solved = solve("y", parse("(x + a)/(x + b)"), "x")
    values = {"a": 1.5, "b": 4.0}
    y = evaluate(parse("(x + a)/(x + b)"), {**values, "x": 2.5})
    assert evaluate(solved, {**values, "y": y}) == pytest.approx(2.5)


@pytest.mark.parametrize(
    ("equation", "unknown", "message"),
    [
        ("q = I*t", "m", "expected an equation that holds m; found q = I*t [rearrange]"),
        ("y = abs(x)", "x", "expected an equation that can be undone step by step; found abs(x) [rearrange]"),
        ("y = a**x", "x", "expected no unknown in an exponent; found a power with the unknown above [rearrange]"),
        ("y = x + exp(x)*ln(x)", "x", "expected an equation that can be solved for x; found y = x + exp(x)*ln(x) [rearrange]"),
    ],
)
def test_what_can_not_be_solved_is_a_fault(equation: str, unknown: str, message: str):
    subject, _, right = equation.partition("=")
    with pytest.raises(Faulty) as raised:
        solve(subject.strip(), parse(right), unknown)
    assert str(raised.value) == message


@pytest.mark.parametrize("text", ["x + y - 2", "-x*y/3", "exp(x) - ln(y)", "x**2/(y + 1)", "3/7*x"])
def test_sympy_and_back_keeps_the_value(text: str):
    tree = parse(text)
    again = from_sympy(to_sympy(tree))
    values = {"x": 1.3, "y": 0.7}
    assert evaluate(again, values) == pytest.approx(evaluate(tree, values)), as_text(again)
    assert math.isfinite(evaluate(again, values))
