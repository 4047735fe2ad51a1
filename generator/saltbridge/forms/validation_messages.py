"""Tells the model's complaints in our words: one fault each, with file, line, key path, expected, found and a hint."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import PydanticCustomError

from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.chemistry.inscriptions import in_english
from saltbridge.faults import Fault, Faulty
from saltbridge.faults import nearest as nearest_of
from saltbridge.forms.strict_yaml import Listing, Node, Place, Scalar, Table, locate
from saltbridge.tables import SheetRow

Say = Callable[[str], str]
Model = TypeVar("Model", bound=BaseModel)

# What to write for a key that every template or part needs.
AS_IN = {
    "title": "As `title: A cell for the lamp`.",
    "outcome": "As `outcome: T3.4`.",
    "level": "As `level: core`.",
    "use": "As `use: practice`.",
    "scenario": "It names the kind of situation, as `galvanic cell:` with its `metals:` beneath.",
    "text": "What the question tells, as `text: The left electrode is {{ left.metal }}.`",
    "parts": "A list: each part has `ask:` and what is asked for, as `find: E0_cell`.",
    "ask": "What the student is asked, as `ask: Calculate the standard cell potential.`",
    "from": "The options, as `from: [left.metal, right.metal]`.",
}


class KeyedValues(dict[str, object]):
    """Keys of a file as plain values, which remember where they stand, so that a model can tell the line of a wrong key."""

    def __init__(self, table: Table, path: str) -> None:
        super().__init__()
        self.table = table
        self.path = path


def values_of(node: Node, path: str = "") -> object:
    """Plain texts, lists and ``KeyedValues`` of a node."""
    match node:
        case Scalar(text):
            return text
        case Listing(items):
            return [values_of(item, f"{path}[{position}]") for position, item in enumerate(items, 1)]
        case Table(entries):
            keyed = KeyedValues(node, path)
            for entry in entries:
                keyed[entry.key] = values_of(entry.value, f"{path}.{entry.key}" if path else entry.key)
            return keyed


@dataclass(slots=True)
class Reading:
    """What validators share while one file is read: the faults they note and what the bank sets."""

    faults: list[Fault] = field(default_factory=list)
    rows: Sequence[SheetRow] = ()
    say: Say = in_english
    couples: frozenset[str] = frozenset()
    scenarios: Sequence[ScenarioEntry] = ()


def wrong(code: str, expected: str, found: str, hint: str = "") -> PydanticCustomError:
    """A complaint that a validator raises; ``told`` turns it into a fault in its place."""
    return PydanticCustomError("saltbridge", "{code}", {"code": code, "faults": (Fault(code, expected, found, hint),)})


def carried(faulty: Faulty) -> PydanticCustomError:
    """Faults found by a reader below (prose, a quantity), carried out of a validator; their lines count from the value's first."""
    return PydanticCustomError("saltbridge", "{code}", {"code": faulty.faults[0].code, "faults": faulty.faults})


nearest = partial(nearest_of, mark="`")
"""A hint with the nearest word, as ``faults.nearest``, in the marks of a YAML file's words."""


def shown(value: object) -> str:
    """What stands in the file, short enough for a message."""
    if isinstance(value, str):
        text = value if len(value) <= 60 else value[:57] + "…"
        return f"`{text}`" if text else "nothing"
    return "a list" if isinstance(value, list) else "keys with values" if isinstance(value, dict) else f"`{value}`"


def unknown_keys(values: KeyedValues, known: Iterable[str]) -> list[Fault]:
    """A fault for each key that is not known, with the nearest one guessed."""
    names = tuple(known)
    faults = []
    for entry in values.table.entries:
        if entry.key not in names:
            path = f"{values.path}.{entry.key}" if values.path else entry.key
            expected = "one of the keys " + ", ".join(f"`{name}`" for name in names)
            faults.append(Fault("unknown-key", expected, f"`{entry.key}`", nearest(entry.key, names), line=entry.line, key=path))
    return faults


def checked(model: type[Model], raw: Table, file: str, reading: Reading) -> Model:
    """The model of a file's keys. Raises ``Faulty`` with all faults, those that its validators noted on the way among them."""
    reading.faults.clear()
    keys, faults = None, []
    try:
        keys = model.model_validate(values_of(raw), context=reading)
    except ValidationError as error:
        faults = told(error, raw, file)
    faults.extend(each.at(file=file) for each in reading.faults)
    if keys is None or faults:
        raise Faulty(without_echoes(faults))
    return keys


def told(error: ValidationError, root: Table, file: str) -> list[Fault]:
    """All complaints of a validation as faults with file, line and key path."""
    faults: list[Fault] = []
    for each in error.errors(include_url=False):
        steps = tuple(step for step in each["loc"] if not (isinstance(step, str) and step.startswith("<")))
        if each["type"] == "missing":
            place, key = locate(root, steps[:-1]), str(steps[-1])
            path = f"{place.key}.{key}" if place.key else key
            faults.append(
                Fault("missing-key", f"the key `{key}`", "no such key", AS_IN.get(key, ""), file=file, line=place.line, key=path)
            )
            continue
        place = locate(root, steps)
        faults.extend(_placed(one, place, file) for one in _complaints(each["type"], each.get("ctx", {}), each["input"]))
    return faults


def _complaints(kind: str, context: dict[str, Any], given: object) -> tuple[Fault, ...]:
    if kind == "saltbridge":
        return tuple(context["faults"])
    if kind == "literal_error":
        known = [word.strip("'") for word in str(context["expected"]).replace(" or ", ", ").split(", ")]
        expected = "one of " + ", ".join(f"`{word}`" for word in known) if len(known) > 1 else f"`{known[0]}`"
        return (Fault("unknown-word", expected, shown(given), nearest(given, known) if isinstance(given, str) else ""),)
    raise AssertionError(f"the template model lets pydantic complain by itself: {kind}")


def _placed(one: Fault, place: Place, file: str) -> Fault:
    line = place.line
    if one.line and isinstance(place.node, Scalar):
        line = place.node.first + one.line - 1
    return Fault(one.code, one.expected, one.found, one.hint, file=file, line=line, key=one.key or place.key)


_WHICH_KEYS = frozenset({"scenario-kind", "half-cells", "two-of", "either", "one-or-more", "together", "drawn"})


def without_echoes(faults: Iterable[Fault]) -> list[Fault]:
    """Leave out what only follows from a misspelt key beside it, so that one slip gives one message; in order of lines."""
    told_of = [*faults]
    unknown = [each for each in told_of if each.code == "unknown-key"]
    parents = {each.key.rpartition(".")[0] for each in unknown}
    guessed = {(each.key.rpartition(".")[0], each.hint) for each in unknown}

    def is_echo(each: Fault) -> bool:
        parent, _, name = each.key.rpartition(".")
        misspelt = each.code == "missing-key" and (parent, f"Did you mean `{name}`?") in guessed
        return misspelt or (each.code in _WHICH_KEYS and each.key in parents)

    return sorted((each for each in told_of if not is_echo(each)), key=lambda each: each.line)
