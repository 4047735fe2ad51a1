"""A plan becomes a set: read everything, choose the versions, tell the teacher, then write the folder in one go."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from saltbridge.bank.bank import load_bank
from saltbridge.bank.plan import Plan, read_plan
from saltbridge.deliver.homework.asked_questions import AskedQuestion, asked_questions
from saltbridge.deliver.homework.blueprint_questions import blueprint_questions
from saltbridge.deliver.homework.class_list import ClassList, read_class_list
from saltbridge.deliver.homework.class_set import ClassSet, Headings, SetMaker, Tell
from saltbridge.deliver.homework.codes import new_secret
from saltbridge.deliver.homework.earlier_sets import earlier_sets
from saltbridge.deliver.homework.pools import Desk
from saltbridge.deliver.homework.record import Record, read_record
from saltbridge.deliver.homework.set_files import RECORD, SetFiles
from saltbridge.deliver.proof.signoff import unsigned
from saltbridge.deliver.writing import named, refuse, replacing
from saltbridge.faults import Fault, FaultList, Faulty, fault
from saltbridge.home import shipped
from saltbridge.words import of_bank as words_of

Look = Callable[[ClassSet], None]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is asked for beside the plan.

    ``class_list`` and ``bank`` stand in place of the plan's own; ``record`` is the one to go on with; ``again`` are codes whose
    students get other numbers.
    """

    plan: Path
    class_list: Path | None = None
    bank: Path | None = None
    record: Path | None = None
    again: Sequence[str] = ()


def prepare(wanted: Wanted, tell: Tell) -> ClassSet:
    """The set, worked out and not yet written. Raises ``Faulty`` with the faults of plan, list, bank and record, all at once."""
    tell("Reading the plan, the class list and the bank")
    plan = read_plan(wanted.plan)
    faults = FaultList()
    students = _students(plan, wanted, faults)
    earlier = _earlier(wanted, faults)
    try:
        desk = Desk(load_bank(_bank_folder(plan, wanted), plan.instead()))
        secret = earlier.secret if earlier else new_secret()
        asked, headings = _questions(plan, desk, secret, earlier)
        unsigned_ = unsigned(desk.bank, [template for each in asked for template in each.templates])
        faults.extend(unsigned_)
        avoided = earlier_sets(plan, earlier.secret if earlier else "")
        avoided.refuse_templates(plan, asked)
    except Faulty as trouble:
        faults.extend(map(plan.own, trouble.faults))
    faults.stop_if_any()
    if students is None:  # pragma: no cover - the fault above has been raised
        raise TypeError(plan.file)
    return SetMaker(plan, desk, asked, earlier, avoided, tell, secret, headings).make(students, wanted.again)


def _questions(plan: Plan, desk: Desk, secret: str, earlier: Record | None) -> tuple[tuple[AskedQuestion, ...], Headings]:
    """The questions that the plan names or its blueprint chooses, and the headings of sections before them."""
    keys = plan.keys
    if keys.blueprint is None:
        return asked_questions(plan, desk.bank, desk.marks, keys.use), ()
    if earlier is not None:  # those that are out stay, in their order
        kept = [desk.bank.template(name) for each in earlier.asked for name in each.templates]
        return tuple(AskedQuestion(each.id, (each,)) for each in kept if each), earlier.head.headings
    chosen = blueprint_questions(plan, desk, secret)
    begins = {section: place for place, (_, section) in reversed(list(enumerate(chosen, 1)))}
    words = words_of(desk.bank.settings)
    headings = [
        (begins[at], words("{title} ({count} marks)", title=each.title, count=str(each.marks)))
        for at, each in enumerate(keys.sections)
    ]
    return tuple(asked for asked, _ in chosen), tuple(headings)


def make_set(wanted: Wanted, to: Path, tell: Tell, look: Look) -> tuple[Fault, ...]:
    """Write a set into a folder; ``look`` is shown what is coming before anything is written. What to know is handed back.

    Raises ``Faulty`` and then writes nothing.
    """
    to = named(to)
    refuse(to)
    _refuse_forgetting(to, wanted.record)
    made = prepare(wanted, tell)
    look(made)
    with replacing(to) as staging:
        return SetFiles(made, tell).into(staging)


def _refuse_forgetting(to: Path, record: Path | None) -> None:
    """Raise ``Faulty`` where a set stands in the folder whose record is not gone on with: its papers could never be marked."""
    if record is None and (to / RECORD).exists():
        raise fault(
            "set-there",
            expected="a new folder, or the record of the set in it",
            found=f"{to} holds a set, whose papers may be out",
            hint=f"Go on with it by `--record {to / RECORD}`, or name a new folder.",
        )


def _students(plan: Plan, wanted: Wanted, faults: FaultList) -> ClassList | None:
    path = wanted.class_list or (plan.folder / plan.keys.list_ if plan.keys.list_ else None)
    if path is None:
        hint = "As `list: class.csv`, or name it by `--list FILE`."
        faults.faults.append(plan.fault("list", "missing-key", expected="the key `list`", found="no such key", hint=hint))
        return None
    try:
        return read_class_list(path, plan)
    except Faulty as trouble:
        faults.extend(trouble.faults)
        return None


def _earlier(wanted: Wanted, faults: FaultList) -> Record | None:
    try:
        return read_record(wanted.record) if wanted.record else None
    except Faulty as trouble:
        faults.extend(trouble.faults)
        return None


def _bank_folder(plan: Plan, wanted: Wanted) -> Path:
    if wanted.bank is not None:
        return wanted.bank.absolute()
    return plan.folder / plan.keys.bank if plan.keys.bank else shipped("question_templates")
