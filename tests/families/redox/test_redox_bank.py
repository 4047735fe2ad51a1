"""Each question form of redox foundations and of titration is a template without Python: drawn, composed, judged, its slips told."""

from __future__ import annotations

import pytest
from redox_bank import BANKS, IDS, keys, samples

from saltbridge.answers import judge
from saltbridge.chemistry.realism import RULES, Facts
from saltbridge.render.text import question_text, spans_text


@pytest.mark.parametrize(("bank", "template"), IDS)
def test_the_right_answer_of_redox_is_judged_right(bank, template):
    """Numbers as printed, choices, orders and equations as keyed."""
    for _, question, variant in samples(bank, template):
        for part, key in keys(question, variant):
            right = spans_text(part.answer, variant.slots) if key["kind"] == "number" else key["right"]
            assert judge(key, right).verdict == "right", (variant.number, part.label, right)


@pytest.mark.parametrize(("bank", "template"), IDS)
def test_every_slip_of_redox_is_told_by_its_answer(bank, template):
    """Numbers by value, choices by place, equations by what was written."""
    for drawn, question, variant in samples(bank, template):
        for _, key in keys(question, variant):
            if key["kind"] == "number":
                for slip in drawn.outcomes[key["node"]].slips:
                    verdict = judge(key, f"{slip.printed} {key['unit']}".strip())
                    assert {slip.point.slip.id, *slip.same} & set(verdict.slips)
            if key["kind"] == "choice":
                for place, slips in key["slips"].items():
                    assert judge(key, [int(place)]).slips == tuple(slips)
            if key["kind"] == "equation":
                for text, slips in key["slips"].items():
                    assert set(slips) <= set(judge(key, text).slips), text


@pytest.mark.parametrize(("bank", "template"), IDS)
def test_what_a_redox_template_must_catch_is_caught(bank, template):
    for drawn, question, variant in samples(bank, template):
        caught = {name for each in drawn.outcomes.values() for slip in each.slips for name in (slip.point.slip.id, *slip.same)}
        for _, key in keys(question, variant):
            caught |= {
                name for slips in (key["slips"].values() if key["kind"] in {"choice", "equation"} else ()) for name in slips
            }
        assert set(BANKS[bank].template(template).must_catch) <= caught


@pytest.mark.parametrize(("bank", "template"), IDS)
def test_a_redox_question_prints_without_holes(bank, template):
    for _, question, variant in samples(bank, template):
        text = question_text(question, variant)
        assert "{" not in text
        assert "undefined" not in text.lower()


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
