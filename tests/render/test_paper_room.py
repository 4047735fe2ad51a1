"""Room on paper: estimates near to what is set, labels that keep their distance, names as pieces of text."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from paper_specimen import galvanic_question, galvanic_variant, nernst_steps, specimen_paper

from saltbridge.document import Emphasis, Figure, Inscription, Link, Paragraph, Piece, Strong, Text
from saltbridge.records import Settings
from saltbridge.render.memo_parts import MemoEncoder
from saltbridge.render.paper_data import Encoder, clean, drawing_size
from saltbridge.render.paper_parts import QuestionEncoder
from saltbridge.render.paper_room import PITCH, Measure, characters, storeys
from saltbridge.render.sheet_data import spread
from saltbridge.words import catalogue

MEASURE = Measure.of(Settings())


def _no_drawing(figure: Figure) -> str:
    raise AssertionError(figure)


def _strip(figure: Figure) -> str:
    return '<svg width="200pt" height="100pt">'


def _question(question, variant, number=2, **settings):
    return QuestionEncoder(Settings(**settings), catalogue(), _strip).question(number, question, variant)


def _memo(question, variant):
    return MemoEncoder(Settings(), catalogue(), _strip).question(1, question, variant)


def test_a_fraction_counts_as_two_storeys_and_its_wider_half():
    quotient = Encoder(None, _no_drawing).maths(nernst_steps()[0].lines[0].right)
    assert storeys(quotient) == 2
    assert characters(quotient) < 14


@pytest.mark.parametrize(
    ("answers", "room"),
    [("lines", [0, 3 * PITCH, 7 * PITCH]), ("short", [0, PITCH, 3 * PITCH]), ("squares", [0, 30, 60]), ("none", [0, 0, 0])],
)
def test_a_choice_gets_no_room_and_a_calculation_what_the_bank_wants(answers, room):
    """Two lines a mark or one, the last of them for the answer; squares of 5 mm, three rows a mark; or none."""
    parts = _question(galvanic_question(), galvanic_variant(), answers=answers)["parts"]
    assert [part["marks"] for part in parts] == [1, 2, 4]
    assert [part["room"] for part in parts] == room


def test_a_row_of_boxes_for_marks_makes_the_head_higher():
    heads = [MEASURE.head({"lead": [], "questions": [{}] * count}) for count in (0, 1, 8, 9, 16, 17)]
    assert [round(head - heads[0], 1) for head in heads] == [0, 0, 0, 10.5, 10.5, 21]


def test_short_options_stand_beside_one_another_and_long_ones_do_not():
    measure = Measure.of(Settings())
    assert measure.across([["zinc"], ["tin"]]) == 2
    assert measure.across([["zinc"]] * 5) == 3
    assert measure.across([["At equilibrium there are almost only products, and the reaction is fast."]] * 4) == 1
    assert measure.across([]) == 1


@given(st.lists(st.floats(0, 1), max_size=40).map(sorted), st.floats(0.001, 0.2))
def test_labels_keep_their_order_their_distance_and_the_line(places, gap):
    labels = spread(places, gap)
    fitting = min(gap, 1 / max(1, len(places) - 1))
    assert len(labels) == len(places)
    assert all(later - earlier >= fitting - 1e-9 for earlier, later in pairwise(labels))
    assert all(-1e-9 <= label <= 1 + 1e-9 for label in labels)


@given(st.lists(st.integers(0, 10), unique=True, max_size=11).map(sorted))
def test_labels_with_room_stand_at_their_own_place(tenths):
    assert spread([tenth / 10 for tenth in tenths], 0.1) == pytest.approx([tenth / 10 for tenth in tenths])


def test_labels_that_meet_share_their_middle():
    assert spread([0.5, 0.5], 0.1) == pytest.approx([0.45, 0.55])


def test_a_drawing_states_its_size():
    assert drawing_size('<svg width="72pt" height="36pt" viewBox="0 0 2 1">') == (25.4, 12.7)
    with pytest.raises(ValueError, match="width and height in pt"):
        drawing_size('<svg viewBox="0 0 2 1">')


def test_long_equations_may_break_at_their_signs_and_short_ones_may_not():
    def tag(plain):
        node = Encoder(None, _no_drawing).spans((Inscription("equation", (Piece("base", plain),), "said"),))[0]
        return node[0], [piece for piece in node[2][1] if not isinstance(piece, str)]

    assert tag("2 Ag + Zn → X") == ("q", [["o", "+"], ["=", "→"]])
    assert tag("2 Ag + Zn → X" * 6)[0] == "w"


def test_line_ends_become_spaces_and_hidden_characters_visible():
    assert clean("a\nb\u202ec\u00a0d") == "a b\ufffdc\u00a0d"


def test_an_accepted_range_of_powers_is_printed_with_powers():
    question, variant = specimen_paper().questions[2]
    judged = variant.__class__(1, 0, (), (), ({"lo": "1.5e-3", "hi": "2.5e+3", "signed": False}, {}))
    low, high = ["1.5\u202f×\u202f10", ["u", "−3"]], ["2.5\u202f×\u202f10", ["u", "3"]]
    powers = [["q", "1.5 times 10 to the minus 3", ["r", low]], " to ", ["q", "2.5 times 10 to the 3", ["r", high]]]
    assert _memo(question, judged)["parts"][0]["accepted"] == ["accept ", *powers, "\u2009", ["q", "volts", ["r", ["V"]]]]


@pytest.mark.parametrize(
    ("ends", "shown"),
    [
        (("0.585", "0.595"), "0.59"),
        (("-0.315", "-0.305"), "minus 0.31"),
        (("1525", "1535"), "1530"),
        (("164500", "165500"), "1.65 times 10 to the 5"),
        (("0.00002635", "0.00002645"), "2.64 times 10 to the minus 5"),
        (("0", "0"), "0"),
    ],
)
def test_what_an_error_gives_is_printed_as_finely_as_it_is_recognised(ends, shown):
    assert MemoEncoder(Settings(), catalogue(), _strip)._middle(*ends, signed=False).spoken == shown


TAGS = ("q", "w", "a", "f", "s", "fn", "p", "b", "i", "r", "u", "d", "=", "o", "v", "(", "t", "n", "ol", "grid", "fig", "caution")


@pytest.mark.parametrize("letter", TAGS)
def test_a_text_that_looks_like_a_tag_is_a_text(letter):
    """A letter in italics, a bold one, an option: as wide as any other of its length, and one line high."""
    for span in (Text(letter), Emphasis((Text(letter),)), Strong((Text(letter),)), Link("https://a.example", (Text(letter),))):
        blocks = Encoder(None, _no_drawing).blocks((Paragraph((span,)),))
        other = Encoder(None, _no_drawing).blocks((Paragraph((_like(span, "x" * len(letter)),)),))
        assert MEASURE.blocks(blocks) == MEASURE.blocks(other)
    part = {"field": {"options": [[letter]], "across": 1}, "body": [], "beside": [], "room": 0}
    assert MEASURE.part(part) == MEASURE.part({**part, "field": {"options": [["x" * len(letter)]], "across": 1}})


def _like(span, words):
    """The same span about another text."""
    return replace(span, text=words) if isinstance(span, Text) else replace(span, spans=(Text(words),))
