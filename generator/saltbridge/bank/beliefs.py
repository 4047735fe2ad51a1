"""Wrong options with the belief that each shows: the id of an idea or common error, or words of the template's own.

As ``The cell is dead.: negative-reading-means-dead-cell``, or ``The leads are swapped.: Swapped leads turn the sign, nothing else.``
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import ValidationInfo
from pydantic_core import PydanticCustomError, core_schema

from saltbridge.faults import Fault
from saltbridge.forms.fields import LONGEST_WORD
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import KeyedValues, Reading, nearest, shown, wrong
from saltbridge.forms.value_types import Option, read_option

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)+")
_OWN = "said-"
_HINT = "Write the id of an idea or common error, or a sentence of your own that says what to look at."


@dataclass(frozen=True, slots=True)
class WrongOption:
    """An option that is wrong, and what it ``shows``: an id, or a sentence; "" where nothing is told of it."""

    option: Option
    shows: str


def is_id(shows: str) -> bool:
    """Whether what an option shows is written as an id, and no sentence."""
    return _ID.fullmatch(shows) is not None


def name_of(shows: str) -> str:
    """The id under which a belief is told: its own, or one made of its words."""
    return shows if is_id(shows) else _OWN + hashlib.sha256(shows.encode()).hexdigest()[:10]


def is_own(name: str) -> bool:
    """Whether an id was made of words of a template."""
    return name.startswith(_OWN)


def unknown_beliefs(options: Mapping[str, WrongOption], known: Mapping[str, object]) -> Iterator[Fault]:
    """A fault for each id that is none, at the key of its option."""
    for key, each in options.items():
        if is_id(each.shows) and each.shows not in known:
            hint = (
                nearest(each.shows, known)
                or "They stand in data/ideas.yaml and data/slips; a sentence of your own ends with a full stop."
            )
            yield Fault("unknown-idea", "the id of an idea or common error, or a sentence", f"`{each.shows}`", hint, key=key)


def _belief(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise wrong("wrong-type", "what the option shows", shown(value), _HINT)
    text = " ".join(value.split())
    if is_id(text):
        return text
    if text[-1] not in ".?!" or len(text) > LONGEST_WORD:
        found = f"{len(text)} characters" if len(text) > LONGEST_WORD else shown(text)
        raise wrong("sentence", f"an id, or a sentence of at most {LONGEST_WORD} characters with its full stop", found, _HINT)
    if re.search(r"[{}`*<>]", text):
        raise wrong(
            "sentence", "plain words, without holes and marks", shown(text), "It is said as it stands, whatever is drawn."
        )
    return text


class _WrongOptions:
    """Reads options with what each shows; a list alone shows nothing."""

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        return core_schema.with_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        told = {"type": "object", "additionalProperties": {"type": "string"}, "minProperties": 1}
        return {"anyOf": [told, {"type": "array", "items": {"type": "string"}, "minItems": 1}]}

    def read(self, value: object, info: ValidationInfo) -> tuple[WrongOption, ...]:
        if isinstance(value, tuple):
            return value
        if isinstance(value, list) and value and all(isinstance(each, str) for each in value):
            return tuple(WrongOption(read_option(each, info), "") for each in value)
        if not isinstance(value, dict) or not value:
            raise wrong(
                "wrong-type",
                "wrong options, each with what it shows",
                shown(value),
                "As `The cell is dead.: negative-reading-means-dead-cell`.",
            )
        return tuple(WrongOption(read_option(str(key), info), self._shows(value, str(key), info)) for key in value)

    def _shows(self, value: dict[str, object], key: str, info: ValidationInfo) -> str:
        """What an option shows; what is wrong with it is noted at its own line where the file is at hand."""
        try:
            return _belief(value[key])
        except PydanticCustomError as trouble:
            told = (trouble.context or {}).get("faults", ())
            if not isinstance(value, KeyedValues) or not isinstance(info.context, Reading):
                raise
            line = next((entry.line for entry in value.table.entries if entry.key == key), 0)
            info.context.faults.extend(each.at(line=line, key=f"{value.path}.{key}") for each in told)
            return ""


def read_wrong_options(value: object, info: ValidationInfo) -> tuple[WrongOption, ...]:
    """Options with what each shows, as they are written."""
    return _WrongOptions().read(value, info)


WrongOptions = Annotated[tuple[WrongOption, ...], _WrongOptions()]


def texts_of(options: tuple[WrongOption, ...]) -> Iterator[Prose]:
    """The words of the options."""
    return (each.option.prose for each in options)
