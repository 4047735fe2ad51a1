"""Parts of a question: what is asked. Kinds are told apart by the key that is present."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal, get_args

from pydantic import BeforeValidator, Discriminator, Field, Tag

from saltbridge.bank.answer_keys import STATES, ChooseKeys, FindKeys
from saltbridge.bank.cases_part import CasesPart
from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.part_base import PartKeys
from saltbridge.bank.reason import Reason
from saltbridge.bank.sequence_part import SequencePart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.spare_part import SparePart
from saltbridge.bank.table_part import TablePart
from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.bank.word_part import WordPart
from saltbridge.bank.written_part import WrittenPart
from saltbridge.bank.wrong_step_part import CorrectPart, WrongStepPart
from saltbridge.forms.fields import Identifier, Name, OneOrSeveral, Several, YesNo, key_of
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import nearest, shown, wrong
from saltbridge.forms.value_types import Markdown


class FindPart(FindKeys, PartKeys):
    """A number to calculate."""


class ChoosePart(ChooseKeys, PartKeys):
    """One of several things to choose."""

    reason: Reason | None = Field(None, description="The reason, to be chosen with it and scored together.")

    @property
    def stands_alone(self) -> bool:
        """Where the right option is told word for word."""
        return self.choose in [option.text for option in self.options]

    @property
    def texts(self) -> dict[str, Prose]:
        """Those of the reason too."""
        return super().texts | (self.reason.texts if self.reason else {})


class OrderPart(PartKeys):
    """Things to put in order."""

    order: OneOrSeveral[Name] = Field(
        description="The things: a list of names, or one name that stands for a list, such as `metals`."
    )
    by: Name = Field(description="The quantity that decides.")
    show: Name = Field("metal", description="What of each thing is shown, such as `oxidised` or `couple`.")
    direction: Literal["ascending", "descending"] = Field("ascending", description="Lowest first (`ascending`) or highest first.")
    why: Markdown | None = Field(None, description="Why this order, in a sentence or two, at the head of the working.")


class BalancePart(PartKeys):
    """A balanced equation to write."""

    balance: Literal[
        "cell equation",
        "cathode half",
        "anode half",
        "equation",
        "reduction half",
        "oxidation half",
        "half-equation",
        "negative plate on charge",
        "positive plate on charge",
        "charging equation",
    ] = Field(
        description="Which equation is to be written: of a cell or bath the first three, of a redox reaction or change the next four, of a battery that is charged the last three."
    )
    states: YesNo = Field(False, description=STATES)


class WhichPart(PartKeys):
    """A true statement to pick out among usual wrong ones, by the ideas of data/ideas.yaml and of the bank's own ideas.yaml."""

    which: Several[Identifier] = Field(
        description="Ideas to draw one from: its true counterpart stands beside the wrong statements of up to three of them."
    )

    @property
    def stands_alone(self) -> bool:
        """Ideas need no scenario."""
        return True


PART_KINDS = (
    *("find", "choose", "word", "order", "balance", "which", "table", "points", "cases"),
    *("species", "diagram", "expression", "steps", "tick", "wrong step in", "correct", "estimate", "not needed for"),
)


def _kinds(value: object) -> list[str]:
    if isinstance(value, PartKeys):
        there = {key_of(name) for name in type(value).model_fields}
        return [kind for kind in PART_KINDS if kind in there]
    return [kind for kind in PART_KINDS if isinstance(value, dict) and kind in value]


def kind_of(part: PartKeys) -> str:
    """The key by which a part of a template is known, such as ``find``."""
    return _kinds(part)[0]


def _one_kind(value: object) -> object:
    if not isinstance(value, dict | PartKeys):
        raise wrong("wrong-type", "keys with values", shown(value))
    kinds = _kinds(value)
    if len(kinds) != 1:
        found = _listed(kinds) or "none of them"
        hint = "Make it two parts." if kinds else _guess(value) or "As `find: E0_cell`."
        raise wrong("part-kind", f"exactly one of {_listed(PART_KINDS)}", found, hint)
    return value


def _listed(kinds: Sequence[str]) -> str:
    *first, last = [f"`{kind}`" for kind in kinds] or [""]
    return f"{', '.join(first)} and {last}" if first else last


def _guess(value: object) -> str:
    keys = value if isinstance(value, dict) else ()
    known = [key_of(name) for model in get_args(AnyPart) for name in model.model_fields]
    return next((hint for key in keys if key not in known and (hint := nearest(str(key), PART_KINDS))), "")


def _tag(value: object) -> str:
    return f"<{_kinds(value)[0]}>"


Part = Annotated[
    Annotated[FindPart, Tag("<find>")]
    | Annotated[ChoosePart, Tag("<choose>")]
    | Annotated[OrderPart, Tag("<order>")]
    | Annotated[BalancePart, Tag("<balance>")]
    | Annotated[WhichPart, Tag("<which>")]
    | Annotated[WordPart, Tag("<word>")]
    | Annotated[TablePart, Tag("<table>")]
    | Annotated[WrittenPart, Tag("<points>")]
    | Annotated[CasesPart, Tag("<cases>")]
    | Annotated[SpeciesPart, Tag("<species>")]
    | Annotated[DiagramPart, Tag("<diagram>")]
    | Annotated[ExpressionPart, Tag("<expression>")]
    | Annotated[SequencePart, Tag("<steps>")]
    | Annotated[SeveralPart, Tag("<tick>")]
    | Annotated[WrongStepPart, Tag("<wrong step in>")]
    | Annotated[CorrectPart, Tag("<correct>")]
    | Annotated[EstimatePart, Tag("<estimate>")]
    | Annotated[SparePart, Tag("<not needed for>")],
    Discriminator(_tag),
    BeforeValidator(_one_kind),
]
AnyPart = (
    FindPart
    | ChoosePart
    | OrderPart
    | BalancePart
    | WhichPart
    | WordPart
    | TablePart
    | WrittenPart
    | CasesPart
    | SpeciesPart
    | DiagramPart
    | ExpressionPart
    | SequencePart
    | SeveralPart
    | WrongStepPart
    | CorrectPart
    | EstimatePart
    | SparePart
)
