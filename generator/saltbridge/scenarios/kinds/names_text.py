"""The names of a kind of scenario for a terminal, grouped by what a template does with them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.catalogue.naming import explain
from saltbridge.scenarios.figures.figure_lines import figure_lines
from saltbridge.scenarios.kinds.kind_choices import Choice
from saltbridge.scenarios.kinds.kind_names import KindNames, Name
from saltbridge.scenarios.kinds.kind_orders import Orderable
from saltbridge.scenarios.kinds.offered import ScenarioKey, kinds
from saltbridge.sigfigs import NARROW_SPACE

LONGEST = 48  # characters of an example
WIDEST_NAME = 26
SOMETIMES = "*"
FOOT = f"{SOMETIMES} not in every draw: it hangs on what the scenario says, and on what is drawn."
EVERYWHERE = (
    "  Of every kind: potential_name (cell potential or EMF), standard_concentration, context (where the template draws one)"
)
_STEM = re.compile(r"(.*?[A-Za-z_])([1-9][0-9]*)")


def kinds_text(catalogue: Catalogue) -> str:
    """All kinds, a line each."""
    known = kinds(catalogue)
    first = max(map(len, known))
    return "\n".join(f"{kind:<{first}}  {catalogue.scenarios[kind].about}" for kind in known)


def names_text(names: KindNames, keys: Sequence[ScenarioKey], examples: Sequence[Mapping[str, Any]], catalogue: Catalogue) -> str:
    """What the kind is, how it is written, and its names in groups."""
    entry = catalogue.scenarios[names.kind]

    def means(name: str) -> str:
        return explain(name, entry, catalogue)

    constants = [each for each in names.printed if _is_constant(each, catalogue)]
    printed = [each for each in names.printed if each not in constants]
    groups = {
        "Scenario, as": [
            *(f"  {names.kind}: {flow(body)}" for body in examples[:1]),
            *_table([(each.name, each.means + (" (needed)" if each.needed else "")) for each in keys]),
        ],
        "Print, as {{ NAME }} in a text; what can be found can be printed too": [
            *_owned(printed, means),
            *_constants(constants),
            EVERYWHERE,
        ],
        'Compare, as {% if NAME == "…" %}; what can be printed, found or chosen can be compared too': [
            *_owned(names.compared, means)
        ],
        "Find, as find: NAME": [*_owned(names.found, means)],
        "Choose, as choose: NAME with from: [its words]; after each word the common errors that it shows where it is wrong": [
            line for each in names.chosen for line in _choice(each)
        ],
        "Order, as order: NAME with by: and show:": [line for each in names.ordered for line in _order(each)],
        "Balance, as balance: NAME": _table([(each.name, each.means, each.example) for each in names.balanced]),
        "Write, as it stands here; a formula as species: NAME": [
            *(f"  {each}" for each in names.written),
            *_owned(names.species, means),
        ],
        "Figure, as figure: NAME, or {NAME: {KEY: WORD}} with its keys": [
            line for each in names.figures for line in figure_lines(each)
        ],
    }
    shown = ["\n".join([title, *lines]) for title, lines in groups.items() if lines]
    always = [each.always for each in (*printed, *names.compared, *names.found)] + [each.always for each in names.chosen]
    foot = [] if all(always) else [FOOT]
    return "\n\n".join([f"{names.kind}: {entry.about}", *shown, *foot]).replace(NARROW_SPACE, " ")


def flow(value: Any) -> str:
    """A value as it is written in one line of YAML."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key}: {flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    text = str(value)
    return f'"{text}"' if re.search(r"[\[\]{},#]|: |^[&*!|>%@`-]", text) else text


def _is_constant(each: Name, catalogue: Catalogue) -> bool:
    quantity = catalogue.quantities.get(each.name)
    return quantity is not None and quantity.constant


def _constants(constants: Sequence[Name]) -> list[str]:
    return [f"  Constants of the data sheet: {', '.join(each.name for each in constants)}"] if constants else []


def _owned(names: Sequence[Name], means: Any) -> Iterator[str]:
    """Names without an owner, then each owner, or all that differ by a number, over its parts (``.c``, ``.c.species``)."""
    owners: dict[str, list[Name]] = {}
    for each in names:
        owner, _, part = each.name.partition(".")
        owners.setdefault(owner if part else "", []).append(each)
    yield from _table([_columns(each, each.name, each.means) for each in owners.pop("", [])])
    for together in _alike(owners):
        parts = owners[together[0]]
        yield f"  {': '.join(filter(None, (_listed(together), means(together[0]))))}"
        its = [_columns(each, f".{each.name.partition('.')[2]}", _own_part(each, means(together[0]))) for each in parts]
        yield from (f"  {line}" for line in _table(its))


def _alike(owners: Mapping[str, Sequence[Name]]) -> list[tuple[str, ...]]:
    """Owners together that differ by their number only and have the same parts."""
    found: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for owner, parts in owners.items():
        stem = _STEM.fullmatch(owner)
        shape = tuple(each.name.partition(".")[2] for each in parts)
        found.setdefault((stem[1] if stem else owner, shape), []).append(owner)
    return [tuple(each) for each in found.values()]


def _own_part(each: Name, owner: str) -> str:
    """What a part is, without its owner again."""
    return each.means.removeprefix(f"{owner}: ")


def _columns(each: Name, name: str, means: str) -> tuple[str, str, str]:
    example = each.example if len(each.example) <= LONGEST else f"{each.example[: LONGEST - 1]}…"
    return f"{name}{'' if each.always else SOMETIMES}", means, example


def _table(rows: Sequence[tuple[str, ...]]) -> list[str]:
    """Rows in columns, the last as long as it likes."""
    widths = [max((len(row[place]) for row in rows), default=0) for place in range(max(map(len, rows), default=0))]
    return ["  " + "  ".join(f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]


def _choice(choice: Choice) -> Iterator[str]:
    mark = "" if choice.always else SOMETIMES
    yield f"  {choice.name}{mark}: {choice.means}"
    if choice.open:
        yield f"    what is drawn, such as {choice.example}"
        shown = dict.fromkeys(error for each in choice.words for error in each.shows)
        yield from [f"    another shows {_listed(shown)}"] if shown else []
    else:
        yield from (f"  {line}" for line in _table([(each.word, _listed(each.shows)) for each in choice.words]))
    if choice.parts:
        part = "metal" if "metal" in choice.parts else choice.parts[0]
        others = [each for each in choice.parts if each != part]
        also = f", or their {_listed(others)}" if others else ""
        way = "from" if {each.word for each in choice.words} == set(choice.owners) else "or from"
        yield f"    {way}: [{_listed(f'{owner}.{part}' for owner in choice.owners)}]{also}"


def _order(each: Orderable) -> Iterator[str]:
    head = f"{each.list}: {each.means} ({_listed(each.things)})" if each.list else f"two or more of [{_listed(each.things)}]"
    yield f"  {head}"
    yield f"    by: {' · '.join(each.by)}"
    yield f"    show: {' · '.join(each.show)}"


def _listed(words: Iterable[str]) -> str:
    return ", ".join(words)
