"""The keys of a plan: what a class is set, from which list, and how its papers print. The plan is read as strictly as a template."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, BeforeValidator, Field, WithJsonSchema, model_validator

from saltbridge.bank.blueprint import BlueprintKeys, SectionKeys, refuse_other_totals
from saltbridge.bank.settings import Language, MarkingPolicy, PrintSize
from saltbridge.faults import Fault
from saltbridge.forms.fields import Counted, Identifier, Keys, OneOrSeveral, Several, Text, Title, YesNo
from saltbridge.forms.strict_yaml import Table, lines_of, read_yaml
from saltbridge.forms.validation_messages import Reading, checked, shown, wrong
from saltbridge.forms.value_types import Outcome

MOST_QUESTIONS = 40
MOST_MARKS = 300
_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")


def _day(value: object) -> date:
    found = _DAY.fullmatch(value.strip()) if isinstance(value, str) else None
    try:
        return date(*map(int, found.groups())) if found else date.fromisoformat("")
    except ValueError:
        raise wrong("day", "a day, as `2026-12-01`", shown(value)) from None


def _beside(value: str) -> str:
    """A path from the plan's own folder that does not leave it."""
    path = PurePosixPath(value)
    if path.is_absolute() or ".." in path.parts or "\\" in value or ":" in value:
        hint = "Put the class list beside the plan, or name it with `--list FILE`."
        raise wrong("path-outside", "a file in the plan's folder, as `class.csv`", shown(value), hint)
    return value


Day = Annotated[date, BeforeValidator(_day), WithJsonSchema({"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"})]
BesidePath = Annotated[Text, AfterValidator(_beside), WithJsonSchema({"type": "string"})]


class ColumnKeys(Keys):
    """Which columns of the class list hold what, by their headings."""

    name: OneOrSeveral[Text] | None = Field(
        None, description="The column of the name, or several that make it up, as `[Forename, Surname]`."
    )
    number: Text | None = Field(None, description="The column of the candidate number; leading zeros stay.")
    class_: Text | None = Field(None, description="The column of the class or group.")
    print_size: Text | None = Field(None, description="The column of print sizes: 11, 18, 24 or 36; empty is the bank's.")
    paper: Text | None = Field(None, description="The column of paper sizes: a4, us-letter or a3; empty is the bank's.")
    language: Text | None = Field(
        None, description="The column of languages of the words that saltbridge says, such as `de`, or two as `en de`."
    )
    extra_time: Text | None = Field(None, description="The column of extra time in per cent, as `25`.")

    @model_validator(mode="after")
    def _someone(self) -> Self:
        if self.name is None and self.number is None:
            raise wrong("columns", "`name` or `number`, which tell students apart", "neither of them", "As `name: Student`.")
        return self


class DateKeys(Keys):
    """The days that papers print."""

    set_: Day | None = Field(None, description="The day on which the work is set.")
    due: Day | None = Field(None, description="The day on which it is due.")
    test: Day | None = Field(None, description="The day of a test or an exam.")


class AvoidKeys(Keys):
    """What earlier sets may not repeat."""

    folder: Text = Field(description="The folder that holds the records of earlier sets, from the plan's own folder.")
    by: Literal["numbers", "situation", "template"] = Field(
        "numbers",
        description="What counts as a repeat: the same `numbers`, the same `situation` (the same metals and words), or the same `template`.",
    )


class PlanQuestion(Keys):
    """One question of the paper: a template, or an outcome of which one template is taken."""

    template: Identifier | None = Field(None, description="A template of the bank, such as `two-metals`.")
    outcome: Outcome | None = Field(None, description="An outcome, such as T4.4, of which a template is taken; with `marks`.")
    marks: Counted | None = Field(None, description="The marks that a question of this outcome is to have.")

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        by_outcome = self.outcome is not None and self.marks is not None
        if (self.template is None) != by_outcome or (self.template is not None and (self.outcome or self.marks)):
            expected = "either `template`, or `outcome` with `marks`"
            raise wrong("plan-question", expected, "another mixture", "As `template: two-metals`.")
        return self


def _avoid(value: object) -> object:
    return {"folder": value} if isinstance(value, str) else value


