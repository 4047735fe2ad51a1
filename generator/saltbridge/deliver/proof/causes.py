"""What differs between two banks in the inputs of one template: rows of the sheet, constants, settings, relations, its own keys."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from saltbridge.bank.bank import BANK_FILE, Bank
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.deliver.proof.content import Used, settings_used, used_by
from saltbridge.faults import Faulty
from saltbridge.forms.strict_yaml import read_yaml

_LONGEST = 60
NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Cause:
    """One input that differs: its kind, its name, its text before and after, and where it stands now (line 0: not known)."""

    kind: str
    what: str
    before: str
    after: str
    file: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Side:
    """A template in one of the two banks."""

    template: Template
    bank: Bank
    catalogue: Catalogue


def causes(old: Side, new: Side) -> tuple[Cause, ...]:
    """Everything that differs in what the template's numbers, texts and marks follow from."""
    return (*_used(old, new), *_settings(old, new), *_keys(old, new))


def _used(old: Side, new: Side) -> Iterator[Cause]:
    """Rows of the sheet, constants and relations; what only one side uses comes from a difference of the template itself."""
    try:
        before, after = (used_by(side.template, side.bank, side.catalogue) for side in (old, new))
    except Faulty:  # one of them can't be drawn, which the comparison tells
        return
    yield from _sheet(before, after, new)
    for what, was, now in _differing(before.relations, after.relations):
        if NOTHING not in {was, now}:
            yield Cause("relation", what, was, now, "relations.yaml")


def _sheet(before: Used, after: Used, new: Side) -> Iterator[Cause]:
    sheet = new.bank.settings.sheet
    file = sheet if sheet.endswith(".yaml") else f"data sheet {sheet}"
    for what, was, now in _differing(before.sheet, after.sheet):
        if NOTHING not in {was, now}:
            yield Cause("data sheet", what, was, now, file, _line_of(new.bank.folder / sheet, what))


def _line_of(path: Path, what: str) -> int:
    """The line of a row or constant in a bank's own sheet; 0 where it is a shipped one."""
    name = re.sub(r"^\w+0?\((.*)\)$", r"\1", what)
    if path.suffix != ".yaml" or not path.is_file():
        return 0
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if line.strip().strip("\"'").startswith((f"{name}:", f'{name}":', f"{name}':")):
            return number
    return 0


def _settings(old: Side, new: Side) -> Iterator[Cause]:
    before, after = ({"id": side.bank.id, **settings_used(side.bank)} for side in (old, new))
    lines = {entry.key: entry.line for entry in read_yaml(new.bank.folder / BANK_FILE, BANK_FILE).entries}
    for what, was, now in _differing(before, after):
        yield Cause("setting", what, was, now, BANK_FILE, lines.get(what, 0))


def _keys(old: Side, new: Side) -> Iterator[Cause]:
    before, after = (
        dict(_flat(read_yaml(side.bank.folder / side.template.file, side.template.file).plain())) for side in (old, new)
    )
    for what, was, now in _differing(before, after):
        place = new.template.fault(what, "", expected="", found="")
        yield Cause("template", what, was, now, new.template.file, place.line)


def _flat(value: Any, path: str = "") -> Iterator[tuple[str, str]]:
    """Every text of a file's keys by its path; a short list of texts stays together."""
    if isinstance(value, dict):
        for key, each in value.items():
            yield from _flat(each, f"{path}.{key}" if path else str(key))
    elif isinstance(value, list) and not all(isinstance(each, str) for each in value):
        for at, each in enumerate(value, 1):
            yield from _flat(each, f"{path}[{at}]")
    else:
        yield path, "[" + ", ".join(value) + "]" if isinstance(value, list) else str(value)


def _differing(before: Mapping[str, str], after: Mapping[str, str]) -> Iterator[tuple[str, str, str]]:
    for what in {**before, **after}:
        was, now = before.get(what, NOTHING), after.get(what, NOTHING)
        if was != now:
            yield what, *_short(was, now)


def _short(was: str, now: str) -> tuple[str, str]:
    """Both texts short enough for a line, from where they part."""
    one, other = " ".join(was.split()), " ".join(now.split())
    if max(len(one), len(other)) <= _LONGEST:
        return one, other
    at = next((at for at, pair in enumerate(zip(one, other, strict=False)) if pair[0] != pair[1]), min(len(one), len(other)))
    start = max(0, at - 20)
    return _cut(one, start), _cut(other, start)


def _cut(text: str, start: int) -> str:
    end = start + _LONGEST
    return ("…" if start else "") + text[start:end] + ("…" if len(text) > end else "")
