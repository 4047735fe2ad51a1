"""The questions of a plan as templates of its bank, each under an id that stays when others are replaced."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from saltbridge.bank.bank import Bank
from saltbridge.bank.plan import Plan, PlanQuestion
from saltbridge.bank.template import Template
from saltbridge.faults import FaultList, nearest

Marks = Callable[[Template], int]


@dataclass(frozen=True, slots=True)
class AskedQuestion:
    """A question of the plan: the template that asks it, and further ones that may share the load where they are as hard."""

    id: str
    templates: tuple[Template, ...]

    @property
    def title(self) -> str:
        """The title of its first template."""
        return self.templates[0].title


def asked_questions(plan: Plan, bank: Bank, marks: Marks, use: str = "homework") -> tuple[AskedQuestion, ...]:
    """The questions of a plan. ``marks`` tells those of a template. Raises ``Faulty`` with the faults of all of them."""
    faults = FaultList()
    named = {each.template for each in plan.keys.questions}
    seen: Counter[str] = Counter()
    found = []
    for place, each in enumerate(plan.keys.questions, 1):
        name = each.template or f"{each.outcome}-{each.marks}-marks"
        seen[name] += 1
        templates = _named(plan, bank, place, each, use, faults) if each.template else _of_outcome(
            plan, bank, place, each, use, [one for one in bank.templates if one.id not in named], marks, faults
        )  # fmt: skip
        if templates:
            found.append(AskedQuestion(name if seen[name] == 1 else f"{name}#{seen[name]}", templates))
    faults.stop_if_any()
    return tuple(found)


def _named(plan: Plan, bank: Bank, place: int, asked: PlanQuestion, use: str, faults: FaultList) -> tuple[Template, ...]:
    key = f"questions[{place}].template"
    template = bank.template(asked.template or "")
    if template is None:
        known = [each.id for each in bank.templates]
        hint = nearest(asked.template or "", known, "`") or "Its name is that of its file without `.yaml`."
        faults.faults.append(
            plan.fault(key, "no-template", expected=f"a template of the bank {bank.id}", found=f"`{asked.template}`", hint=hint)
        )
        return ()
    if use not in template.use:
        found, hint = "`use: " + ", ".join(template.use) + "`", f"Add `{use}` to its `use`, or take another."
        faults.faults.append(plan.fault(key, "template-use", expected=f"a template for {use}", found=found, hint=hint))
        return ()
    return (template,)


def _of_outcome(
    plan: Plan,
    bank: Bank,
    place: int,
    asked: PlanQuestion,
    use: str,
    free: Sequence[Template],
    marks: Marks,
    faults: FaultList,
) -> tuple[Template, ...]:
    """The templates of an outcome with so many marks that no other question of the plan names."""
    of_outcome = [each for each in free if each.outcome == asked.outcome and use in each.use]
    fitting = tuple(each for each in of_outcome if marks(each) == asked.marks)
    if not fitting:
        there = ", ".join(f"`{each.id}` ({marks(each)} marks)" for each in of_outcome) or "none"
        expected = f"a template for {use} of outcome {asked.outcome} with {asked.marks} marks, named by no other question"
        total = sum(each.outcome == asked.outcome for each in bank.templates)
        hint = "Write the marks of one of these." if of_outcome else f"The bank has {total} of this outcome. Name a template."
        faults.faults.append(plan.fault(f"questions[{place}].outcome", "no-template", expected=expected, found=there, hint=hint))
    return fitting