class PlanKeys(Keys):
    """A set of papers for a class: one question list, other numbers for each student."""

    title: Title = Field(description="The title of the set, as it stands on papers and in file names.")
    bank: Text | None = Field(None, description="The folder of the bank, from the plan's own folder; without it, ours.")
    list_: BesidePath | None = Field(None, description="The class list beside the plan: CSV, or the first sheet of an XLSX file.")
    columns: ColumnKeys | None = Field(None, description="Which columns of the list hold what; without it, `name: Name`.")
    order: Literal["list", "name", "number", "code"] = Field("list", description="The order of papers and rows.")
    names: YesNo = Field(True, description="Whether papers carry names; with `no`, they carry the number only.")
    date_: DateKeys | None = Field(None, description="The days that papers print.")
    not_before: Day | None = Field(None, description="The day before which students see no memorandum and no solutions.")
    teacher: Title | None = Field(None, description="The teacher, as papers print it.")
    use: Literal["homework", "exam"] = Field(
        "homework", description="What it is for: only templates of that use are set; an exam has a front page."
    )
    questions: Several[PlanQuestion] = Field((), description="The questions in order; or `blueprint`, which chooses them.")
    marks: Counted | None = Field(None, description="The marks of the paper, with `blueprint`; the total is met exactly.")
    blueprint: BlueprintKeys | None = Field(None, description="How the marks are spread; the questions are chosen to meet it.")
    sections: Several[SectionKeys] = Field((), description="Sections with their marks, with `blueprint`.")
    must_include: Several[Identifier] = Field((), description="Templates that stand in the paper in any case, with `blueprint`.")
    versions: Counted | None = Field(
        None, description="How many versions there are, handed out in turn; without it, each student has numbers of their own."
    )
    avoid: Annotated[AvoidKeys | None, BeforeValidator(_avoid)] = Field(
        None, description="A folder of earlier records whose numbers are not set again; or `folder` and `by`."
    )
    each: YesNo = Field(False, description="Whether each student's paper and memorandum also stand in a file of their own.")
    solutions: YesNo = Field(
        False, description="Whether a PDF for students shows every step of their own papers, for the day after `not before`."
    )
    policy: MarkingPolicy | None = Field(None, description="The marking policy in place of the bank's.")
    sheet: Text | None = Field(None, description="The data sheet in place of the bank's.")
    paper: Literal["a4", "us-letter", "a3"] | None = Field(None, description="The size of paper in place of the bank's.")
    print_size: PrintSize | None = Field(None, description="The size of print in place of the bank's.")
    answers: Literal["lines", "short", "squares", "none"] | None = Field(
        None, description="The room for working in place of the bank's."
    )
    students: Literal["name", "number"] | None = Field(
        None, description="What papers ask for at their head, in place of the bank's."
    )
    language: Language | None = Field(None, description="The language of what saltbridge says, in place of the bank's.")
    decimal_mark: Literal["point", "comma"] | None = Field(None, description="The decimal mark in place of the bank's.")
    school: Title | None = Field(None, description="The name of the school in place of the bank's.")

    @model_validator(mode="after")
    def _not_too_many(self) -> Self:
        if len(self.questions) > MOST_QUESTIONS:
            raise wrong("too-many", f"at most {MOST_QUESTIONS} questions", f"{len(self.questions)}", "Make it two sets.")
        return self

    @model_validator(mode="after")
    def _one_way_to_questions(self) -> Self:
        if bool(self.questions) == (self.blueprint is not None):
            found = "both" if self.questions else "neither"
            raise wrong("plan-questions", "either `questions` or `blueprint`", found, "As `questions: [{template: two-metals}]`.")
        if self.blueprint is None:
            told = [
                key
                for key, value in (("marks", self.marks), ("sections", self.sections), ("must include", self.must_include))
                if value
            ]
            if told:
                raise wrong("plan-questions", "`blueprint` beside " + ", ".join(f"`{key}`" for key in told), "none")
            return self
        if self.marks is None:
            raise wrong("plan-questions", "`marks`, the total that the blueprint is to meet", "none", "As `marks: 60`.")
        refuse_other_totals(self.marks, self.blueprint, self.sections)
        return self


BANK_KEYS = {
    "policy": "marking policy", "sheet": "data sheet", "paper": "paper", "print_size": "print size", "answers": "answers",
    "students": "students", "language": "language", "decimal_mark": "decimal mark", "school": "school",
}  # fmt: skip
"""What a plan may say in place of its bank: the plan's attribute → the bank's key."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan as read: its keys, its folder, and where each key stands."""

    keys: PlanKeys
    folder: Path
    file: str
    lines: dict[str, int]

    def instead(self) -> dict[str, str]:
        """What the plan says in place of its bank, by the bank's keys."""
        told = {key: getattr(self.keys, name) for name, key in BANK_KEYS.items()}
        return {key: value for key, value in told.items() if value is not None}

    def own(self, fault: Fault) -> Fault:
        """A fault of the bank's settings, at the key of the plan that stands in their place; any other as it is."""
        key = next((key for key in BANK_KEYS.values() if key == fault.key and key in self.instead()), "")
        if fault.file != "bank.yaml" or not key:
            return fault
        name = next(name.replace("_", " ") for name, its in BANK_KEYS.items() if its == key)
        return self.fault(name, fault.code, expected=fault.expected, found=fault.found, hint=fault.hint)

    def fault(self, key: str, code: str, *, expected: str, found: str, hint: str = "") -> Fault:
        """A fault of this plan at a key path such as ``questions[2].template``."""
        path = key
        while path and path not in self.lines:
            path = path.rpartition("[")[0] if path.endswith("]") else path.rpartition(".")[0]
        return Fault(code, expected, found, hint, self.file, self.lines.get(path, 0), key)


def read_plan(path: Path) -> Plan:
    """Read a plan. Raises ``Faulty`` with all its faults."""
    raw = read_yaml(path, path.name)
    return Plan(_keys(raw, path.name), path.absolute().parent, path.name, dict(lines_of(raw)))


def _keys(raw: Table, file: str) -> PlanKeys:
    return checked(PlanKeys, raw, file, Reading())
