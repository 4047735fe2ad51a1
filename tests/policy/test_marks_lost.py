"""What a common error costs under each policy: common practice, no source, but for the three lines of calculations (data/policies.yaml)."""

from __future__ import annotations

import pytest
from snapshot.taking import banks

from saltbridge.build import sample_papers
from saltbridge.graph.walk import WalkLine, WalkStep
from saltbridge.policy import mark_points, marks_lost, policies, policy
from saltbridge.render.memo_parts import MemoEncoder
from saltbridge.words import of_bank

CHARGE = WalkStep(
    "", (WalkLine("formula", "q"), WalkLine("substitution", "q"), WalkLine("value", "q")), "q", "charge", "relation"
)
AMOUNT = WalkStep(
    "", (WalkLine("formula", "n_e"), WalkLine("substitution", "n_e"), WalkLine("value", "n_e")), "n_e", "faraday", "relation"
)
READING = WalkStep("", (WalkLine("reading", "F"),), "F", "", "read")
STEPS = (CHARGE, READING, AMOUNT)


@pytest.mark.parametrize(
    ("name", "node", "read", "lost"),
    [
        ("steps", "q", False, 1),
        ("steps", "n_e", False, 1),
        ("steps", "F", False, 1),
        ("skill-points", "F", False, 1),
        ("second-error", "q", False, 1),
        ("numbered-points", "n_e", False, 1),
        ("three-lines", "q", False, 6),
        ("three-lines", "q", True, 5),
        ("three-lines", "n_e", False, 3),
        ("three-lines", "n_e", True, 2),
    ],
)
def test_an_error_costs_its_step_or_all_that_follows(name, node, read, lost):
    """Carried forward, only the step where it is made; else all from the line where it is made (a wrong formula, or a wrong substitution)."""
    found = policy(name)
    assert marks_lost(found, STEPS, mark_points(found, STEPS), node, read=read) == lost


def test_an_error_where_nothing_earns_costs_nothing():
    assert marks_lost(policy("steps"), (), {}, "q") == 0


def test_every_common_error_of_the_sample_memoranda_leaves_fewer_marks_than_its_part_has():
    papers = [paper for paper in sample_papers(banks()["shipped"]) if paper.memorandum]
    parts = [part for paper in papers for question, _ in paper.questions for part in question.parts]
    assert sum(len(part.errors) for part in parts) > 20
    assert [part.label for part in parts for error in part.errors if not 0 <= error.give < part.marks] == []


def test_every_policy_rules_how_errors_are_carried_and_says_each_of_its_rules():
    for found in policies().values():
        assert "carry" in found.rules
        assert len(found.says) == 1 + len(found.rules)


def test_numbered_points_are_counted_through_a_part():
    """Each mark that a part earns carries its number once, in order; policies that do not number carry none."""
    bank = banks()["shipped"]
    paper = next(paper for paper in sample_papers(bank) if paper.memorandum)
    for numbered in (True, False):
        writer = MemoEncoder(bank.settings, of_bank(bank.settings), lambda _: "", numbered=numbered)
        for number, (question, variant) in enumerate(paper.questions, 1):
            for part in writer.question(number, question, variant)["parts"]:
                told = [piece["points"] for step in part["steps"] for piece in (*step["pieces"], step)] + [part["points"]]
                points = [int(each) for text in told if text for each in text.split(", ")]
                assert points == (list(range(1, part["marks"] + 1)) if numbered else [])
