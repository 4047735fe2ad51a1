"""The questions that a blueprint chooses, as candidates with their marks by demand and kind of answer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from saltbridge.bank.parts import kind_of
from saltbridge.bank.plan import Plan
from saltbridge.bank.template import Template
from saltbridge.deliver.exam.choosing import Chosen, choose_questions
from saltbridge.deliver.exam.wishes import Candidate, Exam
from saltbridge.deliver.homework.asked_questions import AskedQuestion
from saltbridge.deliver.homework.pools import Desk
from saltbridge.deliver.proof.signoff import unsigned
from saltbridge.faults import Faulty


def blueprint_questions(plan: Plan, desk: Desk, secret: str) -> tuple[tuple[AskedQuestion, int], ...]:
    """The questions of the plan's blueprint, each with the number of its section from 0.

    Raises ``Faulty`` with the wishes that can't be met.
    """
    keys = plan.keys
    if keys.blueprint is None or keys.marks is None:
        raise ValueError("a plan without a blueprint names its questions")
    there = _candidates(desk, keys.use, keys.must_include)
    exam = Exam(keys.marks, keys.blueprint, keys.sections, keys.must_include)
    try:
        chosen = choose_questions(there, exam, secret)
    except Faulty as trouble:
        raise Faulty(
            [plan.fault(each.key, each.code, expected=each.expected, found=each.found, hint=each.hint) for each in trouble.faults]
        ) from trouble
    return tuple((_asked(desk, each), each.section) for each in chosen)


def _asked(desk: Desk, chosen: Chosen) -> AskedQuestion:
    template = desk.bank.template(chosen.template)
    if template is None:  # pragma: no cover - it was chosen among those of the bank
        raise KeyError(chosen.template)
    return AskedQuestion(template.id, (template,))


def _candidates(desk: Desk, use: str, must: Sequence[str]) -> list[Candidate]:
    """The templates of the use; where the bank publishes signed ones only, those that are signed."""
    fitting = [each for each in desk.bank.templates if use in each.use]
    unsigned_files = {fault.file for fault in unsigned(desk.bank, fitting)}
    return [_candidate(desk, each) for each in fitting if each.file not in unsigned_files or each.id in must]


def _candidate(desk: Desk, template: Template) -> Candidate:
    question = desk.see(template, 1, "marks").question
    return Candidate(template.id, template.outcome, template.demand or "", question.marks, kinds_of_marks(desk, template))


def kinds_of_marks(desk: Desk, template: Template) -> Mapping[str, int]:
    """The marks of a template by kind of part."""
    kinds: Counter[str] = Counter()
    for part, composed in zip(template.parts, desk.see(template, 1, "marks").question.parts, strict=True):
        kinds[kind_of(part)] += composed.marks
    return dict(kinds)
