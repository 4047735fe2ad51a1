"""Parts on cases: situations told in words, each with its right option, why it is right, and what each wrong option shows."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Annotated, Self

from pydantic import BeforeValidator, Field, model_validator

from saltbridge.bank.beliefs import WrongOption, WrongOptions, texts_of
from saltbridge.bank.part_base import PartKeys
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty
from saltbridge.forms.conditions import NAME
from saltbridge.forms.fields import AtLeastTwo, Counted, Keys, Text
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import carried, shown, wrong
from saltbridge.forms.value_types import Option, Options, OptionText, Sentences

MOST_VALUES = 8
OWNER = "case"
"""What the names of a case's values begin with: ``{{ case.reading }}``."""

_WORD = re.compile(r"[A-Za-z][A-Za-z0-9_]{0,30}")


def _values(value: object) -> object:
    if not isinstance(value, dict) or not value:
        raise wrong("wrong-type", "names with what each prints", shown(value), "As `with: {reading: 0.00 V}`.")
    if len(value) > MOST_VALUES:
        raise wrong("too-many", f"at most {MOST_VALUES} values", f"{len(value)}")
    strange = next((name for name in value if not _WORD.fullmatch(str(name))), None)
    if strange is not None:
        raise wrong("name", "a name such as `reading`, which texts print as `{{ case.reading }}`", shown(strange))
    for text in value.values():
        if isinstance(text, str) and text.startswith("`"):
            _refuse_no_species(text)
    return value


def _refuse_no_species(text: str) -> None:
    try:
        parse_species(text.strip("`"))
    except Faulty as trouble:
        raise carried(trouble) from None


class Case(Keys):
    """One case."""

    case: Sentences = Field(description="The situation, in one paragraph with holes.")
    right: OptionText = Field(
        description="The right option, word for word; of options that are common to all cases, one of them."
    )
    why: Sentences = Field(description="Why it is right, in a sentence or two: the working.")
    wrong: WrongOptions = Field(
        (),
        description="The wrong options, each with what it shows: the id of an idea or common error, or a sentence of your own that says what to look at.",
    )
    values: Annotated[dict[str, Text], BeforeValidator(_values)] = Field(
        {},
        alias="with",
        description="What texts print of this case, by name: `{reading: 0.00 V}` is printed by `{{ case.reading }}`.",
    )

    def __str__(self) -> str:
        """The situation as it is written, by which a draw tells cases apart: a case added takes only the draws that it wins."""
        return self.case.source

    @model_validator(mode="after")
    def _tells_its_values(self) -> Self:
        for text in (self.case, self.why, self.right.prose, *texts_of(self.wrong)):
            unknown = next((name for name in values_named(text) if name not in self.values), None)
            if unknown is not None:
                there = f"It has {', '.join(f'`{name}`' for name in self.values)}." if self.values else "It has none."
                raise wrong("unknown-name", "a value that the case tells under `with`", f"`{OWNER}.{unknown}`", there)
        return self


class CasesPart(PartKeys):
    """Situations told in words, of which each variant asks about one or several."""

    cases: AtLeastTwo[Case] = Field(description="The cases to draw from.")
    options: Options | None = Field(
        None,
        alias="from",
        description="Options that are common to all cases, as a list, or each by a short name with its wording, as `contact: A clip does not touch its metal.`",
    )
    shows: WrongOptions = Field(
        (),
        description="What a common option shows where it is wrong and its case says nothing else, as `contact: look-at-the-clips`.",
    )
    draw: Counted = Field(1, description="How many cases a variant asks about, each with its options.")

    @model_validator(mode="after")
    def _enough(self) -> Self:
        if self.draw > len(self.cases):
            raise wrong("too-many", f"at most {len(self.cases)} cases to draw, as many as there are", f"`draw: {self.draw}`")
        texts = [str(case) for case in self.cases]
        if twice := next((text for text in texts if texts.count(text) > 1), None):
            raise wrong("repeated", "each case once", f"{shown(twice)} twice")
        if self.shows and self.options is None:
            raise wrong(
                "no-options",
                "`from` with options that are common to all cases, beside `shows`",
                "no `from`",
                "Or tell them under `wrong` in each case.",
            )
        return self

    @property
    def stands_alone(self) -> bool:
        """Cases need no scenario."""
        return True

    def options_of(self, case: Case) -> tuple[Option, ...]:
        """The options of a case: those common to all in their order, else its own, the right one first."""
        return self.options or (case.right, *(each.option for each in case.wrong))

    def beliefs_of(self, case: Case) -> dict[str, str]:
        """What each wrong option of a case shows, by its text."""
        told: tuple[WrongOption, ...] = (*self.shows, *case.wrong)
        return {each.option.text: each.shows for each in told if each.shows and each.option.text != case.right.text}

    @property
    def texts(self) -> dict[str, Prose]:
        """The texts of all cases too."""
        return super().texts | dict(self._of_cases())

    def _of_cases(self) -> Iterator[tuple[str, Prose]]:
        yield from ((f"from[{at}]", option.prose) for at, option in enumerate(self.options or (), 1))
        for at, case in enumerate(self.cases, 1):
            yield f"cases[{at}].case", case.case
            yield f"cases[{at}].right", case.right.prose
            yield f"cases[{at}].why", case.why
            yield from ((f"cases[{at}].wrong", text) for text in texts_of(case.wrong))


def values_named(text: Prose) -> tuple[str, ...]:
    """The values of a case that a text prints, without their owner."""
    return tuple(name.partition(".")[2] for name in text.names if NAME.fullmatch(name) and name.startswith(f"{OWNER}."))
