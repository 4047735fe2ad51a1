"""The keys of an exam's blueprint: how its marks are spread over outcomes, demands, kinds of answer and sections."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Annotated, get_args

from pydantic import AfterValidator, BeforeValidator, Field, WithJsonSchema

from saltbridge.bank.parts import PART_KINDS
from saltbridge.bank.template import Demand
from saltbridge.forms import registries as known
from saltbridge.forms.fields import Counted, Keys, Text, Title, Whole, known_word
from saltbridge.forms.validation_messages import shown, wrong

_SHARE = re.compile(r"([0-9]{1,3}(?:\.[0-9]+)?)\s*%")
_MOST_CELLS = 100
ANSWER_KINDS = ("number", "choice", "equation", *PART_KINDS)
"""The words for kinds of answer: the key of a part, or the plainer word for three of them."""

PLAINER = {"number": ("find",), "choice": ("choose", "which"), "equation": ("balance",)}


def _share(value: object) -> Decimal:
    found = _SHARE.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None or Decimal(found[1]) > 100:
        raise wrong("share", "a share of the marks, as `15 %`", shown(value))
    return Decimal(found[1]) / 100


def _cells(value: object) -> object:
    if not isinstance(value, dict) or not value:
        raise wrong("wrong-type", "names with marks or shares", shown(value))
    if len(value) > _MOST_CELLS:
        raise wrong("too-many", f"at most {_MOST_CELLS} entries", f"{len(value)}")
    return value


def _outcome_start(name: str) -> str:
    """An outcome, or the topic that several begin with."""
    starts = {outcome.split(".")[0] for outcome in known.outcomes()} | set(known.outcomes())
    return known_word(name, sorted(starts), "outcome", "a topic such as `T3`, or an outcome such as `T3.4`")


def _answer_kind(name: str) -> str:
    return known_word(name, ANSWER_KINDS, "answer-kind", "a kind of answer")


def _demand(name: str) -> str:
    return known_word(name, get_args(Demand), "demand", "a demand")


Share = Annotated[Decimal, BeforeValidator(_share), WithJsonSchema({"type": "string", "pattern": "^[0-9]+(\\.[0-9]+)?\\s*%$"})]
OutcomeStart = Annotated[Text, AfterValidator(_outcome_start)]
AnswerKind = Annotated[Text, AfterValidator(_answer_kind)]


def _whole_of(shares: Mapping[str, Decimal]) -> Mapping[str, Decimal]:
    total = sum(shares.values(), Decimal())
    if total != 1:
        raise wrong("demand", "shares that make 100 % together", f"{(total * 100).normalize():f} %")
    return shares


Cells = Annotated[dict[OutcomeStart, Counted], BeforeValidator(_cells)]
Shares = Annotated[dict[Annotated[Text, AfterValidator(_demand)], Share], BeforeValidator(_cells), AfterValidator(_whole_of)]
Limits = Annotated[dict[AnswerKind, Share], BeforeValidator(_cells)]


class BlueprintKeys(Keys):
    """How the marks of an exam are spread."""

    outcomes: Cells | None = Field(None, description="Marks by topic or outcome, as `{T3: 20, T4: 20}`.")
    demand: Shares | None = Field(None, description="Shares of the marks by demand, as `{recall: 15 %, routine: 85 %}`.")
    at_most: Limits | None = Field(None, description="The largest share that a kind of answer may have, as `{choice: 10 %}`.")
    tolerance: Whole = Field(2, description="Marks by which an outcome or a demand may differ; the total is always exact.")


class SectionKeys(Keys):
    """A section of an exam."""

    title: Title = Field(description="The heading of the section, as `Section A`.")
    marks: Counted = Field(description="The marks of the section, exactly.")
    answers: AnswerKind | None = Field(None, description="The one kind of answer that its questions have, such as `choice`.")


def kinds_of(word: str) -> frozenset[str]:
    """The kinds of part that a word for answers stands for."""
    return frozenset(PLAINER.get(word, (word,)))


def sum_of_outcomes(cells: Mapping[str, int]) -> int:
    """The marks that the cells ask for together; one inside another (T3.4 in T3) counts once."""
    return sum(marks for name, marks in cells.items() if name.split(".")[0] == name or name.split(".")[0] not in cells)


def refuse_other_totals(marks: int, blueprint: BlueprintKeys, sections: tuple[SectionKeys, ...]) -> None:
    """Raise where the cells can't come to the total, whatever the bank holds."""
    asked = sum_of_outcomes(blueprint.outcomes or {})
    if asked > marks:
        raise wrong("blueprint", f"outcomes of {marks} marks or fewer together, as `marks: {marks}`", f"{asked}")
    told = sum(section.marks for section in sections)
    if sections and told != marks:
        raise wrong("sections", f"sections that make {marks} marks together", f"{told}")
