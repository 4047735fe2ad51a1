"""An exam chosen to a blueprint, against trying out every choice of a small bank."""

from __future__ import annotations

from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.bank.blueprint import BlueprintKeys, SectionKeys
from saltbridge.deliver.exam.choosing import choose_questions
from saltbridge.deliver.exam.wishes import Candidate, Exam
from saltbridge.faults import Faulty

DEMANDS = ("recall", "routine", "apply", "judge")
candidates = st.lists(
    st.tuples(st.sampled_from(("T3.1", "T3.4", "T4.4", "T6.8")), st.sampled_from(DEMANDS), st.integers(1, 6), st.integers(0, 6)),
    min_size=1,
    max_size=7,
).map(
    lambda found: [
        Candidate(f"q{at}", outcome, demand, marks, {"find": marks - min(chosen, marks), "choose": min(chosen, marks)})
        for at, (outcome, demand, marks, chosen) in enumerate(found)
    ]
)
blueprints = st.builds(
    lambda t3, t4, recall, choice, tolerance: BlueprintKeys.model_validate(
        {
            "outcomes": {"T3": t3, "T4": t4},
            "demand": {"recall": f"{recall} %", "apply": f"{100 - recall} %"},
            "at most": {"choice": f"{choice} %"},
            "tolerance": tolerance,
        }
    ),
    st.integers(1, 8), st.integers(1, 8), st.integers(0, 100), st.integers(0, 100), st.integers(0, 6),
)  # fmt: skip
exams = st.builds(Exam, st.integers(1, 16), blueprints)


def off(taken, exam):
    """How many marks cells are off together, None where the choice keeps not to the blueprint; written apart from the programme."""
    total = sum(each.marks for each in taken)
    chosen = sum(each.kinds["choose"] for each in taken)
    if total != exam.marks or chosen > exam.blueprint.at_most["choice"] * exam.marks:
        return None
    cells = [
        (sum(each.marks for each in taken if each.outcome[:2] == start), wish) for start, wish in exam.blueprint.outcomes.items()
    ]
    shares = exam.blueprint.demand.items()
    cells += [(sum(each.marks for each in taken if each.demand == demand), share * exam.marks) for demand, share in shares]
    differences = [abs(there - wish) for there, wish in cells]
    return None if any(each > exam.blueprint.tolerance for each in differences) else float(sum(differences))


def tried_out(there, exam):
    """The least that any choice is off; None where none keeps to the blueprint."""
    choices = (taken for size in range(len(there) + 1) for taken in combinations(there, size))
    found = [each for taken in choices if (each := off(taken, exam)) is not None]
    return min(found, default=None)


@settings(max_examples=150, deadline=None)
@given(candidates, exams)
def test_a_choice_is_as_near_as_any_or_there_is_none(there, exam):
    best = tried_out(there, exam)
    if best is None:
        with pytest.raises(Faulty) as trouble:
            choose_questions(there, exam, "a seed")
        assert all(each.code == "blueprint" and each.hint for each in trouble.value.faults)
        return
    chosen = {each.template for each in choose_questions(there, exam, "a seed")}
    mine = off([each for each in there if each.template in chosen], exam)
    assert mine is not None
    assert mine <= best + 0.1  # the lean to variety weighs less than a tenth of a mark


def bank(*told):
    return [Candidate(name, outcome, "apply", marks, {kind: marks}) for name, outcome, marks, kind in told]


SMALL = bank(
    ("a", "T3.4", 6, "find"), ("b", "T3.6", 4, "find"), ("c", "T4.4", 6, "find"), ("d", "T4.4", 5, "find"), ("e", "T3.1", 2, "choose"),
    ("f", "T3.3", 2, "choose"), ("g", "T4.1", 2, "choose"), ("h", "T4.2", 3, "balance"),
)  # fmt: skip


def exam(marks, *, outcomes=None, sections=(), must_include=(), tolerance=2):
    blueprint = BlueprintKeys.model_validate({"outcomes": outcomes or {"T3": marks // 2}, "tolerance": tolerance})
    return Exam(marks, blueprint, tuple(SectionKeys.model_validate(each) for each in sections), must_include)


def test_sections_come_to_their_marks_with_their_kind_of_answer():
    wanted = exam(16, sections=({"title": "A", "marks": 4, "answers": "choice"}, {"title": "B", "marks": 12}))
    chosen = choose_questions(SMALL, wanted, "s")
    marks = {each.template: each for each in SMALL}
    assert [each.section for each in chosen] == sorted(each.section for each in chosen)
    first = [marks[each.template] for each in chosen if each.section == 0]
    assert sum(each.marks for each in first) == 4
    assert {kind for each in first for kind in each.kinds} == {"choose"}
    assert sum(marks[each.template].marks for each in chosen if each.section == 1) == 12


def test_what_must_be_in_is_in():
    for name in "abcdefgh":
        assert name in {each.template for each in choose_questions(SMALL, exam(12, tolerance=6, must_include=(name,)), "s")}


def test_another_seed_fills_the_same_blueprint_otherwise_and_the_same_seed_alike():
    wanted = exam(12, outcomes={"T3": 6, "T4": 6}, tolerance=0)
    found = {frozenset(each.template for each in choose_questions(SMALL, wanted, f"seed {at}")) for at in range(30)}
    assert len(found) > 1
    assert choose_questions(SMALL, wanted, "one") == choose_questions(SMALL, wanted, "one")


@pytest.mark.parametrize(
    ("wanted", "told"),
    [
        (exam(20, outcomes={"T6": 10}), ["blueprint.outcomes.T6: expected 8 to 12 marks; found 0 at the nearest. The bank has 0 marks of it for this exam: write more questions of it, or ask for 0. [blueprint]"]),
        (exam(60, outcomes={"T3": 14}), ["marks: expected 60 marks; found 30 at the nearest. The bank has 30 marks of it for this exam: write more questions of it, or ask for 30. [blueprint]"]),
        (exam(6, outcomes={"T3": 1}, tolerance=0), ["blueprint.outcomes.T3: expected 1 marks; found 0 at the nearest. `tolerance: 1` can be met. [blueprint]"]),
        (exam(12, must_include=("z",), tolerance=6), ["must include: z: expected a template that can stand in this exam; found 0 at the nearest. Sign it, mark it `use: exam`, or leave it out. [blueprint]"]),
    ],
)  # fmt: skip
def test_what_cannot_be_met_is_told_with_what_would_do(wanted, told):
    with pytest.raises(Faulty) as trouble:
        choose_questions(SMALL, wanted, "s")
    assert [str(each) for each in trouble.value.faults] == told


def test_a_large_bank_is_chosen_from():
    there = [
        Candidate(f"q{at}", f"T{1 + at % 9}.{1 + at % 4}", demand, 2 + at % 9, {"find": 2 + at % 9})
        for at, (demand, _) in enumerate(product(DEMANDS, range(40)))
    ]
    wanted = exam(60, outcomes={f"T{at}": 12 for at in range(2, 7)}, tolerance=2)
    chosen = choose_questions(there, wanted, "s")
    assert sum(each.marks for each in there if each.template in {one.template for one in chosen}) == 60
