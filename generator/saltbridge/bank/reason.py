"""The reason that is chosen with a choice: the right one, and wrong ones with what each shows."""

from __future__ import annotations

from typing import Self

from pydantic import Field, model_validator

from saltbridge.bank.beliefs import WrongOptions
from saltbridge.forms.fields import Keys
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import shown, wrong
from saltbridge.forms.value_types import OptionText, Sentences


class Reason(Keys):
    """The reason for a choice, scored together with it."""

    ask: Sentences | None = Field(None, description="The question for the reason; without it, `What is the reason?`.")
    right: OptionText = Field(description="The right reason, with holes where it names things of the scenario.")
    wrong: WrongOptions = Field(
        description="The wrong reasons, each with what it shows: the id of an idea or common error, or a sentence of your own that says what to look at."
    )

    @model_validator(mode="after")
    def _each_once(self) -> Self:
        texts = [self.right.text, *(each.option.text for each in self.wrong)]
        if twice := next((text for text in texts if texts.count(text) > 1), None):
            raise wrong("repeated", "each reason once", f"{shown(twice)} twice")
        return self

    @property
    def texts(self) -> dict[str, Prose]:
        """Its texts, by key."""
        found = {"reason.ask": self.ask, "reason.right": self.right.prose}
        wrong_ones = {f"reason.wrong.{each.option.text}": each.option.prose for each in self.wrong}
        return {key: text for key, text in found.items() if text is not None} | wrong_ones
