"""Values of a template that are read further than their characters: prose, conditions, units, and names of things known."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Annotated, Any, NamedTuple

from pydantic import BeforeValidator, ValidationInfo, WithJsonSchema
from pydantic_core import core_schema

from saltbridge import tables, units
from saltbridge.chemistry import realism
from saltbridge.document import Paragraph
from saltbridge.faults import Faulty
from saltbridge.forms import registries as known
from saltbridge.forms.conditions import NAME, Condition, parse_condition
from saltbridge.forms.fields import AtLeastTwo, Text
from saltbridge.forms.prose import Prose, read_prose
from saltbridge.forms.validation_messages import Reading, carried, shown, wrong
from saltbridge.tables.benches import bridge_salts


def _prose(value: object, info: ValidationInfo) -> Prose:
    if not isinstance(value, str) or not value.strip():
        raise wrong("wrong-type", "a text", shown(value))
    try:
        reading = info.context if isinstance(info.context, Reading) else Reading()
        return read_prose(value, reading.rows, reading.say)
    except Faulty as trouble:
        raise carried(trouble) from None


def _sentences(value: object, info: ValidationInfo) -> Prose:
    """A text that stands in a line: one paragraph, without lists and tables."""
    found = _prose(value, info)
    if len(found.blocks) != 1 or not isinstance(found.blocks[0], Paragraph):
        raise wrong(
            "one-paragraph",
            "one paragraph, without lists and tables",
            f"{len(found.blocks)} of them or another kind",
            "A text of several paragraphs goes under `text`.",
        )
    return found


def _condition(value: object) -> Condition:
    if not isinstance(value, str):
        raise wrong("wrong-type", "a condition, as `E0_cell >= 0.20 V`", shown(value))
    try:
        return parse_condition(value)
    except Faulty as trouble:
        raise carried(trouble) from None


def _unit(value: object) -> str:
    try:
        return units.unit_text(str(value))
    except Faulty as trouble:
        raise carried(trouble) from None


@dataclass(frozen=True, slots=True)
class Option:
    """What can be chosen: a name of the scenario where ``text`` is one (``left.metal``), else words for the student.

    ``wording`` is what the template says in its place; the text is then the value behind it (``zero: The current stops.``).
    """

    text: str
    prose: Prose
    wording: str = ""

    @property
    def may_be_name(self) -> bool:
        """Whether the text is written like a name; the derivation knows whether it is one."""
        return NAME.fullmatch(self.text) is not None


def read_option(value: object, info: ValidationInfo) -> Option:
    """One option as it is written, alone or in a table with its wording."""
    if isinstance(value, _Worded):
        return Option(value.text, _prose(value.wording, info), str(value.wording).strip())
    return Option(str(value).strip(), _prose(value, info))


class _Worded(NamedTuple):
    """An option as it stands in a table of options."""

    text: str
    wording: object


class _OptionTable:
    """Reads a list of options, or a table of each value with its wording."""

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        return core_schema.no_info_before_validator_function(self._read, handler(source))

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        worded = {"type": "object", "additionalProperties": {"type": "string"}, "minProperties": 2}
        return {"anyOf": [handler(core), worded]}

    def _read(self, value: object) -> object:
        return [_Worded(str(text).strip(), wording) for text, wording in value.items()] if isinstance(value, dict) else value


def _told(value: object) -> str:
    """A name, or a name and the unit in which it is told (``E_cell in mV``)."""
    name, among, unit = str(value).strip().partition(" in ")
    if not NAME.fullmatch(name):
        raise wrong("name", "a name such as `E_cell`, or `E_cell in mV`", shown(value))
    return f"{name} in {_unit(unit)}" if among else name


_TEXT = {"type": "string"}
Markdown = Annotated[Prose, BeforeValidator(_prose), WithJsonSchema(_TEXT)]
Sentences = Annotated[Prose, BeforeValidator(_sentences), WithJsonSchema(_TEXT)]
ConditionText = Annotated[Condition, BeforeValidator(_condition), WithJsonSchema(_TEXT)]
UnitText = Annotated[str, BeforeValidator(_unit), WithJsonSchema(_TEXT)]
ToldName = Annotated[str, BeforeValidator(_told), WithJsonSchema(_TEXT)]
OptionText = Annotated[Option, BeforeValidator(read_option), WithJsonSchema(_TEXT)]
Options = Annotated[AtLeastTwo[OptionText], _OptionTable()]


class _Known:
    """A word of a closed list; the schema names them all, so that an editor can offer them."""

    def __init__(self, check: Callable[[str], str], words: Callable[[], Iterable[str]]) -> None:
        self.check, self.words = check, words

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        return core_schema.no_info_after_validator_function(self.check, handler(source))

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        return {"type": "string", "enum": list(self.words())}


class _KnownCouple:
    """A couple of the table or of the bank; the schema names those of the table, so that an editor can offer them."""

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        return core_schema.with_info_after_validator_function(self._check, handler(source))

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        own = {"type": "string", "description": "A couple of the bank's own couples.csv."}
        return {"anyOf": [{"type": "string", "enum": list(tables.potentials())}, own]}

    def _check(self, value: str, info: ValidationInfo) -> str:
        return known.couple(value, info.context.couples if isinstance(info.context, Reading) else ())


def listed(check: Callable[[str], str], words: Callable[[], Iterable[str]]) -> _Known:
    """A closed list for a word that a family of its own names."""
    return _Known(check, words)


Metal = Annotated[Text, _Known(known.metal, tables.metals)]
Couple = Annotated[Text, _KnownCouple()]
BridgeSaltName = Annotated[
    Text,
    _Known(
        lambda word: known.known_word(word, bridge_salts(), "unknown-bridge-salt", "the formula of a salt for a bridge"),
        bridge_salts,
    ),
]
Outcome = Annotated[Text, _Known(known.outcome, known.outcomes)]
RuleCode = Annotated[Text, _Known(known.rule, lambda: realism.RULES)]
