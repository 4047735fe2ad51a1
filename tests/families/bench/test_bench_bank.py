"""Each question form of the bench is a template without Python: drawn, composed, judged, its slips caught."""

from __future__ import annotations

from families.family_bank import must_be_caught, prints_whole, right_answers, slips_told

test_the_right_answer_is_judged_right = right_answers("bench")
test_slips_are_recognised_and_never_right = slips_told("bench")
test_what_must_be_caught_is_caught = must_be_caught("bench")
test_a_question_prints_without_holes = prints_whole("bench")
