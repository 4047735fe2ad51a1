"""Every name that a kind of scenario offers, gathered from drawn examples, each with what it is and one drawn value."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.catalogue.naming import explain
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.forms.conditions import NAME
from saltbridge.graph.laws import Balance, Situation, Value, quantity_of
from saltbridge.graph.node_names import ascii_of
from saltbridge.scenarios.equation_laws import EQUATION, EQUATIONS, INNER
from saltbridge.scenarios.figures.figure_entries import figures
from saltbridge.scenarios.kinds.example_scenes import Whole
from saltbridge.scenarios.kinds.kind_choices import Choice, choices_of
from saltbridge.scenarios.kinds.kind_orders import Orderable, orders_of
from saltbridge.scenarios.kinds.shown_values import given_value, number_value


@dataclass(frozen=True, slots=True)
class Name:
    """A name with what it is and one drawn ``example``; ``always``: every draw of every example has it."""

    name: str
    means: str
    example: str
    always: bool


@dataclass(frozen=True, slots=True)
class KindNames:
    """What a template of a kind may print, find, choose, order, balance, have written and draw a figure of; ``compared`` are words for conditions only.

    ``species`` print one formula each; ``written`` are other keys of what is typed, as ``diagram: cell``.
    """

    kind: str
    printed: tuple[Name, ...]
    compared: tuple[Name, ...]
    found: tuple[Name, ...]
    chosen: tuple[Choice, ...]
    ordered: tuple[Orderable, ...]
    balanced: tuple[Name, ...]
    figures: tuple[str, ...]
    species: tuple[Name, ...] = ()
    written: tuple[str, ...] = ()

    @property
    def all(self) -> frozenset[str]:
        """Every name that a template of this kind may use in some draw."""
        names = {each.name for group in (self.printed, self.compared, self.found, self.chosen) for each in group}
        return frozenset(names | {each.list for each in self.ordered} - {""})


@dataclass(slots=True)
class _Seen:
    """How many scenes had each name, and the first value met."""

    scenes: int = 0
    counts: dict[str, int] = field(default_factory=dict)
    values: dict[str, str] = field(default_factory=dict)

    def note(self, found: Iterable[tuple[str, str]]) -> None:
        """Take over the names of one scene."""
        self.scenes += 1
        for name, value in found:
            self.counts[name] = self.counts.get(name, 0) + 1
            self.values.setdefault(name, value)

    def names(self, means: Mapping[str, str]) -> tuple[Name, ...]:
        """The names in alphabetical order, those without an owner first."""
        return tuple(
            Name(name, means.get(name, ""), value, self.counts[name] == self.scenes)
            for name, value in sorted(self.values.items(), key=lambda each: (each[0].count("."), each[0].casefold()))
        )


def names_of(kind: str, scenes: Sequence[Whole], catalogue: Catalogue) -> KindNames:
    """The names of a kind, gathered from scenes of it."""
    entry = catalogue.scenarios[kind]
    printed, compared, found, balanced, species = (_Seen() for _ in range(5))
    for scene in scenes:
        printed.note(_printed(scene, catalogue))
        compared.note(_compared(scene, catalogue))
        found.note(_found(scene, catalogue))
        balanced.note(_balanced(scene))
        species.note(_species(scene))
    explained = {name: explain(name, entry, catalogue) for name in {*printed.values, *compared.values, *found.values}}
    return KindNames(
        kind, printed.names(explained), compared.names(explained), found.names(explained), choices_of(scenes, entry, catalogue),
        orders_of(scenes, entry, catalogue), balanced.names(_equations(entry, catalogue)), tuple(_figures(kind, scenes)),
        species.names(explained), tuple(_written(scenes)),
    )  # fmt: skip


def _printed(scene: Whole, catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    """Words, labels and what is given, as they read."""
    situation = scene.situation
    read = {name: ascii_of(label) for name, label in situation.labels.items()}
    said = {name: word for name, word in situation.words.items() if name not in read}
    yield from ((name, text) for name, text in (read | said).items() if NAME.fullmatch(name))
    for node, given in situation.given.items():
        name = node.split(":", 1)[0]
        if isinstance(given.value, float) and _is_number(name, catalogue):
            yield name, given_value(given)


def _compared(scene: Whole, catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    """Words that are told as values, such as yes and no, and that no text prints."""
    situation = scene.situation
    for name, given in situation.given.items():
        quantity = catalogue.quantities.get(name)
        if (
            isinstance(given.value, str)
            and quantity is not None
            and quantity.word
            and name not in {*situation.labels, *situation.words}
        ):
            yield name, given.value


def _found(scene: Whole, catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    """Quantities that are worked out, in the unit that they are usually given in."""
    given = {node.split(":", 1)[0] for node in scene.situation.given}
    for node, place in scene.graph.index.items():
        quantity = quantity_of(node, catalogue.quantities)
        value: Value = scene.cells[place]
        if (
            ":" not in node
            and node not in given
            and quantity is not None
            and _is_number(node, catalogue)
            and isinstance(value, float)
        ):
            yield node, number_value(value, quantity)


def _is_number(name: str, catalogue: Catalogue) -> bool:
    """Whether a name is a quantity that is a number and that a template may speak of."""
    quantity = quantity_of(name, catalogue.quantities)
    return quantity is not None and not quantity.word and name not in INNER


def _balanced(scene: Whole) -> Iterator[tuple[str, str]]:
    """What may be written as an equation, in the words of the key ``balance``."""
    there = {law.node for law in scene.situation.laws if isinstance(law, Balance)} & scene.graph.index.keys()
    for asked, node in EQUATIONS.items():
        value = scene.cells[scene.graph.index[node]] if node in there else None
        if isinstance(value, str):
            yield asked, value


def _species(scene: Whole) -> Iterator[tuple[str, str]]:
    """What prints one formula of a thing of the scenario, so that it can be typed."""
    for name, label in scene.situation.labels.items():
        if label.role == "species" and NAME.fullmatch(name) and not name.endswith(".species"):
            yield name, ascii_of(label)


def _written(scenes: Sequence[Whole]) -> Iterator[str]:
    """The keys of a diagram and of an expression, where all scenes have a cell or an equation of two halves."""
    if all(scene.has_cell for scene in scenes):
        yield "diagram: cell"
    if any(law.node == EQUATION for scene in scenes for law in scene.situation.laws if isinstance(law, Balance)):
        yield from ("expression: Q", "expression: K")


def _equations(entry: ScenarioEntry, catalogue: Catalogue) -> dict[str, str]:
    return {asked: explain(node, entry, catalogue) for asked, node in EQUATIONS.items()}


def _figures(kind: str, scenes: Sequence[Whole]) -> Iterator[str]:
    """The figures that some scene of the kind has everything for."""
    for name, entry in figures().items():
        if entry.fits(kind) and any(not entry.lacks(partial(_tells, scene.situation)) for scene in scenes):
            yield name


def _tells(situation: Situation, name: str) -> bool:
    given = {node.split(":", 1)[0] for node in situation.given}
    return name in given or name in situation.labels or name in situation.words
