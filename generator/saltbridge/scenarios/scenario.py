"""Scenarios: what is drawn. Kinds are told apart by the key that is present; most stand in data, some keep code."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, Any, Self

from pydantic import ConfigDict, Field, ValidationInfo, create_model, model_validator
from pydantic_core import core_schema

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.forms.fields import Keys, key_of
from saltbridge.forms.validation_messages import Reading, wrong
from saltbridge.scenarios.coded import CODED
from saltbridge.scenarios.declared_models import model_of


@dataclass(frozen=True)
class Scenario:
    """What a question is about: its ``kind``, such as ``galvanic cell``, and what stands under that key."""

    kind: str
    body: Keys


class Nothing(Keys):
    """What stands under no scenario."""


NO_SCENARIO = Scenario("", Nothing())
"""Where a template has none: all that it asks is told in words."""


class Kinds(Keys):
    """What the question is about: exactly one kind."""

    model_config = ConfigDict(json_schema_extra={"minProperties": 1, "maxProperties": 1})

    @model_validator(mode="after")
    def _one_kind(self) -> Self:
        if len(self._present) != 1:
            expected = "exactly one kind of scenario, such as `galvanic cell`, `electrolysis` or `bench`"
            raise wrong("scenario-kind", expected, f"{len(self._present)} of them" if self._present else "none of them")
        return self

    @property
    def _present(self) -> list[str]:
        return [name for name in type(self).model_fields if getattr(self, name) is not None]

    @property
    def scenario(self) -> Scenario:
        """The kind that is present, with what stands under it."""
        name = self._present[0]
        return Scenario(type(self).model_fields[name].alias or key_of(name), getattr(self, name))


def kinds_of(entries: Iterable[ScenarioEntry]) -> type[Kinds]:
    """The model of ``scenario:`` with a key for each kind that a template may name."""
    return _kinds(tuple(entries))


@lru_cache(maxsize=64)
def _kinds(entries: tuple[ScenarioEntry, ...]) -> type[Kinds]:
    fields: dict[str, Any] = {
        f"kind_{re.sub(r'[^a-z0-9]', '_', each.kind)}": (
            (model_of(each) if each.draws else CODED[each.kind].model) | None,
            Field(None, alias=each.kind, description=each.about),
        )
        for each in entries
        if each.draws or each.kind in CODED
    }
    return create_model("Scenario", __base__=Kinds, __doc__=Kinds.__doc__, **fields)


class _AnyKind:
    """Reads a scenario of the kinds shipped and of the bank's own."""

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        shipped = kinds_of(catalogue().scenarios.values())
        return core_schema.with_info_wrap_validator_function(self._read, handler.generate_schema(shipped))

    def _read(self, value: object, read: core_schema.ValidatorFunctionWrapHandler, info: ValidationInfo) -> Scenario:
        own = info.context.scenarios if isinstance(info.context, Reading) else ()
        if isinstance(value, Scenario):
            return value
        found = (
            kinds_of((*catalogue().scenarios.values(), *own)).model_validate(value, context=info.context) if own else read(value)
        )
        assert isinstance(found, Kinds)  # noqa: S101 - either way it is that model
        return found.scenario


AnyScenario = Annotated[Scenario, _AnyKind()]
