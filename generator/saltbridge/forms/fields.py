"""The kinds of values a template key can hold: text, name, whole number, quantity, a list, a thing to draw."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from decimal import Decimal
from functools import lru_cache
from typing import Annotated, Any, Self, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo, WithJsonSchema, model_validator
from pydantic_core import core_schema

from saltbridge import units
from saltbridge.faults import Faulty
from saltbridge.forms.conditions import NAME
from saltbridge.forms.validation_messages import KeyedValues, Reading, carried, nearest, shown, unknown_keys, wrong
from saltbridge.sigfigs import decimals_of

T = TypeVar("T")
MOST_VALUES = 1_000  # values one quantity may take; every draw weighs them all
LONGEST_WORD = 200  # characters of a name, a word, a quantity; prose has limits of its own
MOST_ITEMS = 200  # entries of one list
SMALLEST, LARGEST = Decimal("1e-30"), Decimal("1e30")  # sizes of a quantity; no scale of the trade comes near


def key_of(attribute: str) -> str:
    """The key in the file for an attribute: spaces instead of underscores."""
    return attribute.strip("_").replace("_", " ")


class Keys(BaseModel):
    """Keys of a file. Unknown ones are noted with a guess; the rest is still checked, so that one run tells all."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", alias_generator=key_of, populate_by_name=True, arbitrary_types_allowed=True
    )

    @model_validator(mode="before")
    @classmethod
    def _note_unknown(cls, values: object, info: ValidationInfo) -> object:
        if isinstance(values, KeyedValues) and isinstance(info.context, Reading):
            known = [each.alias or name for name, each in cls.model_fields.items()]
            info.context.faults.extend(unknown_keys(values, known))
            return {key: value for key, value in values.items() if key in known}
        if isinstance(values, dict | BaseModel):
            return values
        raise wrong("wrong-type", "keys with values", shown(values))


# ------------------------------------------------------------------ texts and numbers


