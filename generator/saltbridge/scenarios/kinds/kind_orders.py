"""What can be put in order in a kind of scenario: its lists, and things that share a number, with what decides and what is shown."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.catalogue.naming import explain
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.forms.conditions import NAME
from saltbridge.graph.laws import quantity_of
from saltbridge.scenarios.kinds.example_scenes import Whole


@dataclass(frozen=True, slots=True)
class Orderable:
    """Things to put in order: the name of a ``list`` or "" where a template names them, what it is, the quantities that may decide, and what may be shown of each."""

    list: str
    means: str
    things: tuple[str, ...]
    by: tuple[str, ...]
    show: tuple[str, ...]


def orders_of(scenes: Sequence[Whole], entry: ScenarioEntry, catalogue: Catalogue) -> tuple[Orderable, ...]:
    """Every list, as the scene with most of its numbers has it; then for each other number the things that have it in some scene."""
    lists: dict[str, Orderable] = {}
    loose: dict[str, Orderable] = {}
    for scene in scenes:
        numbers = [name for name in scene.graph.index if _is_number(scene, name, catalogue)]
        for name, things in scene.lists.items():
            by = tuple(sorted(_shared(things, numbers)))
            if by and len(by) >= len(lists[name].by if name in lists else ()):
                lists[name] = Orderable(name, explain(name, entry, catalogue), things, by, _shown(scene, things))
        listed = {thing for things in scene.lists.values() for thing in things}
        for by_one, things in _owners(numbers, listed):
            show = _shown(scene, things)
            before = loose.get(by_one, Orderable("", "", (), (by_one,), show))
            every = tuple(sorted({*before.things, *things}))
            loose[by_one] = Orderable("", "", every, (by_one,), tuple(each for each in before.show if each in show))
    return (*lists.values(), *_together(each for each in loose.values() if each.show))


def _together(loose: Iterable[Orderable]) -> Iterator[Orderable]:
    """The same things once, with all that they may be ordered by and what may be shown whatever decides."""
    by_things: dict[tuple[str, ...], list[Orderable]] = {}
    for each in loose:
        by_things.setdefault(each.things, []).append(each)
    for things, alike in by_things.items():
        by = tuple(sorted(by for each in alike for by in each.by))
        yield Orderable("", "", things, by, tuple(show for show in alike[0].show if all(show in each.show for each in alike)))


def _is_number(scene: Whole, name: str, catalogue: Catalogue) -> bool:
    return (
        NAME.fullmatch(name) is not None
        and isinstance(scene.cells[scene.graph.index[name]], float)
        and quantity_of(name, catalogue.quantities) is not None
    )


def _owners(numbers: Iterable[str], listed: set[str]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each quantity that two things or more have, with these."""
    owners: dict[str, list[str]] = {}
    for name in numbers:
        owner, _, part = name.rpartition(".")
        if owner and owner not in listed:
            owners.setdefault(part, []).append(owner)
    yield from ((part, tuple(things)) for part, things in owners.items() if len(things) > 1)


def _shown(scene: Whole, things: Sequence[str]) -> tuple[str, ...]:
    """What may be shown of each of the things."""
    names = (*scene.situation.labels, *scene.situation.words)
    return tuple(sorted(_shared(things, [name for name in names if NAME.fullmatch(name)])))


def _shared(things: Sequence[str], names: Sequence[str]) -> set[str]:
    """What every thing has."""
    parts = [{name.removeprefix(f"{thing}.") for name in names if name.startswith(f"{thing}.")} for thing in things]
    return set.intersection(*parts) if parts else set()
