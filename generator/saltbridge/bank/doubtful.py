"""A template with faults, read as far as it can be, so that wrong names in it are told in the same run as wrong keys."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import PurePosixPath
from typing import Any

from pydantic import ValidationError

from saltbridge.bank.template import Template, TemplateKeys, as_template
from saltbridge.faults import Fault
from saltbridge.forms.registries import outcomes
from saltbridge.forms.strict_yaml import Table, lines_of
from saltbridge.forms.validation_messages import Reading, values_of

OF_NAMES = frozenset({
    "unknown-name", "unknown-quantity", "unknown-slip", "unknown-idea", "condition-word", "not-derivable", "dimension", "unit",
    "condition-unit", "condition-kind", "option-not-words", "no-right-option", "no-equation", "not-a-number", "whole-number",
})  # fmt: skip
"""Codes that stand whatever the faulty keys may come to mean; all other checks wait until the template can be read whole."""

_NAMES_COME_FROM = frozenset({"scenario", "further quantities", "given", "context"})
_PART = {"ask": "…", "choose": "yes", "from": ["yes", "no"]}


def doubtful(raw: Table, faults: Sequence[Fault], file: str, reading: Reading) -> Template | None:
    """The template with stand-ins for its faulty keys and parts; ``None`` where the faults leave open which names there are."""
    values = values_of(raw)
    if not isinstance(values, dict) or not all(_stood_in(values, fault) for fault in faults):
        return None
    try:
        keys = TemplateKeys.model_validate(values, context=replace(reading, faults=[]))
    except ValidationError:
        return None
    return as_template(keys, template_id=PurePosixPath(file).stem, file=file, lines=dict(lines_of(raw)))


def _stood_in(values: dict[str, Any], fault: Fault) -> bool:
    """Put something sound in the place of a fault, if that leaves the names as they are."""
    top = re.split(r"[.\[]", fault.key or fault.code)[0]
    if top in _NAMES_COME_FROM:
        return False
    if fault.code == "unknown-key":  # it is left out of what is read
        return True
    place = re.match(r"parts\[([0-9]+)\]", fault.key)
    if place is not None:
        values["parts"][int(place[1]) - 1] = dict(_PART)
        return True
    usual = {"title": "…", "outcome": next(iter(outcomes())), "level": "core", "text": "…"}
    if top in usual:
        values[top] = usual[top]
    else:
        values.pop(top, None)
    return True
