"""Questions on a working as a whole are templates without Python: drawn, composed, judged, their errors caught."""

from __future__ import annotations

from families.family_bank import prints_whole, right_answers, slips_told

test_the_right_answer_is_judged_right = right_answers("derivations")
test_slips_are_recognised_and_never_right = slips_told("derivations")
test_a_question_prints_without_holes = prints_whole("derivations")
