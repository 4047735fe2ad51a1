"""A question template: the keys a teacher writes, in frozen models.

Key names have spaces where attributes have underscores (``must reveal`` is ``must_reveal``). Names to find are checked for
their writing only; whether they can be derived is the derivation's to say.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo, field_validator

from saltbridge.bank.figure_key import NO_FIGURE, FigureKey, FigureUse, refuse_unfit
from saltbridge.bank.parts import Part
from saltbridge.faults import Fault, Faulty
from saltbridge.forms.fields import Counted, Drawn, Identifier, Keys, Lettered, Name, OneOrSeveral, Several, Text, Title, YesNo
from saltbridge.forms.validation_messages import AS_IN, carried, shown, wrong
from saltbridge.forms.value_types import ConditionText, Markdown, Outcome, RuleCode, ToldName
from saltbridge.scenarios.scenario import NO_SCENARIO, AnyScenario, Scenario

Level = Literal["introductory", "core", "advanced", "first-year"]
Use = Literal["practice", "homework", "exam"]
Demand = Literal["recall", "routine", "apply", "judge"]
MOST_FURTHER = 12


def _further(value: object) -> object:
    """A mapping of names, and not too many of them."""
    if not isinstance(value, dict):
        raise wrong("wrong-type", "names with what to draw", shown(value), "As `I: {from: [0.50 A, 1.00 A]}`.")
    if len(value) > MOST_FURTHER:
        raise wrong("too-many", f"at most {MOST_FURTHER} further quantities", f"{len(value)}")
    return value


Further = Annotated[dict[Name, Drawn], BeforeValidator(_further)]


class TemplateKeys(Keys):
    """A question, written once; every student gets their own numbers."""

    title: Title = Field(description="A short title, as the student sees it.")
    outcome: Outcome = Field(description="The learning outcome it belongs to, such as T3.4.")
    level: Level = Field(description="How far along the students are.")
    demand: Demand | None = Field(
        None,
        description="What it asks of a student: `recall` (say what was learned), `routine` (a known way), `apply` (a new situation), `judge` (weigh and give reasons).",
    )
    use: OneOrSeveral[Use] = Field(
        ("practice",), description="What it may be used for. An exam question never reaches a public site."
    )
    minutes: Counted | None = Field(None, description="Minutes a student needs; without it, 1.2 a mark.")
    context: Several[Identifier] = Field(
        (), description='Words to draw one from; the text tells them apart by `{% if context == "harbour" %}`.'
    )
    scenario: AnyScenario = Field(
        default_factory=lambda: NO_SCENARIO,
        description="What is drawn: exactly one kind of scenario. Parts that ask in words alone, such as `cases`, need none.",
    )
    rows: Text | None = Field(
        None,
        description="A table of the bank, as `rows/readings.csv`: each row gives the scenario's values of one version; its heading names their keys.",
    )
    further_quantities: Further = Field(
        {},
        description="Further quantities to draw, by name, as `I: {from: [0.50 A, 1.00 A]}`: data for a relation of the bank's own.",
    )
    spare: OneOrSeveral[Name] = Field(
        (), description="Data that the text tells and no part needs, as `T`: drawn by the scenario or as a further quantity."
    )
    keep_only_if: OneOrSeveral[ConditionText] = Field(
        (), description='Conditions a draw must meet, as `abs(E_cell) >= 0.20 V` or `left.metal != "Zn" and n == 2 or n == 3`.'
    )
    rules: Several[RuleCode] = Field((), description="Codes of realism rules that a draw must keep, such as R-EMF.")
    must_reveal: Several[Identifier] = Field(
        (),
        description="Slips that every draw must reveal: their result differs from the right answer. Others are dropped where they coincide.",
    )
    method: Literal["steps", "formula"] | None = Field(
        None, description="Worked in steps or by one formula; without it, as the bank says."
    )
    form: OneOrSeveral[Literal["standard", "scaffold", "stretch"]] = Field(
        ("standard",),
        description='The forms that this derivation is asked in, each a question of its own: `standard` as the parts stand, `scaffold` with a number for each step of the working, `stretch` with the last part alone. Texts tell them apart by `{% if form == "stretch" %}`.',
    )
    few_versions: Text | None = Field(
        None,
        description="Why there are fewer versions than a class has students, in a sentence; for a moderator, who then finds a note and no warning.",
    )
    figure: FigureKey = Field(
        NO_FIGURE,
        description="The drawing beside the text: its name, or its name with keys, as `galvanic cell: {instrument: lamp, letters: [wire, salt bridge]}`.",
    )
    hide_row: YesNo = Field(
        False,
        description="On papers, leave out the row of the data sheet that prints the potential asked for, as long as no other question of the paper reads it; the sheet of the site is whole.",
    )
    given: Several[ToldName] = Field(
        (),
        description="Quantities worked out by the tool and given to the student as data, which turns a question round; `E_cell in mV` gives whole millivolts.",
    )
    text: Markdown = Field(description="The situation, in Markdown with holes.")
    parts: Lettered[Part] = Field(description="The parts (a), (b)… in order.")

    @field_validator("parts", mode="after")
    @classmethod
    def _has_what_is_asked(cls, parts: tuple[Part, ...], told: ValidationInfo) -> tuple[Part, ...]:
        if told.data.get("scenario") is NO_SCENARIO and not all(part.stands_alone for part in parts):
            missing = Fault("missing-key", "the key `scenario`", "no such key", AS_IN["scenario"], key="scenario")
            raise carried(Faulty([missing]))
        return parts

    @field_validator("figure", mode="after")
    @classmethod
    def _fits(cls, figure: FigureUse, told: ValidationInfo) -> FigureUse:
        scenario = told.data.get("scenario")
        if scenario is not None:
            refuse_unfit(figure, scenario.kind)
        return figure


@dataclass(frozen=True, slots=True)
class FilledRow:
    """The scenario with the values of one row, the row's line, and the words that texts may print (``row.group``)."""

    line: int
    scenario: Scenario
    words: Mapping[str, str]

    def __str__(self) -> str:
        """The line, by which a draw tells rows apart: a row added takes only the draws that it wins."""
        return str(self.line)


class Template(TemplateKeys):
    """A template of a bank: its keys, with where it was read. ``id`` is the file's name without its ending.

    ``filled`` are the rows of its table, of which each draw takes one.
    """

    id: str
    file: str
    lines: dict[str, int]
    filled: tuple[FilledRow, ...] = ()

    def fault(self, key: str, code: str, *, expected: str, found: str, hint: str = "") -> Fault:
        """A fault of this template at a key path such as ``parts[2].find``, on the line of the nearest key that is there."""
        path = key
        while path and path not in self.lines:
            path = path.rpartition("[")[0] if path.endswith("]") else path.rpartition(".")[0]
        line = self.lines.get(path, 0)
        return Fault(code, expected, found, hint, self.file, line, key)


def as_template(
    keys: TemplateKeys, *, template_id: str, file: str, lines: dict[str, int], filled: tuple[FilledRow, ...] = ()
) -> Template:
    """The template of checked keys."""
    values: dict[str, Any] = {name: getattr(keys, name) for name in TemplateKeys.model_fields}
    return Template.model_construct(**values, id=template_id, file=file, lines=lines, filled=filled)
