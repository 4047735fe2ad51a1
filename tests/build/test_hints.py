"""A hint points at the next step and leaves the choosing to the student."""

from __future__ import annotations

import re

import pytest

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import BOTH_COUPLES, HINTS


def test_the_step_that_names_both_couples_is_one_of_the_catalogue():
    """Else its sentence has been changed there, and the hint would name the anode again."""
    assert BOTH_COUPLES in {relation.say_here for relation in catalogue().relations.values()}


@pytest.mark.parametrize("said", HINTS.values())
def test_no_hint_in_place_of_a_step_has_a_hole_to_fill_with_an_answer(said):
    assert not re.search(r"\{[^}]*\}", said)
