"""Parts with several right options: told in words, or those things of a list that meet a condition."""

from __future__ import annotations

from typing import Self

from pydantic import Field, model_validator

from saltbridge.bank.beliefs import WrongOptions, texts_of
from saltbridge.bank.part_base import PartKeys
from saltbridge.forms.conditions import NAME, Comparison
from saltbridge.forms.conditions import Name as ConditionName
from saltbridge.forms.fields import Counted, Name, OneOrSeveral, YesNo
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import shown, wrong
from saltbridge.forms.value_types import ConditionText, Markdown, OptionText

SIDES = ("<", ">")


class SeveralPart(PartKeys):
    """As many of several options as are right."""

    tick: OneOrSeveral[OptionText] = Field(
        description="What is right to tick, word for word; with `where` the things to choose among: a list of names, or one name that stands for a list, such as `metals`."
    )
    leave: WrongOptions = Field(
        (),
        description="What is wrong to tick, each with what it shows: the id of an idea or common error, or a sentence of your own that says what to look at.",
    )
    where: ConditionText | None = Field(
        None, description="Which of the things are right, as `E0 < structure.E0`: their own quantity against one of the scenario."
    )
    show: Name = Field("metal", description="What of each thing is shown, such as `oxidised` or `couple`; with `where`.")
    draw: Counted | None = Field(None, description="How many of the options a variant shows; without it, all.")
    or_none: YesNo = Field(
        False, description="Whether `None of these` stands among the options; it is right where nothing else is."
    )
    why: Markdown | None = Field(None, description="Why these, in a sentence or two, at the head of the working.")

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if self.where is None:
            self._check_words()
            return self
        if self.leave or self.draw is not None:
            key = "`leave`" if self.leave else "`draw`"
            raise wrong("tick", f"`where` without {key}: the scenario tells which things there are", f"both `where` and {key}")
        if strange := next((each.text for each in self.tick if not NAME.fullmatch(each.text)), None):
            raise wrong("name", "a list of the scenario or its things, such as `metals`, beside `where`", shown(strange))
        compared = self.compared
        if compared is None:
            hint = "As `where: E0 < structure.E0`."
            raise wrong("where", "one quantity of the things, < or >, and one of the scenario", "another condition", hint)
        return self

    def _check_words(self) -> None:
        texts = [each.text for each in (*self.tick, *(each.option for each in self.leave))]
        if twice := next((text for text in texts if texts.count(text) > 1), None):
            raise wrong("repeated", "each option once", f"{shown(twice)} twice")
        if not self.leave:
            hint = "Or add `where: E0 < structure.E0`, if the scenario tells which are right."
            raise wrong("no-options", "wrong options under `leave`", "none", hint)
        if self.draw is not None and not 2 <= self.draw <= len(texts):
            raise wrong("draw", f"2 to {len(texts)} options to show", f"`draw: {self.draw}`")

    @property
    def compared(self) -> Comparison | None:
        """The one comparison of ``where``: a quantity of the things on the left, one of the scenario on the right."""
        found = self.where.comparisons if self.where is not None else ()
        plain = [each for each in found if isinstance(each.left, ConditionName) and isinstance(each.right, ConditionName)]
        if len(found) != 1 or not plain or found[0].sign not in SIDES:
            return None
        left, right = found[0].left, found[0].right
        assert isinstance(left, ConditionName)  # noqa: S101 - looked at above
        assert isinstance(right, ConditionName)  # noqa: S101 - looked at above
        return None if left.magnitude or right.magnitude or "." in left.path else found[0]

    @property
    def stands_alone(self) -> bool:
        """Where the right options are told word for word."""
        return self.where is None

    @property
    def texts(self) -> dict[str, Prose]:
        """The options too, where they are words."""
        if self.where is not None:
            return super().texts
        ticked = {f"tick[{at}]": option.prose for at, option in enumerate(self.tick, 1)}
        return super().texts | ticked | {f"leave[{at}]": text for at, text in enumerate(texts_of(self.leave), 1)}
