"""What is printed is read back as it was: species, diagrams and expressions, right and wrong; and mean input is bounded."""

from __future__ import annotations

import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.answers.typed_diagrams import TypedDiagram, compare, read_diagram, same
from saltbridge.answers.typed_expressions import TypedExpression, read_expression
from saltbridge.answers.typed_expressions import compare as compare_expressions
from saltbridge.answers.typed_expressions import same as same_expression
from saltbridge.answers.typed_species import TypedSpecies, Unreadable, read_answer
from saltbridge.chemistry.cells import Amount, GalvanicCell, half_cell
from saltbridge.chemistry.equations import Equation, Term
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.quotients import QUOTIENT_RESHAPES, parse_quotient, quotient_of
from saltbridge.chemistry.species import parse_species
from saltbridge.chemistry.written_diagrams import DIAGRAM_RESHAPES, parse_written, written_diagram
from saltbridge.faults import Faulty
from saltbridge.tables.sheets import sheet

ROWS = list({row.couple: row for name in ("school", "college") for row in sheet(name).rows}.values())
AMOUNTS = st.sampled_from(["0.10", "0.050", "1.0", "2.0e-3"])


@st.composite
def cells(draw):
    """Two half-cells of the sheets, some with amounts."""
    halves = []
    for row in (draw(st.sampled_from(ROWS)), draw(st.sampled_from(ROWS))):
        told = draw(st.booleans())
        species = {each.bare: each.phase for each in parse_half_reaction(row.half_reaction).species if each.phase in {"aq", "g"}}
        amounts = {}
        for name, phase in species.items() if told else ():
            text = draw(AMOUNTS)
            unit = "bar" if phase == "g" else "mol/L"
            amounts[name] = Amount(text, float(text), unit, printed_unit="bar" if phase == "g" else "")
        halves.append(half_cell(row, {name: amount for name, amount in amounts.items() if name != "H2O"}))
    return GalvanicCell(*halves)


@settings(deadline=None, max_examples=200)
@given(cells())
def test_every_printed_diagram_is_read_back_right_and_wrong(cell):
    counted = written_diagram(cell, counted=True)
    assert parse_written(counted.text) == counted
    right = read_diagram(written_diagram(cell).text)
    assert isinstance(right, TypedDiagram)
    assert compare(right, right, states=True, amounts=False).verdict == "right"
    for name, reshape in DIAGRAM_RESHAPES.items():
        wrong = reshape(counted)
        assert parse_written(wrong.text) == wrong, name
        typed = read_diagram(wrong.text)
        assert isinstance(typed, TypedDiagram), (name, wrong.text)
        assert same(typed, read_diagram(wrong.text)), name


TERMS = [
    parse_species(text)
    for text in ("Zn^2+(aq)", "Ag^+(aq)", "Ag(s)", "H2(g)", "Cl2(g)", "H^+(aq)", "H2O(l)", "MnO4^-(aq)", "[Ag(NH3)2]^+(aq)", "I2(s)", "Hg2^2+(aq)", "e-")
]  # fmt: skip


@st.composite
def equations(draw):
    chosen = draw(st.lists(st.sampled_from(TERMS), min_size=2, max_size=6, unique=True))
    cut = draw(st.integers(1, len(chosen) - 1))
    counts = [draw(st.integers(1, 12)) for _ in chosen]
    terms = [Term(count, species) for count, species in zip(counts, chosen, strict=True)]
    return Equation(tuple(terms[:cut]), tuple(terms[cut:]))


@settings(deadline=None, max_examples=200)
@given(equations())
def test_every_printed_expression_is_read_back_right_and_wrong(equation):
    for name, write in {"right": quotient_of, **QUOTIENT_RESHAPES}.items():
        written = write(equation)
        if written is None:
            continue
        assert parse_quotient(written.text).text == written.text, name
        typed = read_expression(written.text)
        if written.text == "1":
            continue
        assert isinstance(typed, TypedExpression), (name, written.text, typed)
        assert same_expression(typed, read_expression(written.text))
        if name == "right":
            assert compare_expressions(typed, typed).verdict == "right"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.couple)
def test_every_species_of_the_sheets_is_read_back(row):
    for species in parse_half_reaction(row.half_reaction).species:
        for text in (species.text, species.bare):
            read = read_answer(text)
            assert isinstance(read, TypedSpecies), text
            assert read.species.contents == species.contents


MEAN = st.text(alphabet=string.printable + "‖¦²⁺°·×→§\u202f", max_size=60) | st.builds(
    lambda piece, times: piece * times, st.sampled_from(["(", "[", "|", "||", ",", "Zn|", "[Zn2+]", "^9", "9", "/", "(1)", "p("]), st.integers(1, 300)
)  # fmt: skip


@settings(deadline=1000, max_examples=400)
@given(MEAN)
def test_nothing_typed_raises_or_hangs(text):
    for read in (read_answer, read_diagram, read_expression):
        found = read(text)
        assert found is not None
        if isinstance(found, Unreadable):
            assert found.why
            assert all(len(each) <= 40 for each in found.readings)


@pytest.mark.parametrize("text", ["Zn || Cu || Ag", "Zn | $ || Cu", "x" * 401])
def test_what_is_no_written_diagram_is_refused(text):
    with pytest.raises(Faulty):
        parse_written(text)


def test_what_is_no_written_expression_is_refused():
    with pytest.raises(Faulty, match="expression-unread"):
        parse_quotient("Zn/Cu")
