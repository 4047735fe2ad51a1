"""From a scenario as data to the model of what a template writes under its kind, and so to its schema."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache
from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import AfterValidator, Field, create_model, model_validator

from saltbridge.catalogue.scenario_records import DrawnKey, ScenarioEntry
from saltbridge.catalogue.word_lists import WORD_LISTS, WordList
from saltbridge.forms.fields import AtLeastTwo, Drawn, Keys, Measures, Several, Text, Whole, known_word
from saltbridge.forms.plain_numbers import PlainNumbers
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Couple, Metal, listed


class Declared(Keys):
    """The keys of a kind that stands in data; ``entry`` is what stands there."""

    entry: ClassVar[ScenarioEntry]

    @model_validator(mode="after")
    def _together(self) -> Self:
        """What may stand beside what, and how many there are to draw from."""
        present = {key.name for key in self.entry.draws if self.value(key) not in {None, ()} and self._told(key)}
        _two_of(self.entry, present)
        _either(self.entry, present)
        _beside(self.entry, present)
        for key in self.entry.draws:
            self._enough(key)
            self._apart(key)
            self._beside(key)
        return self

    def value(self, key: DrawnKey) -> Any:
        """What the template wrote under a key, or what counts without it."""
        return getattr(self, attribute(key.name))

    def _told(self, key: DrawnKey) -> bool:
        return attribute(key.name) in self.model_fields_set

    def many(self, key: DrawnKey) -> int:
        """How many of a key's words are drawn."""
        if len(key.called) > 1:
            return len(key.called)
        teller = next((each for each in self.entry.draws if each.name == key.many), None)
        return int(self.value(teller)) if teller is not None else int(key.many)

    def _apart(self, key: DrawnKey) -> None:
        other = next((each for each in self.entry.draws if each.name == key.other_than), None)
        if other is not None and (word := self.value(other)) in (self.value(key) or ()):
            raise wrong("other-than", f"`{key.name}` without the word of `{other.name}`", f"`{word}`", "Take it out.")

    def _beside(self, key: DrawnKey) -> None:
        other = next((each for each in self.entry.draws if each.name == key.only_with[0]), None)
        if other is not None and self.value(key) is not None and self.value(other) != key.only_with[1]:
            expected = f"`{key.name}` with `{other.name}: {key.only_with[1]}`"
            raise wrong("only-with", expected, f"`{other.name}: {self.value(other)}`")

    def _enough(self, key: DrawnKey) -> None:
        words = self.value(key)
        if key.what == "quantity" and words is not None and len(words.values) < len(key.called) > len(key.under):
            raise wrong("too-few", f"`{key.name}` with {len(key.called)} values or more", f"{len(words.values)}")
        if key.what == "some of" and words and len(words) < self.many(key):
            expected = f"`{key.name}` with {self.many(key)} or more to draw from"
            raise wrong("too-few", expected, f"{len(words)}", "Add some, or draw fewer.")


@lru_cache(maxsize=1024)
def attribute(key: str) -> str:
    """The attribute of a model that holds a key: its words joined, unless every model has an attribute of that name."""
    name = re.sub(r"[^A-Za-z0-9]", "_", key)
    return f"key_{name}" if hasattr(Declared, name) or name in Declared.__annotations__ or name.startswith("model_") else name


def _two_of(entry: ScenarioEntry, present: set[str]) -> None:
    given = [name for name in entry.two_of if name in present]
    if entry.two_of and len(given) != 2:
        *most, last = (f"`{name}`" for name in entry.two_of)
        found = "all three" if given[2:] else f"only `{given[0]}`" if given else "none"
        raise wrong("two-of", f"two of {', '.join(most)} and {last}", found, "The third is what is left to find.")


def _beside(entry: ScenarioEntry, present: set[str]) -> None:
    """At least one of some keys, all of those that go together, and what one needs beside it."""
    if entry.some_of and not present & set(entry.some_of):
        raise wrong("one-or-more", " or ".join(f"`{name}`" for name in entry.some_of), "none of them")
    missing = [name for name in entry.together if name not in present]
    if missing and len(missing) < len(entry.together):
        raise wrong("together", " and ".join(f"`{name}`" for name in entry.together) + " together", f"no `{missing[0]}`")
    for name, other in entry.needs.items():
        if name in present and other not in present:
            raise wrong("together", f"`{other}` beside `{name}`", f"no `{other}`")


def _either(entry: ScenarioEntry, present: set[str]) -> None:
    """One of the sets is there, and nothing of the others."""
    sets = [set(each) for each in entry.either]
    there = present & set().union(*sets)
    if sets and there not in sets:
        ways = [" with ".join(f"`{name}`" for name in each) or "none of them" for each in entry.either]
        found = " and ".join(f"`{key.name}`" for key in entry.draws if key.name in there) or "none of them"
        raise wrong("either", "one of: " + "; ".join(ways), found)


@lru_cache(maxsize=512)
def model_of(entry: ScenarioEntry) -> type[Declared]:
    """The model of a kind."""
    fields: dict[str, Any] = {attribute(key.name): _field(key) for key in entry.draws}
    name = "".join(word.capitalize() for word in entry.kind.replace("-", " ").split()) + "Scenario"
    model = create_model(name, __base__=Declared, __doc__=entry.about, **fields)
    model.entry = entry
    return model


def _field(key: DrawnKey) -> tuple[Any, Any]:
    """The type of a key's value and its default with its meaning."""
    kind = _type(key)
    if key.needed:
        return kind, Field(alias=key.name, description=key.means)
    if key.usual:
        default: Any = int(key.usual) if key.what == "count" else (key.usual,) if key.what in {"one of", "some of"} else key.usual
        return kind, Field(default, alias=key.name, description=key.means)
    return kind | None, Field(None, alias=key.name, description=key.means)


def _type(key: DrawnKey) -> Any:
    match key.what:
        case "one of":
            several: Any = Several
            return several[_word(key.of)]
        case "some of":
            two_or_more: Any = AtLeastTwo
            return two_or_more[_word(key.of)]
        case "given":
            return _word(key.of)
        case "word":
            return Literal[key.words]
        case "count":
            return Annotated[Whole, AfterValidator(_within(key))]
        case "quantity":
            return Annotated[Drawn, _measures(key)] if key.needed else Annotated[Drawn | None, _measures(key)]


def _word(words: str) -> Any:
    """One word of a list."""
    if words == "metals":
        return Metal
    if words == "couples":
        return Couple
    known = WORD_LISTS[words]
    if known.fits is not None:
        return Annotated[Text, AfterValidator(_fitting(known))]
    return Annotated[Text, listed(lambda word: known_word(word, known.words(), known.code, known.expected), known.words)]


def _fitting(known: WordList) -> Any:
    """A check that a word is of an open list."""

    def check(word: str) -> str:
        if not known.has(word):
            raise wrong(known.code, known.expected, f"`{word}`")
        return word

    return check


def _measures(key: DrawnKey) -> Measures:
    if not key.unit:
        return PlainNumbers(key.least, key.most, whole=key.whole)
    return Measures(key.unit, bare=key.bare, positive=not key.any_sign)


def _within(key: DrawnKey) -> Any:
    """A check that a whole number lies within the bounds."""

    def check(value: int) -> int:
        if (key.least and value < Decimal(key.least)) or (key.most and value > Decimal(key.most)):
            raise wrong("count", f"`{key.name}` from {key.least or 0} to {key.most}", f"{value}")
        return value

    return check
