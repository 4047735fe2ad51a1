"""What can be chosen in a kind of scenario: each name with every word that it can be, and the common errors that show in a wrong one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from saltbridge.algebra.possible_words import possible_words
from saltbridge.catalogue.catalogue import Catalogue, Fact
from saltbridge.catalogue.naming import explain
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.forms.conditions import NAME
from saltbridge.graph.laws import Rule
from saltbridge.graph.solved import points_of
from saltbridge.scenarios.equation_laws import INNER
from saltbridge.scenarios.kinds.example_scenes import Whole

OF_SEVERAL = ("rising", "those-below", "those-above")
"""The macros of rules that put things in order or pick several of them."""


@dataclass(frozen=True, slots=True)
class ChoiceWord:
    """A word that a choice can be, and by id the common errors that lead to it where it is wrong, each with its hint."""

    word: str
    shows: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Choice:
    """A name to choose by, with its words.

    ``open``: they hang on the draw and are no things of it, so that those met are only some. ``owners`` are those words that are things, ``parts`` what
    all of these have (``left.metal``, ``right.metal``).
    """

    name: str
    means: str
    example: str
    always: bool
    words: tuple[ChoiceWord, ...]
    open: bool = False
    owners: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()


@dataclass(slots=True)
class _Met:
    """What scenes showed of one choice."""

    example: str
    scenes: int = 0
    words: dict[str, dict[str, str]] = field(default_factory=dict)
    open: bool = False
    parts: dict[str, set[str]] = field(default_factory=dict)

    def note_parts(self, scene: Whole, word: str) -> None:
        """Keep what a word has as an owner, in every scene where it has something."""
        names = {*scene.situation.labels, *scene.situation.words}
        parts = {
            part
            for name in names
            if name.startswith(f"{word}.") and NAME.fullmatch(name) and (part := name.removeprefix(f"{word}."))
        }
        if parts:
            self.parts[word] = self.parts.get(word, parts) & parts


def choices_of(scenes: Sequence[Whole], entry: ScenarioEntry, catalogue: Catalogue) -> tuple[Choice, ...]:
    """The choices that some scene has, in the order in which they are met."""
    met: dict[str, _Met] = {}
    for scene in scenes:
        for node, law in _laws(scene, catalogue):
            value = scene.cells[scene.graph.index[node]]
            if isinstance(value, str):
                _note(met.setdefault(node, _Met(value)), scene, node, law, catalogue)
    return tuple(
        Choice(
            node, explain(node, entry, catalogue), each.example, each.scenes == len(scenes),
            tuple(ChoiceWord(word, shows) for word, shows in each.words.items()),
            each.open and each.words.keys() != each.parts.keys(), tuple(each.parts),
            tuple(sorted(set.intersection(*each.parts.values()))) if len(each.parts) > 1 else (),
        )
        for node, each in sorted(met.items())
    )  # fmt: skip


def _laws(scene: Whole, catalogue: Catalogue) -> Iterator[tuple[str, Rule | Fact]]:
    """Rules and facts that give a word here."""
    for law in scene.situation.laws:
        if (isinstance(law, Fact) and law.node in scene.graph.index) or (
            isinstance(law, Rule) and law.node in scene.graph.index and law.node not in INNER and not _ranks(law, catalogue)
        ):
            yield law.node, law


def _ranks(law: Rule, catalogue: Catalogue) -> bool:
    return catalogue.rules[law.rule].macro in OF_SEVERAL


def _note(met: _Met, scene: Whole, node: str, law: Rule | Fact, catalogue: Catalogue) -> None:
    """Take over the words of one scene and what leads to the wrong ones."""
    graph, cells = scene.graph, scene.cells
    right = cells[graph.index[node]]
    met.scenes += 1
    known = law.keys if isinstance(law, Fact) else possible_words(catalogue.rules[law.rule].program(law.inputs, law.keys))
    met.open = met.open or known is None
    for word in (*(known or ()), right):
        met.words.setdefault(word, {})
    for point in points_of(graph, node, scene.situation, catalogue):
        taken = graph.rerun(cells, point.part)
        if isinstance(taken, str) and taken != right:
            met.words.setdefault(taken, {})[point.slip.id] = point.slip.hint
    for word in met.words:
        met.note_parts(scene, word)
