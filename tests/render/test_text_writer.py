"""The terminal writer against text that was read through by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from paper_specimen import (
    DIAGRAM,
    E_CATHODE,
    EQUATION,
    MINUS,
    SILVER_ION,
    SULFATE_ION,
    galvanic_question,
    galvanic_variant,
    inscription,
    nernst_steps,
    potential_steps,
    specimen_paper,
    up,
    volts,
)

from saltbridge import document as doc
from saltbridge.document import Call, Fenced, Fraction, Power, Root, Row, Sign, Slot, Symbol, Text
from saltbridge.render.text import blocks_text, math_text, question_text, spans_text, working_text

A, B, C = (Symbol(letter, letter) for letter in "abc")
PLUS, TIMES, OVER = Sign("+", "plus"), Sign("×", "times"), Sign("/", "over")
SUM = Row((A, PLUS, B))


@pytest.mark.parametrize(
    ("item", "shown"),
    [
        (SULFATE_ION, "SO₄²⁻"),
        (DIAGRAM, "Zn(s) | Zn²⁺(aq) ¦¦ Ag⁺(aq) | Ag(s)"),
        (EQUATION, "2 Ag⁺ + Zn → 2 Ag + Zn²⁺"),
        (inscription("number", "", "1.5 × 10", up("−3")), "1.5 × 10⁻³"),
        (inscription("unit", "", "mol", up("½")), "mol^½"),
        (inscription("unit", "", "x", up("a;b")), "x^(a;b)"),
    ],
)
def test_levels_use_unicode_where_a_whole_run_has_it(item, shown):
    assert spans_text((item,)) == shown


@pytest.mark.parametrize(
    ("node", "shown"),
    [
        (Fraction(A, B), "a/b"),
        (Fraction(SUM, C), "(a + b)/c"),
        (Fraction(A, SUM), "a/(a + b)"),
        (Fraction(Row((A, B)), C), "a b/c"),
        (Fraction(A, Row((B, TIMES, C))), "a/(b × c)"),
        (Fraction(Fraction(A, B), C), "a/b/c"),
        (Fraction(A, Fraction(B, C)), "a/(b/c)"),
        (Row((Fraction(A, B), C)), "(a/b) c"),
        (Row((C, MINUS, Fraction(A, B))), "c − a/b"),
        (Row((C, OVER, Fraction(A, B))), "c / (a/b)"),
        (Row((MINUS, A)), "−a"),
        (Power(SUM, inscription("number", "", "2")), "(a + b)²"),
        (Power(A, inscription("number", "", "−1")), "a⁻¹"),
        (Call("lg", "log", A), "lg a"),
        (Call("lg", "log", Fraction(A, B)), "lg(a/b)"),
        (Call("lg", "log", Fenced(A)), "lg(a)"),
        (Call("lg", "log", Fraction(Fenced(A), Fenced(B))), "lg((a)/(b))"),
        (Row((Symbol("E", "E", "°"), inscription("species", "", "(Zn/Zn", up("2+"), ")"))), "E°(Zn/Zn²⁺)"),
        (Row((Symbol("n", "n"), inscription("number", "", "2"))), "n 2"),
        (Row((A, inscription("unit", "", "\u202fV"))), "a V"),
        (Row((Sign("|", "size of"), A, Sign("|", ""))), "|a|"),
        (Root(SUM), "√(a + b)"),
        (Symbol("E", "E", "°", "cell"), "E°(cell)"),
        (Symbol("E", "E", "", "1"), "E₁"),
        (Symbol("c", "c", "", SILVER_ION), "c(Ag⁺)"),
        (Fraction(volts("1.2", ""), B), "1.2 V/b"),
        (Fraction(A, volts("1.2", "")), "a/(1.2 V)"),
    ],
)
def test_formulas_have_brackets_only_where_needed(node, shown):
    assert math_text(node).replace("\u202f", " ") == shown


def test_slots_are_filled_in_text_and_formulas():
    slots = ((volts("−0.76", ""),), (Text("silver"),))
    assert spans_text((Text("the "), Slot(1), Text(" strip")), slots) == "the silver strip"
    assert math_text(Row((E_CATHODE, MINUS, Fenced(Slot(0)))), slots) == "E°(cathode) − (−0.76\u202fV)"


def test_control_characters_never_reach_the_terminal():
    assert spans_text((Text("a\x1b[31mred\x07"),)) == "a\ufffd[31mred\ufffd"


POTENTIAL = """\
1. The cathode is the half-cell with the higher potential.
     silver                                              [1]
2. Read its potential from the data sheet.
     E°(cathode) = +0.80 V
3. Read the anode’s potential.
       E°(anode) = −0.76 V
4. The cell potential is the cathode’s minus the anode’s.
        E°(cell) = E°(cathode) − E°(anode)               [1]
                 = +0.80 V − (−0.76 V)                   [1]
5. Work it out.
        E°(cell) = +1.56 V                               [1]"""

NERNST = """\
1. Write the reaction quotient.
           Q = c(Zn²⁺)/c(Ag⁺)²                           [1]
2. Use the Nernst equation at 25 °C.
     E(cell) = E°(cell) − (0.0592 V/n) lg Q              [1]
             = +1.56 V − (0.0592 V/2) lg(0.10/(0.010)²)  [1]
3. Work it out.
     E(cell) = +1.47 V                                   [1]"""


@pytest.mark.parametrize(("steps", "golden"), [(potential_steps(), POTENTIAL), (nernst_steps(), NERNST)])
def test_a_working_reads_as_in_a_book(steps, golden):
    assert working_text(steps, galvanic_variant().slots, width=60).replace("\u202f", " ") == golden


def test_long_sentences_wrap_under_their_start_and_marks_stay_in_the_width():
    shown = working_text(potential_steps(), galvanic_variant().slots, width=34).split("\n")
    assert shown[:3] == ["1. The cathode is the half-cell", "   with the higher potential.", "     silver                    [1]"]


def test_a_wrong_line_is_marked():
    steps = (doc.Step((Text("Add."),), ((Text("1 + 1 = 3"),),), {}, marked_wrong=True),)
    assert working_text(steps).endswith("1 + 1 = 3  ✗")


def test_a_table_keeps_its_columns():
    _, ranking, _ = specimen_paper().questions
    grid = next(block for block in ranking[0].blocks if isinstance(block, doc.Grid))
    assert blocks_text((grid,)).split("\n")[1:4] == ["Metal   E\u2009/\u2009V", "──────  ─────", "zinc    −1.09"]


def test_a_question_is_printed_with_its_drawing_in_words_and_its_parts():
    shown = question_text(galvanic_question(), galvanic_variant(), width=200)
    order = [
        "Cell potential of two metals [7]",
        "joined to a silver strip",
        "[A zinc electrode and",
        "(a) Which",
        "→ A: the zinc",
        "(b)",
        "(c)",
    ]
    places = [shown.index(words) for words in order]
    assert places == sorted(places)


def test_a_part_of_several_blocks_is_indented_under_its_label_without_spaces_at_line_ends():
    part = galvanic_question().parts[0]
    longer = replace(part, body=(*part.body, doc.Paragraph((Text("Look closely."),))))
    question = replace(galvanic_question(), parts=(longer,))
    assert "(a) Which electrode is the anode?\n\n    Look closely.  [1]" in question_text(question, galvanic_variant())


def test_workings_can_be_left_out():
    shown = question_text(galvanic_question(), galvanic_variant(), workings=False)
    assert "+1.56" not in shown
    assert "(c) Calculate" in shown
