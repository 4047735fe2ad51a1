"""Each form of question that needs a drawing is a template without Python: drawn, composed, judged, its errors told."""

from __future__ import annotations

import pytest
from families.family_bank import bank, ids, keys, must_be_caught, prints_whole, right_answers, samples, slips_told

from saltbridge.answers import judge
from saltbridge.render.figures import figure_svg
from saltbridge.render.memo_options import right_signs, shown_errors
from saltbridge.render.overlaps import overlapping
from saltbridge.render.paper_parts import QuestionEncoder
from saltbridge.render.text import spans_text
from saltbridge.scenarios.figures.figure_entries import figures
from saltbridge.words import of_bank

FAMILY = "figures"
FORMS = {
    "letters on a drawing of a cell, matched to its parts": "letters-on-a-cell",
    "the arrow of the electrons": "arrows-of-a-cell",
    "the arrow of the ions": "arrows-in-the-bridge",
    "what carries the charge at letters of the loop": "carriers-at-letters",
    "potential against time until a cell is flat, among other shapes": "shape-of-discharge",
    "a discharge curve read off": "curve-of-discharge",
    "steps of a reduction in a diagram": "steps-drawn",
    "slopes on an oxidation state diagram": "slopes-drawn",
    "internal resistance and potential from a line of voltage against current": "voltage-line-drawn",
    "electrons from a line against lg c": "electrons-from-a-drawn-line",
    "hydrogen ions from a line against pH": "protons-from-a-drawn-line",
    "the equivalence volume from readings": "readings-drawn",
}
"""Forms of question that a drawing makes possible, with the template that asks each."""

test_the_right_answer_is_judged_right = right_answers(FAMILY)
test_slips_are_recognised_and_never_right = slips_told(FAMILY)
test_what_must_be_caught_is_caught = must_be_caught(FAMILY)
test_a_question_prints_without_holes = prints_whole(FAMILY)


def test_every_form_has_its_template():
    assert set(FORMS.values()) <= set(ids(FAMILY))


def test_every_figure_stands_in_a_template():
    """But the line of potentials, which other banks draw."""
    assert {each.figure.name for each in bank(FAMILY).templates} == set(figures()) - {"number line"}


@pytest.mark.parametrize("template", ids(FAMILY))
def test_each_variant_has_its_drawing_told_in_words_and_clear(template):
    for _, _, variant in samples(FAMILY, template):
        (figure,) = variant.figures
        assert figure.spoken
        assert overlapping(figure) == ()


def _parts(template):
    for drawn, question, variant in samples(FAMILY, template):
        yield drawn, variant, keys(question, variant)


def test_a_letter_stands_elsewhere_in_other_variants_and_the_right_answer_goes_with_it():
    seen = set()
    for drawn, variant, parts in _parts("letters-on-a-cell"):
        told = dict(drawn.situation.given)
        place = told["A.place"].value
        anode = drawn.graph.value(drawn.cells, "anode")
        expected = {"wire": 3, "bridge": 2}.get(place, 0 if place == anode else 1)
        assert parts[0][1]["right"] == [expected]
        assert variant.figures[0].labels[f"letter {'salt bridge' if place == 'bridge' else place}"].plain == "A"
        seen.add(place)
    assert len(seen) > 1


def test_options_that_are_letters_stand_in_their_own_order():
    for template in ("letters-on-a-cell", "scratch-drawn", "shape-of-discharge", "arrows-of-a-cell"):
        for _, variant, parts in _parts(template):
            for part, _ in parts:
                shown = [spans_text(option, variant.slots) for option in getattr(part.field, "options", ())]
                if all(len(each) == 1 for each in shown):
                    assert shown == sorted(shown)


def test_a_paper_prints_letters_of_a_figure_once_and_the_memorandum_names_them():
    made = bank(FAMILY)
    for _, question, variant in samples(FAMILY, "arrows-of-a-cell"):
        part, key = keys(question, variant)[0]
        letters = [spans_text(option, variant.slots) for option in part.field.options]
        paper = QuestionEncoder(made.settings, of_bank(made.settings), figure_svg).question(1, question, variant)
        assert paper["parts"][0]["field"]["own"]
        assert key["signs"] == letters
        assert right_signs(part.field, key) == ""
        assert [sign for sign, _ in shown_errors(part.field, key)] == [letters[1 - key["right"][0]]]


def test_the_arrow_of_the_electrons_points_to_the_cathode():
    for drawn, variant, parts in _parts("arrows-of-a-cell"):
        part, key = parts[0]
        side = drawn.situation.words["cathode.side"]
        letter = variant.figures[0].labels[f"arrow {side} wire"].plain
        shown = [spans_text(option, variant.slots) for option in part.field.options]
        assert judge(key, [shown.index(letter)]).verdict == "right"
        assert "electrons-flow-plus-to-minus" in judge(key, [1 - shown.index(letter)]).slips


def test_ions_carry_the_charge_in_liquids_and_electrons_in_metals():
    for drawn, _, parts in _parts("carriers-at-letters"):
        for letter, (part, key) in zip("ABCD", parts, strict=True):
            metal = drawn.situation.given[f"{letter}.medium"].value == "metal"
            assert key["right"] == [0 if metal else 1], part.label


def test_the_positive_ion_moves_to_the_minus_pole():
    for drawn, variant, parts in _parts("poles-of-a-bath"):
        plus = drawn.situation.given["figure.plus"].value
        away = "right" if plus == "left" else "left"
        part, key = parts[2]
        letter = variant.figures[0].labels[f"arrow {away} solution"].plain
        assert spans_text(part.field.options[key["right"][0]], variant.slots) == letter
        assert variant.figures[0].labels[f"{plus}_terminal"] == "+"


def test_the_graph_that_is_right_is_drawn_from_the_numbers():
    """The one that falls steeply at the end: level or straight lines have few points."""
    for _, variant, parts in _parts("shape-of-discharge"):
        part, key = parts[0]
        letter = spans_text(part.field.options[key["right"][0]], variant.slots)
        plot = next(each for each in variant.figures[0].plots if each.letter == letter)
        (curve,) = plot.curves
        heights = [y for _, y in curve.points]
        assert heights == sorted(heights, reverse=True)
        middle = next(y for x, y in curve.points if x >= curve.points[-1][0] / 2)
        assert heights[-1] == pytest.approx(0)
        assert middle > heights[0] / 2, curve.points


def test_the_points_of_a_graph_are_those_that_are_told():
    for drawn, variant, _ in _parts("voltage-line-drawn"):
        (plot,) = variant.figures[0].plots
        told = [(drawn.situation.given[f"I_at{n}"].value, drawn.situation.given[f"U_at{n}"].value) for n in (1, 2)]
        for mark, (current, voltage) in zip(plot.marks, told, strict=True):
            assert (mark.x, mark.y) == pytest.approx((current, voltage))
