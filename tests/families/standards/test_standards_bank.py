"""Each question form of the family is a template without Python: drawn, composed, judged, its slips caught."""

from __future__ import annotations

import pytest
from families.potentials_bank import check_right_answers, check_slips, samples, templates

from saltbridge.render.text import question_text

IDS = templates("standards")


@pytest.mark.parametrize("template", IDS)
def test_the_right_answer_is_judged_right(template):
    check_right_answers("standards", template)


@pytest.mark.parametrize("template", IDS)
def test_slips_are_recognised_and_never_right(template):
    check_slips("standards", template)


@pytest.mark.parametrize("template", IDS)
def test_a_question_prints_without_holes(template):
    for _, question, variant in samples("standards", template):
        text = question_text(question, variant)
        assert "{" not in text
        assert "undefined" not in text.lower()
