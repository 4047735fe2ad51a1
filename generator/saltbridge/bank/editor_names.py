"""What an editor offers for `find`, `choose`, `order`, `by`, `show`, `species` and `balance` once it knows the kind of scenario, with what each is.

One condition a kind: where a template's scenario is of it, the keys of its parts are offered its names. Names other than these are not
marked as wrong but for `balance`: a bank's own relations, or a question turned round, may add some.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.graph.laws import quantity_of
from saltbridge.scenarios.kinds.kind_choices import Choice
from saltbridge.scenarios.kinds.kind_names import KindNames, Name
from saltbridge.scenarios.kinds.offered import kinds, offered

Json = dict[str, Any]


def conditions(known: Catalogue) -> list[Json]:
    """A condition for each kind that has examples."""
    return [_condition(kind, offered(kind, known), known) for kind in kinds(known) if known.scenarios[kind].examples]


def _condition(kind: str, names: KindNames, known: Catalogue) -> Json:
    parts = {key: value for key, value in _of_parts(names, known).items() if value}
    then: Json = {"parts": {"items": {"properties": parts}}, "text": {"description": _printed(names)}}
    return {"if": {"properties": {"scenario": {"required": [kind]}}, "required": ["scenario"]}, "then": {"properties": then}}


def _of_parts(names: KindNames, known: Catalogue) -> dict[str, Json]:
    lists = {each.list: each.means for each in names.ordered if each.list}
    quantities = {name: quantity_of(name, known.quantities) for each in names.ordered for name in each.by}
    by = {name: quantity.name if quantity else "" for name, quantity in quantities.items()}
    show = {name: known.parts_of_names.get(name, "") for each in names.ordered for name in each.show}
    return {
        "find": _offer(_told(names.found)),
        "choose": _offer({each.name: _words(each) for each in names.chosen}),
        "order": _offer(lists, {"type": "array"}),
        "by": _offer(by),
        "show": _offer(show),
        "species": _offer(_told(names.species)),
        "balance": {"enum": [each.name for each in names.balanced]} if names.balanced else {},
    }


def _offer(told: Mapping[str, str], *others: Json) -> Json:
    """The names with what each is; any other text is let through, and what ``others`` describe."""
    if not told:
        return {}
    plain = [name for name, means in told.items() if not means]
    described = [{"const": name, "description": means} for name, means in told.items() if means]
    return {"anyOf": [*described, *([{"enum": plain}] if plain else []), {"type": "string"}, *others]}


def _told(names: Iterable[Name]) -> dict[str, str]:
    """What each name is, and one drawn value."""
    return {each.name: f"{each.means}, such as {each.example}" for each in names}


def _words(choice: Choice) -> str:
    """What a choice is, and all its words."""
    words = "what is drawn" if choice.open else " · ".join(each.word for each in choice.words)
    return f"{choice.means}: {words}"


def _printed(names: KindNames) -> str:
    """What a hole of this kind may name, by owner."""
    return (
        f"The situation, in Markdown with holes. This kind prints {'; '.join(_by_owner(names.printed))}, and what can be found."
    )


def _by_owner(names: Iterable[Name]) -> Iterator[str]:
    owners: dict[str, list[str]] = {}
    for each in names:
        owner, _, part = each.name.partition(".")
        owners.setdefault(owner if part else "", []).append(part or owner)
    for owner, parts in owners.items():
        yield f"{owner}.({', '.join(parts)})" if owner and parts[1:] else f"{owner}.{parts[0]}" if owner else ", ".join(parts)