def _text(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise wrong("wrong-type", "a text", shown(value))
    if len(value) > LONGEST_WORD:
        raise wrong("too-long", f"at most {LONGEST_WORD} characters", f"{len(value)} characters")
    return value.strip()


def _title(value: object) -> str:
    text = _text(value)
    if len(text) > 120 or "\n" in text:
        raise wrong("too-long", "at most 120 characters on one line", f"{len(text)} characters")
    return text


def _name(value: object) -> str:
    text = _text(value)
    if not NAME.fullmatch(text):
        raise wrong("name", "a name such as `E0_cell` or `left.metal`", shown(value))
    return text


def _identifier(value: object) -> str:
    text = _text(value)
    if not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", text):
        raise wrong("identifier", "small letters, digits and hyphens, such as `add-both-as-printed`", shown(value))
    return text


def _whole(value: object) -> int:
    if isinstance(value, int) and not isinstance(value, bool):
        return value
    if not isinstance(value, str) or not re.fullmatch(r"[0-9]{1,4}", value.strip()):
        raise wrong("wrong-type", "a whole number", shown(value))
    return int(value)


def _counted(value: object) -> int:
    number = _whole(value)
    if number < 1:
        raise wrong(
            "wrong-type", "a whole number from 1 up", shown(value), "Leave the key out: marks and minutes are counted then."
        )
    return number


def _yes_no(value: object) -> bool:
    if isinstance(value, bool):
        return value
    answers = {"true": True, "yes": True, "false": False, "no": False}
    if not isinstance(value, str) or value.strip().lower() not in answers:
        raise wrong("wrong-type", "`true` or `false`", shown(value))
    return answers[value.strip().lower()]


Text = Annotated[str, BeforeValidator(_text)]
Title = Annotated[str, BeforeValidator(_title)]
Name = Annotated[str, BeforeValidator(_name)]
Identifier = Annotated[
    str, BeforeValidator(_identifier), WithJsonSchema({"type": "string", "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$"})
]
Whole = Annotated[int, BeforeValidator(_whole), WithJsonSchema({"type": "integer", "minimum": 0, "maximum": 9999})]
Counted = Annotated[int, BeforeValidator(_counted), WithJsonSchema({"type": "integer", "minimum": 1, "maximum": 9999})]
YesNo = Annotated[bool, BeforeValidator(_yes_no), WithJsonSchema({"enum": [True, False, "yes", "no"]})]


def known_word(value: str, known: Iterable[str], code: str, expected: str) -> str:
    """Give the word back, if known; else complain, with the nearest one guessed, or all of them where they are few."""
    words = tuple(known)
    if value in words:
        return value
    listed = "Known: " + ", ".join(f"`{word}`" for word in words) + "." if len(words) <= 30 else ""
    raise wrong(code, expected, shown(value), nearest(value, words) or listed)


# ------------------------------------------------------------------ lists


class _Listed:
    """Reads a list; with ``lift``, one entry may stand without its brackets."""

    def __init__(self, *, least: int = 1, most: int = MOST_ITEMS, lift: bool = False) -> None:
        self.least, self.most, self.lift = least, most, lift

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        return core_schema.no_info_before_validator_function(self._read, handler(source))

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        schema: dict[str, Any] = dict(handler(core)) | {"minItems": self.least, "maxItems": self.most, "uniqueItems": True}
        return {"anyOf": [schema["items"], schema]} if self.lift else schema

    @property
    def _each(self) -> str:
        """What to write where there are too few: a name never stands for several."""
        return f"Write {self.least} or more, each by itself, in square brackets."

    def _read(self, value: object) -> object:
        if self.lift and isinstance(value, str | dict):
            return [value]
        if not isinstance(value, list | tuple):
            single = isinstance(value, str) and 0 < len(value) <= 40
            hint = self._each if self.least > 1 else f"Put it in square brackets: `[{value}]`." if single else ""
            raise wrong("wrong-type", "a list", shown(value), hint)
        if not self.least <= len(value) <= self.most:
            hint = self._each if self.least > max(1, len(value)) else ""
            raise wrong("list-length", f"{self.least} to {self.most} entries", f"{len(value)}", hint)
        seen = [each for each in value if isinstance(each, str)]
        if repeated := next((each for each in seen if seen.count(each) > 1), None):
            raise wrong("repeated", "each entry once", f"{shown(repeated)} twice")
        return value


Several = Annotated[tuple[T, ...], _Listed()]
Lettered = Annotated[tuple[T, ...], _Listed(most=26)]  # as many as letters: (a) to (z)
AtLeastTwo = Annotated[tuple[T, ...], _Listed(least=2)]
OneOrSeveral = Annotated[tuple[T, ...], _Listed(lift=True)]


# ------------------------------------------------------------------ quantities


def _quantity(value: object) -> str:
    text = _text(value)
    try:
        printed, unit = units.parse_quantity(text)
    except Faulty as trouble:
        raise carried(trouble) from None
    if (size := abs(Decimal(printed))) and not SMALLEST <= size <= LARGEST:
        raise wrong("quantity-size", f"zero or a size from {SMALLEST} to {LARGEST}", shown(text))
    return f"{printed} {unit}".strip()


_QUANTITY_SCHEMA: dict[str, Any] = {"type": ["string", "number"]}
QuantityText = Annotated[str, BeforeValidator(_quantity), WithJsonSchema(_QUANTITY_SCHEMA)]


@lru_cache(maxsize=256)
def _grid(lowest: str, highest: str, by: str) -> tuple[units.Quantity, ...]:
    """Every value from the lowest to the highest, printed with the decimals of the lowest and of the step."""
    (low, unit), (high, _), (step, _) = (units.parse_quantity(text) for text in (lowest, highest, by))
    first, wide = Decimal(low), Decimal(step)
    places = max(0, *(-int(Decimal(text).as_tuple().exponent) for text in (low, step)))
    count = int((Decimal(high) - first) / wide)
    return tuple(units.Quantity(f"{first + wide * index:.{places}f}", unit) for index in range(count + 1))


@lru_cache(maxsize=256)
def _parsed(texts: tuple[str, ...]) -> tuple[units.Quantity, ...]:
    return tuple(units.parse_quantity(text) for text in texts)


class Drawn(Keys):
    """A quantity to draw: one of a list (`from`), or any on a grid (`between` two values, by `step`)."""

    listed: Several[QuantityText] | None = Field(None, alias="from", description="The values it may take, each as it is printed.")
    between: AtLeastTwo[QuantityText] | None = Field(None, description="The lowest and the highest value.")
    step: QuantityText | None = Field(
        None, description="The step from one value to the next; its decimals are the decimals printed."
    )
    scatter: QuantityText | None = Field(
        None,
        description="How far a drawn value may stray to either side, as a measured one does: `0.02 A`; a whole number of steps of its last decimal.",
    )

    @model_validator(mode="after")
    def _one_way(self) -> Self:
        if (self.listed is None) == (self.between is None) or (self.step is None) != (self.between is None):
            raise wrong(
                "drawn", "either `from` with a list, or `between` and `step`", "another mixture", "As `from: [0.50 A, 1.00 A]`."
            )
        if self.between is not None:
            self._check_grid()
        if self.scatter is not None:
            self._check_scatter(*units.parse_quantity(self.scatter))
        return self

    def _check_scatter(self, printed: str, unit: str) -> None:
        size = Decimal(printed)
        for each in self.values:
            step = Decimal(1).scaleb(-decimals_of(each.printed))
            if each.unit != unit or size <= 0 or size % step or size >= abs(Decimal(each.printed)):
                expected = f"a size in {each.unit or 'no unit'}, less than {each.printed} and a whole number of steps of {step}"
                raise wrong("scatter", expected, f"`{self.scatter}`", f"As `scatter: {step} {each.unit}`.")

    def _check_grid(self) -> None:
        quantities = [units.parse_quantity(text) for text in (*(self.between or ()), self.step or "")]
        if len(quantities) != 3 or len({each.unit for each in quantities}) != 1:
            raise wrong(
                "drawn", "`between: [low, high]` and `step` in one unit", "something else", "As `between: [0.20 A, 1.00 A]`."
            )
        low, high, step = (Decimal(each.printed) for each in quantities)
        if step > 0 and high - low >= step * MOST_VALUES:
            raise wrong("drawn", f"at most {MOST_VALUES} values", f"{low} to {high} by {step}")
        if step <= 0 or low > high or (high - low) % step:
            raise wrong("drawn", "a whole number of steps from low to high", f"{low} to {high} by {step}")

    @property
    def values(self) -> tuple[units.Quantity, ...]:
        """Every value it may take, as printed, in order."""
        if self.listed is not None:
            return _parsed(tuple(self.listed))
        return _grid(*(self.between or ()), self.step or "")


class Measures:
    """Lets a quantity stand alone, and checks that every value is of the right kind; ``bare`` is the unit of a number without one."""

    def __init__(self, unit: str, *, bare: str = "", standard: bool = False, positive: bool = True) -> None:
        self.unit, self.bare, self.standard, self.positive = unit, bare, standard, positive

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        lifted = core_schema.no_info_before_validator_function(self._lift, handler(source))
        return core_schema.no_info_after_validator_function(self._check, lifted)

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        alone = {
            "type": "string",
            "description": f"One value, such as 1 {self.unit}" + (", or `standard`" if self.standard else ""),
        }
        return {"anyOf": [handler(core), alone]}

    def _lift(self, value: object) -> object:
        if self.standard and value == "standard":
            return None
        if isinstance(value, str):
            return {"from": [self._with_unit(value)]}
        if self.bare and isinstance(value, KeyedValues):
            for key, inner in value.items():
                value[key] = [self._with_unit(each) for each in inner] if isinstance(inner, list) else self._with_unit(inner)
        return value

    def _with_unit(self, value: object) -> object:
        bare = self.bare and isinstance(value, str) and re.fullmatch(r"[0-9.]+(?:e-?[0-9]+)?", value.strip())
        return f"{value} {self.bare}" if bare else value

    def _check(self, drawn: Drawn | None) -> Drawn | None:
        for printed, unit in drawn.values if drawn else ():
            if not unit or not units.same_dimension(unit, self.unit):
                usual = ", ".join(units.known_units(self.unit)[:6])
                raise wrong(
                    "quantity-kind",
                    f"a unit of the kind {self.unit}",
                    f"`{printed} {unit}`".replace(" `", "`"),
                    f"Usual: {usual}." if unit else f"Write the unit: `{printed} {self.unit}`. Usual: {usual}.",
                )
            if self.positive and Decimal(printed) <= 0:
                raise wrong("quantity-sign", "a value above zero", f"`{printed} {unit}`")
        return drawn
