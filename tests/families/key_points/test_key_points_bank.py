"""Questions that are answered in words or by a sketch are templates without Python: drawn, composed, marked by their points."""

from __future__ import annotations

import pytest
from families.family_bank import ids, prints_whole, right_answers, samples, slips_told

from saltbridge.document import WrittenField, spoken
from saltbridge.render.text import spans_text

test_the_right_answer_is_judged_right = right_answers("key_points")
test_slips_are_recognised_and_never_right = slips_told("key_points")
test_a_question_prints_without_holes = prints_whole("key_points")


@pytest.mark.parametrize("template", ids("key_points"))
def test_every_point_is_printed_with_the_values_of_its_draw(template):
    for _, question, variant in samples("key_points", template):
        fields = [part.field for part in question.parts if isinstance(part.field, WrittenField)]
        assert fields
        for field in fields:
            for point in field.points:
                for spans in (point.text, *point.accept, *point.refuse):
                    assert spans_text(spans, variant.slots).strip()
                    assert "{{" not in spoken(spans)


def test_the_points_name_the_metals_of_their_own_draw():
    for drawn, question, variant in samples("key_points", "why-two-vessels"):
        first = spans_text(question.parts[0].field.points[0].text, variant.slots)
        words = drawn.situation.words
        assert f"ions of {words['cathode.metal']} would take their electrons from the {words['anode.metal']}" in first
