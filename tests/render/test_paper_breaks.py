"""Where papers break: fewest pages, then fewest parts overleaf from their data; held against trying every way."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.render.paper_breaks import broken
from saltbridge.render.paper_room import Measure

PAGE = 100.0
MEASURE = Measure(160.0, PAGE)
NEEDS = st.booleans()
QUESTIONS = st.lists(st.lists(st.tuples(st.integers(5, 45), NEEDS), min_size=1, max_size=4), min_size=1, max_size=4)


class Heights(Measure):
    """A measure that is told the heights."""

    __slots__ = ()

    def head(self, copy):
        return copy["head"]

    def opening(self, question):
        return question["opening"]

    def part(self, part):
        return part["height"]


def _copy(questions, head=0, opening=10):
    made = [
        {
            "opening": opening,
            "breaks": False,
            "parts": [{"height": height, "needs": needs, "breaks": False} for height, needs in parts],
        }
        for parts in questions
    ]
    return {"head": head, "questions": made}


def _broken(questions, head=0):
    copy = _copy(questions, head)
    broken(copy, Heights(160.0, PAGE))
    return copy["questions"]


def _units(questions):
    """(height, question, opens, needs) of what is kept together."""
    for at, question in enumerate(questions):
        heights = [part["height"] for part in question["parts"]]
        if question["whole"]:
            yield (question["opening"] + sum(heights), at, True, False)
            continue
        yield (question["opening"] + heights[0], at, True, False)
        for part in question["parts"][1:]:
            yield (part["height"], at, False, part["needs"])


def _filled(units, forced, head=0):
    """The pages that filling them in order gives, a page begun where that is forced."""
    pages, left = [[]], PAGE - head
    for at, unit in enumerate(units):
        if pages[-1] and (unit[0] > left or at in forced):
            pages.append([])
            left = PAGE
        pages[-1].append(unit)
        left -= unit[0]
    return pages


def _cost(pages):
    overleaf = sum(unit[3] and unit[1] not in {each[1] for each in page if each[2]} for page in pages for unit in page)
    return len(pages), overleaf


def _forced(questions):
    starts = []
    for question in questions:
        starts.append(question["breaks"])
        if not question["whole"]:
            starts += [part["breaks"] for part in question["parts"][1:]]
    return {at for at, start in enumerate(starts) if start}


@settings(deadline=None)
@given(QUESTIONS, st.integers(0, 40))
def test_no_other_way_of_breaking_is_better(questions, head):
    made = _broken(questions, head)
    units = list(_units(made))
    found = _cost(_filled(units, _forced(made), head))
    places = range(1, len(units))
    every = (_cost(_filled(units, set(forced), head)) for count in range(len(units)) for forced in combinations(places, count))
    assert found == min(every)


def test_a_question_of_up_to_half_a_page_stays_whole_and_a_longer_one_does_not():
    short, long = _broken([[(20, True), (20, True)], [(20, True), (21, True)]])
    assert short["whole"]
    assert not long["whole"]


def test_a_break_before_a_part_that_needs_the_data_is_moved_where_that_costs_no_page():
    """Filled up, the last part of the second question would stand overleaf from its data; begun overleaf it is whole."""
    first, second = _broken([[(20, True)], [(20, True), (20, True), (30, True)]], head=10)
    assert second["breaks"]
    assert not first["breaks"]


@pytest.mark.parametrize("needs", [False, True])
def test_no_page_is_spent_to_keep_a_question_together(needs):
    _, second, third = _broken([[(20, True)], [(20, True), (20, True), (30, needs)], [(40, True)]], head=10)
    assert not second["breaks"]
    assert not third["breaks"]


def test_a_part_higher_than_a_page_may_break_and_others_may_not():
    (question,) = _broken([[(20, True), (130, True)]])
    assert [part["fits"] for part in question["parts"]] == [True, False]
    assert question["opens"]
