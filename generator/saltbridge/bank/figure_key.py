"""The key ``figure`` of a template: the name of a figure, or the name with keys of its own beneath."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Annotated, Any

from pydantic_core import core_schema

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.forms.validation_messages import nearest, shown, wrong
from saltbridge.scenarios.figures.figure_entries import NONE, figures, fitting
from saltbridge.scenarios.figures.figure_records import DRAWN, FigureEntry
from saltbridge.scenarios.kinds.offered import offered

LETTERS, ARROWS, ALL = "letters", "arrows", "all"
MOST_LETTERS = 8


@dataclass(frozen=True, slots=True)
class FigureUse:
    """The figure that a template draws: its words by key, the places with letters and those with arrows; no name: none."""

    name: str = ""
    words: Mapping[str, str] = field(default_factory=dict)
    letters: tuple[str, ...] = ()
    arrows: tuple[str, ...] = ()

    @property
    def entry(self) -> FigureEntry | None:
        """What data says of it."""
        return figures()[self.name] if self.name else None


NO_FIGURE = FigureUse()


def refuse_unfit(use: FigureUse, kind: str) -> None:
    """Complain of a figure that a scenario of this kind has nothing for, and say which figures fit."""
    if use.entry is not None and not use.entry.fits(kind):
        known = _listed(_having_all(kind))
        fits = f"It fits {_listed(use.entry.kinds)}."
        raise wrong("figure", f"a figure for this scenario: {', '.join(filter(None, (known, '`none`')))}", f"`{use.name}`", fits)


def _having_all(kind: str) -> tuple[str, ...]:
    """The figures that the examples of a kind have everything for; of a bank's own kind those that may fit."""
    known = catalogue()
    return offered(kind, known).figures if kind in known.scenarios else fitting(kind)


def _listed(kinds: Iterable[str]) -> str:
    return ", ".join(f"`{kind}`" for kind in kinds)


def _read(value: object) -> FigureUse:
    if isinstance(value, FigureUse):
        return value
    if isinstance(value, str):
        return NO_FIGURE if value == NONE else _with_keys(figures()[_name(value)], {})
    if not isinstance(value, dict) or len(value) != 1:
        hint = "As `figure: galvanic cell`, or `figure: {galvanic cell: {instrument: lamp}}`."
        raise wrong("figure", "the name of one figure", shown(value), hint)
    ((name, keys),) = value.items()
    return _with_keys(figures()[_name(str(name))], keys)


def _name(name: str) -> str:
    if name not in figures():
        known = "Known: " + ", ".join(f"`{each}`" for each in (*figures(), NONE)) + "."
        raise wrong("figure", "the name of a figure", shown(name), nearest(name, (*figures(), NONE)) or known)
    return name


def _with_keys(entry: FigureEntry, keys: object) -> FigureUse:
    if not isinstance(keys, dict):
        raise wrong("figure", f"keys of the figure `{entry.name}` with values", shown(keys), _keys_of(entry))
    for key in keys:
        if key not in _known_keys(entry):
            hint = nearest(str(key), _known_keys(entry)) or _keys_of(entry)
            raise wrong("figure", f"a key of the figure `{entry.name}`", f"`{key}`", hint)
    words = {key: _one_of(entry, key, keys[key]) for key in entry.keys if key in keys}
    letters = _places(LETTERS, ALL if entry.lettered else keys.get(LETTERS), entry.letters)
    return FigureUse(entry.name, words, letters, _places(ARROWS, keys.get(ARROWS), entry.arrows))


def _known_keys(entry: FigureEntry) -> tuple[str, ...]:
    return (*entry.keys, *([LETTERS] if entry.letters and not entry.lettered else ()), *([ARROWS] if entry.arrows else ()))


def _keys_of(entry: FigureEntry) -> str:
    known = _known_keys(entry)
    return f"Keys: {_listed(known)}." if known else "It has no keys: write its name alone."


def _one_of(entry: FigureEntry, key: str, value: object) -> str:
    known = entry.keys[key]
    words = (*known.words, *([DRAWN] if known.usual == DRAWN else ()))
    if value not in words:
        near = nearest(value, words) if isinstance(value, str) else ""
        raise wrong("figure", f"`{key}` as {' or '.join(f'`{word}`' for word in words)}", shown(value), near)
    return str(value)


def _places(key: str, value: object, known: Mapping[str, object]) -> tuple[str, ...]:
    """Places of the figure in the order told; ``all`` of them."""
    if value is None:
        return ()
    if value == ALL:
        return tuple(known)
    told = [value] if isinstance(value, str) else value
    if not isinstance(told, list) or not told or len(told) > MOST_LETTERS or len(set(map(str, told))) < len(told):
        raise wrong("figure", f"`{key}` with a list of places, each once", shown(value), f"Places: {_listed(known)}.")
    for place in told:
        if not isinstance(place, str) or place not in known:
            hint = (nearest(place, known) if isinstance(place, str) else "") or f"Places: {_listed(known)}."
            raise wrong("figure", f"a place of the figure for {key}", shown(place), hint)
    return tuple(map(str, told))


class _FigureKey:
    """Reads the key and tells editors what may stand there."""

    def __get_pydantic_core_schema__(
        self, source: Any, handler: Callable[[Any], core_schema.CoreSchema]
    ) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(_read)

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        names = [{"const": name, "description": each.about} for name, each in figures().items()]
        keyed = {name: _schema(each) for name, each in figures().items() if _known_keys(each)}
        table = {"type": "object", "additionalProperties": False, "minProperties": 1, "maxProperties": 1, "properties": keyed}
        return {"anyOf": [{"const": NONE}, *names, table]}


def _schema(entry: FigureEntry) -> dict[str, Any]:
    keys: dict[str, Any] = {
        key: {"enum": [*each.words, *([DRAWN] if each.usual == DRAWN else [])], "description": each.means}
        for key, each in entry.keys.items()
    }
    for key, places, means in (
        (LETTERS, entry.letters, "Places that get a letter, drawn for each variant, to ask about."),
        (ARROWS, entry.arrows, "Places that get two arrows of opposite ways, each with a letter, to choose from."),
    ):
        if places and key in _known_keys(entry):
            each = {"type": "array", "items": {"enum": list(places)}, "uniqueItems": True, "minItems": 1}
            keys[key] = {"anyOf": [{"enum": [ALL, *places]}, each], "description": means}
    return {"type": "object", "additionalProperties": False, "properties": keys, "description": entry.about}


FigureKey = Annotated[FigureUse, _FigureKey()]
