"""Allocation: the order of the list decides, and no two students get the same."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.draw.allocate import allocate, class_seed, practice_seed
from saltbridge.faults import Faulty

CONTENT = {"1": "a", "2": None, "3": "a", "4": "b", "5": "c", "6": "b", "7": "d"}


def test_a_class_in_the_order_of_its_list():
    """Rejected draws and repeats are passed over."""
    assert allocate(["Ada", "Bo", "Cy"], CONTENT, CONTENT.get) == {"Ada": "1", "Bo": "4", "Cy": "5"}


def test_a_second_attempt_repeats_nothing_given_before():
    assert allocate(["Ada", "Bo"], CONTENT, CONTENT.get, given=["a", "b"]) == {"Ada": "5", "Bo": "7"}


def test_a_student_added_at_the_end_changes_nobody_else():
    before = allocate(["Ada", "Bo"], CONTENT, CONTENT.get)

    assert {**before, "Cy": "5"} == allocate(["Ada", "Bo", "Cy"], CONTENT, CONTENT.get)


def test_seeds_are_drawn_no_further_than_needed():
    drawn = []

    allocate(["Ada"], CONTENT, lambda seed: drawn.append(seed) or CONTENT[seed])
    assert drawn == ["1"]


@settings(deadline=None)
@given(st.lists(st.integers(0, 5), max_size=30), st.integers(0, 6))
def test_shares_differ_or_the_seeds_ran_out(contents, students):
    """Either everybody has a content of their own, or there are fewer different contents than students."""
    names = [f"student {place}" for place in range(students)]
    content = {str(place): each for place, each in enumerate(contents)}
    try:
        shares = allocate(names, content, content.get)
    except Faulty:
        assert len({*contents}) < students
    else:
        assert [*shares] == names
        assert len({content[seed] for seed in shares.values()}) == students


def test_too_few_variants():
    with pytest.raises(Faulty) as caught:
        allocate(["Ada", "Bo", "Cy", "Di", "Ed"], CONTENT, CONTENT.get)
    assert str(caught.value) == (
        "expected 5 different variants, one for each student; found 4. "
        "Let the scenario draw from more values, or loosen `keep only if`. [too-few-variants]"
    )


def test_a_student_listed_twice():
    with pytest.raises(Faulty) as caught:
        allocate(["Ada", "Bo", "Ada"], CONTENT, CONTENT.get)
    assert str(caught.value) == "expected each student once; found `Ada` twice. Tell them apart in the list. [student-twice]"


def test_names_of_seeds():
    assert (practice_seed(3), class_seed("s3cret", 3)) == ("practice 3", "s3cret 3")
