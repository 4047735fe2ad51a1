"""Parts on an order of sentences: steps of a task in the order in which they are done, some of which may change places."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any, Self

from pydantic import Field, ValidationInfo, model_validator
from pydantic_core import core_schema

from saltbridge.bank.beliefs import WrongOption, read_wrong_options
from saltbridge.bank.part_base import PartKeys
from saltbridge.forms.fields import Counted
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import shown, wrong
from saltbridge.forms.value_types import Sentences

MOST_STEPS, FEWEST = 12, 3


@dataclass(frozen=True, slots=True)
class SequenceStep:
    """A step: its sentence, the stage that it belongs to from 0 on, and what a student who does it too early has to look at, or ""."""

    option: WrongOption
    stage: int

    @property
    def text(self) -> Prose:
        """The sentence."""
        return self.option.option.prose

    def __str__(self) -> str:
        """The sentence as it is written, by which a draw tells steps apart."""
        return self.option.option.text


class _Steps:
    """Reads steps in their order: a sentence each, with what to look at after a colon where it comes too early; those in a list may change places."""

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        return core_schema.with_info_plain_validator_function(self._read)

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        told = {"type": "object", "additionalProperties": {"type": "string"}, "minProperties": 1, "maxProperties": 1}
        one: dict[str, Any] = {"anyOf": [{"type": "string"}, told]}
        swap = {"type": "array", "items": one, "minItems": 2, "description": "Steps that may change places."}
        return {"type": "array", "items": {"anyOf": [*one["anyOf"], swap]}, "minItems": 2, "maxItems": MOST_STEPS}

    def _read(self, value: object, info: ValidationInfo) -> tuple[SequenceStep, ...]:
        if isinstance(value, tuple):
            return value
        if not isinstance(value, list):
            raise wrong("wrong-type", "steps in a list, in the order in which they are done", shown(value))
        steps = tuple(
            SequenceStep(each, stage)
            for stage, entry in enumerate(value)
            for one in (entry if isinstance(entry, list) else [entry])
            for each in _step(one, info)
        )
        if not FEWEST <= len(steps) <= MOST_STEPS or len(value) < 2:
            hint = "Steps that may change places stand in square brackets; some of the others must have a place of their own."
            raise wrong(
                "list-length", f"{FEWEST} to {MOST_STEPS} steps in two or more stages", f"{len(steps)} in {len(value)}", hint
            )
        texts = [str(step) for step in steps]
        if twice := next((text for text in texts if texts.count(text) > 1), None):
            raise wrong("repeated", "each step once", f"{shown(twice)} twice")
        return steps


def _step(value: object, info: ValidationInfo) -> tuple[WrongOption, ...]:
    if isinstance(value, dict) and len(value) != 1:
        raise wrong("wrong-type", "one step an entry", f"{len(value)} keys", "Put a hyphen before each step.")
    return read_wrong_options([value] if isinstance(value, str) else value, info)


class SequencePart(PartKeys):
    """Steps to put in order."""

    steps: Annotated[tuple[SequenceStep, ...], _Steps()] = Field(
        description="The steps in their order, each a sentence; `[one, other]` for steps that may change places; `Read the meter.: What must be closed first?` tells who puts it too early what to look at."
    )
    draw: Counted | None = Field(None, description="How many of the steps a variant shows; without it, all.")
    why: Sentences | None = Field(None, description="Why this order, in a sentence or two: the working.")

    @model_validator(mode="after")
    def _enough(self) -> Self:
        if self.draw is not None and not FEWEST <= self.draw <= len(self.steps):
            raise wrong("draw", f"{FEWEST} to {len(self.steps)} steps to show", f"`draw: {self.draw}`")
        return self

    @property
    def stands_alone(self) -> bool:
        """Sentences need no scenario."""
        return True

    @property
    def texts(self) -> dict[str, Prose]:
        """The steps too."""
        return super().texts | {f"steps[{at}]": step.text for at, step in enumerate(self.steps, 1)}
