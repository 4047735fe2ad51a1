"""Each question form of redox foundations and of titration is a template without Python: drawn, composed, judged, its slips told."""

from __future__ import annotations

from families.family_bank import must_be_caught, prints_whole, right_answers, slips_told

from saltbridge.chemistry.realism import RULES
from saltbridge.chemistry.realism_facts import Facts

FAMILIES = ("redox", "titration")

test_the_right_answer_of_redox_is_judged_right = right_answers(*FAMILIES)
test_every_slip_of_redox_is_told_by_its_answer = slips_told(*FAMILIES)
test_what_a_redox_template_must_catch_is_caught = must_be_caught(*FAMILIES)
test_a_redox_question_prints_without_holes = prints_whole(*FAMILIES)


def test_a_titre_outside_the_burette_is_refused_by_name():
    """R-TITRE keeps titres readable and within one filling."""
    assert RULES["R-TITRE"].check(Facts(titre=35.0)) == "a titre of 35.00 cm3 is outside 10 to 30 cm3"
    assert RULES["R-TITRE"].check(Facts(titre=20.0)) is None


def test_a_point_at_equivalence_is_refused_by_name():
    """R-POINT keeps off the places where one couple alone no longer sets the potential."""
    assert RULES["R-POINT"].check(Facts(fractions=(0.99,))) == (
        "99.0% of the titre is too near the start or equivalence, where the simple equation fails"
    )
    assert RULES["R-POINT"].check(Facts(fractions=(0.5, 1.2))) is None
