"""Formulas as MathML Core: what was learnt about browsers, kept as rules."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import page_specimen as made
import pytest

from saltbridge.document import (
    Call,
    Fenced,
    Fraction,
    Inscription,
    MathLine,
    Maths,
    Piece,
    Power,
    Root,
    Row,
    Sign,
    Slot,
    Symbol,
    Text,
)
from saltbridge.render.mathml import formula, inscription, is_wide, left_class, line, maths, span_maths

# MathML Core (W3C), section 2: how many children these elements take.
CHILDREN = {"mfrac": 2, "msup": 2, "msub": 2, "msubsup": 3, "munder": 2, "mroot": 2}
TOKENS = {"mi", "mn", "mo", "mtext"}

NODES = [
    made.E_CELL,
    Symbol("Q", "reaction quotient"),
    Symbol("e", "electron", italic=False),
    Symbol("M", "molar mass", "", made.ion("Zn", "2+")),
    Fraction(Row((Symbol("R", "gas constant"), Symbol("T", "temperature"))), Slot(0)),
    Power(made.base("10"), made.base("−3")),
    Power(Slot(1), Slot(2)),
    Call("ln", "natural logarithm of", Fenced(Fraction(made.POWER_OF_TEN, made.SULFATE))),
    Root(Row((made.base("2"), Sign("×", "times"), Slot(3)))),
    made.base("1.10\u202fV", "quantity"),
    Inscription("species", (Piece("sup", "3"), Piece("base", "He")), "helium three"),
]


@pytest.mark.parametrize("node", NODES, ids=lambda node: type(node).__name__)
def test_every_element_has_the_children_that_core_asks_for(node):
    tree = ET.fromstring(f"<math>{maths(node)}</math>")  # noqa: S314 - our own text
    for element in tree.iter():
        if element.tag in CHILDREN:
            assert len(element) == CHILDREN[element.tag]
        if element.tag in TOKENS:
            assert len(element) == 0
            assert element.text


@pytest.mark.parametrize("node", NODES, ids=lambda node: type(node).__name__)
def test_no_token_begins_or_ends_with_a_blank_that_would_collapse(node):
    tree = ET.fromstring(f"<math>{maths(node)}</math>")  # noqa: S314 - our own text
    assert [
        element.text for element in tree.iter() if element.tag in TOKENS and element.text != (element.text or "").strip(" ")
    ] == []


def test_a_charge_is_one_number_token():
    assert inscription(made.ion("Zn", "2+")) == '<msup><mi mathvariant="normal">Zn</mi><mn>2+</mn></msup>'


def test_a_charge_stands_after_the_subscript_as_in_print():
    wanted = '<msup><msub><mi mathvariant="normal">SO</mi><mn>4</mn></msub><mn>2−</mn></msup>'
    assert inscription(made.SULFATE) == wanted


def test_the_standard_mark_stands_on_the_line_before_the_subscript():
    base = '<mrow><mi>E</mi><mo lspace="0" rspace="0">°</mo></mrow>'
    assert maths(made.E_CELL) == f"<msub>{base}<mrow><mtext>cell</mtext></mrow></msub>"


def test_a_space_is_set_before_a_unit():
    assert inscription(made.base("1.10\u202fV", "quantity")) == '<mn>1.10</mn><mspace width="0.17em"></mspace><mtext>V</mtext>'
    assert inscription(made.base("\u202fV", "unit")) == '<mspace width="0.17em"></mspace><mi mathvariant="normal">V</mi>'


def test_a_power_of_ten_raises_only_the_ten():
    assert inscription(made.POWER_OF_TEN) == "<mn>1.5</mn><mo>×</mo><msup><mn>10</mn><mn>−3</mn></msup>"


def test_a_symbol_that_is_not_italic_says_so():
    assert maths(Symbol("e", "electron", italic=False)) == '<mi mathvariant="normal">e</mi>'


def test_the_quantity_slants_and_what_is_done_with_it_stands_upright():
    """IUPAC Green Book, 3rd edition, 1.3 and 1.6: symbols of quantities slant, operators and mathematical functions do not."""
    space = '<mspace width="0.17em"></mspace>'
    assert maths(Symbol("lg K", "log K")) == f"<mrow><mi>lg</mi>{space}<mi>K</mi></mrow>"
    assert maths(Symbol("ΔG", "delta G")) == '<mrow><mi mathvariant="normal">Δ</mi><mi>G</mi></mrow>'
    assert maths(Symbol("n(e⁻)", "n of electrons")) == "<mrow><mi>n</mi><mi>(e⁻)</mi></mrow>"
    upright_d = '<mi mathvariant="normal">d</mi>'
    stroke = '<mi mathvariant="normal">/</mi>'
    assert maths(Symbol("dE/dT", "d E by d T")) == f"<mrow>{upright_d}<mi>E</mi>{stroke}{upright_d}<mi>T</mi></mrow>"


def test_what_goes_on_after_a_further_equals_sign_is_a_row_of_its_own():
    hours, minutes = made.base("40\u202fmin", "quantity"), made.base("2400\u202fs", "quantity")
    chain = MathLine(
        Symbol("t", "t"), "=", Row((hours, Sign("=", "equals"), minutes)), ("t equals 40 minutes equals 2400 seconds",)
    )
    rows = ET.fromstring(line(chain, "left")).findall("mtable/mtr")  # noqa: S314 - our own text
    assert ["".join(row.itertext()) for row in rows] == ["t=40min", "=2400s"]


def test_words_for_a_formula_hold_the_variants_own_words():
    written = formula(Maths(Slot(4), ('"E" equals ', 4)))
    assert written == '<math alttext="&quot;E&quot; equals \ue0024\ue001">\ue0034\ue001</math>'


def test_a_variants_plain_text_can_stand_in_a_formula():
    assert span_maths(Text("a < b")) == "<mtext>a\u00a0&lt;\u00a0b</mtext>"


def test_a_line_that_goes_on_leaves_its_left_side_empty():
    written = line(MathLine(None, "=", made.base("2"), ("equals two",)), "left left-4")
    assert '<mtd class="left left-4"></mtd><mtd class="right"><mrow><mo>=</mo><mn>2</mn></mrow></mtd>' in written


def test_one_width_holds_all_left_sides_of_a_working():
    short = MathLine(Symbol("Q", "charge"), "=", made.base("1"), ())
    assert left_class((short,)) == "left left-2"
    assert left_class((short, MathLine(made.E_CELL, "=", made.base("1"), ()))) == "left left-3"


def test_only_a_line_wider_than_a_phone_can_be_scrolled():
    term = Row((made.E_CATHODE, made.MINUS, made.E_ANODE))
    assert not is_wide(MathLine(made.E_CELL, "=", term, ()))
    assert is_wide(MathLine(made.E_CELL, "=", Row((term, term, term, term)), ()))
