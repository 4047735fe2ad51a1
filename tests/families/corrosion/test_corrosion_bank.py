"""Each question form of corrosion is a template without Python: drawn, composed, judged, its slips caught."""

from __future__ import annotations

from families.family_bank import must_be_caught, prints_whole, right_answers, slips_told

test_the_right_answer_is_judged_right = right_answers("corrosion")
test_slips_are_recognised = slips_told("corrosion")
test_what_must_be_caught_is_caught = must_be_caught("corrosion")
test_a_question_prints_without_holes = prints_whole("corrosion")
