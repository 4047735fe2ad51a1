"""The keys that say what an answer is, for a part of its own and for a cell of a table alike."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import BeforeValidator, Field, model_validator

from saltbridge.answers.plain_words import plain_word
from saltbridge.forms.conditions import NAME
from saltbridge.forms.fields import Keys, Name, OneOrSeveral, Text, Whole, YesNo
from saltbridge.forms.validation_messages import shown, wrong
from saltbridge.forms.value_types import Markdown, Options, UnitText

MOST_NEAR = 20


class FindKeys(Keys):
    """A number to calculate."""

    find: Name = Field(description="The quantity to find, such as `E0_cell`.")
    unit: UnitText | None = Field(None, alias="in", description="The unit the answer is wanted in, such as `kJ/mol`.")
    figures: Whole | None = Field(None, description="Significant figures of the answer.")
    decimals: Whole | None = Field(None, description="Decimals of the answer, instead of figures.")

    @model_validator(mode="after")
    def _one_rounding(self) -> Self:
        if self.figures is not None and self.decimals is not None:
            raise wrong("rounding", "either `figures` or `decimals`", "both", "Keep one.")
        if self.figures == 0 or (self.figures or 0) > 10 or (self.decimals or 0) > 10:
            raise wrong("rounding", "1 to 10 figures, or 0 to 10 decimals", f"{self.figures or self.decimals or 0}")
        return self


class ChooseKeys(Keys):
    """One of several things to choose."""

    choose: Text = Field(
        description="The name whose value is right, such as `anode`, or the right one of the options, word for word."
    )
    options: Options = Field(
        alias="from",
        description="What to choose from: names of the scenario, or words; or each value with your own wording, as `zero: The current stops.`",
    )
    why: Markdown | None = Field(None, description="Why it is right, in a sentence or two: the working, or the end of it.")

    @model_validator(mode="after")
    def _a_name_or_an_option(self) -> Self:
        if not NAME.fullmatch(self.choose) and self.choose not in [option.text for option in self.options]:
            raise wrong("choose", "a name such as `anode`, or one of the options, word for word", shown(self.choose))
        return self


def _near(value: object) -> object:
    if not isinstance(value, dict):
        hint = "As `near: {chloride: Chloride was there before the current.}`."
        raise wrong("wrong-type", "words, each with a sentence on what to look at", shown(value), hint)
    if len(value) > MOST_NEAR:
        raise wrong("too-many", f"at most {MOST_NEAR} words", f"{len(value)}")
    return value


STATES = "Whether state symbols such as (aq) are asked for."


class SpeciesKeys(Keys):
    """A formula to type, with its charge."""

    species: Name = Field(description="The name that prints the species, such as `cathode.product` or `anode.ion`.")
    states: YesNo = Field(False, description=STATES)


class WordKeys(Keys):
    """A short word to write."""

    word: Text = Field(
        description="The name whose word is right, such as `anode.metal`, or the right word itself. Capitals, spaces and hyphens don't matter."
    )
    also: OneOrSeveral[Text] = Field((), description="Other spellings and words that count as right, or names of such.")
    near: Annotated[dict[Text, Text], BeforeValidator(_near)] = Field(
        {},
        description="Words that are near but not right, each with a sentence on what to look at, as `chloride: It was there before.`",
    )
    why: Markdown | None = Field(None, description="Why it is right, in a sentence or two: the working, or the end of it.")

    @model_validator(mode="after")
    def _each_word_once(self) -> Self:
        words = [self.word, *self.also, *self.near]
        found: dict[str, str] = {}
        for each in words:
            plain = plain_word(each)
            if not plain:
                raise wrong("word", "a word with letters or figures", shown(each))
            if plain in found:
                hint = "Capitals, spaces and hyphens don't matter: each word once in `word`, `also` and `near` together."
                raise wrong("repeated", "each word once", f"{shown(found[plain])} and {shown(each)}", hint)
            found[plain] = each
        return self
