"""One variant as the checks see it: the draw with its facts, and the composed question."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import AnyPart, FindPart
from saltbridge.bank.template import Template
from saltbridge.bank.wrong_step_part import CorrectPart, WrongStepPart
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.compose.context import Context
from saltbridge.compose.question import Composer
from saltbridge.document import Field, Question, Spans, TableField, Variant
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_tables import shown_leaves
from saltbridge.draw.finds import Find
from saltbridge.draw.planted_errors import Planted
from saltbridge.draw.seeds import Seed
from saltbridge.scenarios.scene import Scene


@dataclass
class WatchedDrawer(Drawer):
    """A drawer that keeps the facts of its last draw, for the realism rules to look at once more."""

    facts: Facts = field(default_factory=Facts)
    last: Drawn | None = None

    def solve(self, scene: Scene, seed: Seed) -> Drawn:
        """As ``Drawer.solve``; the scene's facts and the draw are kept."""
        self.facts = scene.facts
        self.last = super().solve(scene, seed)
        return self.last


@dataclass(frozen=True, slots=True)
class Seen:
    """A variant under the eyes of the checks; ``finds`` are the numbers asked for, each with its key; ``wrong`` the workings with an error.

    ``wrong`` tells by the place of a part what its working leads to, and the error in it.
    """

    template: Template
    bank: Bank
    catalogue: Catalogue
    drawn: Drawn
    facts: Facts
    question: Question
    variant: Variant
    finds: Sequence[tuple[str, Find]]
    wrong: Mapping[int, tuple[Find, Planted]] = field(default_factory=dict)

    @property
    def asked(self) -> tuple[Asked, ...]:
        """Everything that is asked: each part that is no table, and each blank cell of a table."""
        return tuple(_asked(self))


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing asked, with the key where it is written: its part, its field and right answer, and its share of the variant's key."""

    key: str
    part: AnyPart
    field: Field
    answer: Spans
    share: Mapping[str, Any]


def _asked(seen: Seen) -> Iterator[Asked]:
    cells: dict[int, int] = {}
    for leaf in shown_leaves(seen.template, seen.drawn):
        part, share = seen.question.parts[leaf.at], seen.variant.judge[leaf.at]
        if isinstance(part.field, TableField):
            place = cells[leaf.at] = cells.get(leaf.at, -1) + 1
            cell = part.field.blanks[place]
            yield Asked(leaf.key, leaf.part, cell.field, cell.answer, share["cells"][place])
        else:
            yield Asked(leaf.key, leaf.part, part.field, part.answer, share)


class Eyes:
    """Draws and composes variants of one template for the checks."""

    def __init__(self, template: Template, bank: Bank, catalogue: Catalogue) -> None:
        self.template, self.bank, self.catalogue = template, bank, catalogue
        self.composer = Composer(template, bank, catalogue)
        self.drawer = self.composer.drawer = WatchedDrawer(template, bank, catalogue)

    def see(self, number: int, seed: str) -> Seen:
        """One variant. Raises ``Faulty`` where it can't be drawn or composed."""
        variant = self.composer.variant(number, seed)
        drawn = self.drawer.last
        if drawn is None:
            raise LookupError(seed)
        asked = self.drawer.scaffold.as_asked(drawn).template
        finds, wrong = self._finds(asked, drawn), self._wrong(asked, drawn)
        question = self.composer.question(variant)
        facts = self.drawer.facts_of(drawn, self.drawer.facts)
        return Seen(asked, self.bank, self.catalogue, drawn, facts, question, variant, finds, wrong)

    def _finds(self, asked: Template, drawn: Drawn) -> list[tuple[str, Find]]:
        """The numbers asked for, that of a wrong step among them."""
        found = []
        for leaf in shown_leaves(asked, drawn):
            if isinstance(leaf.part, FindPart | CorrectPart):
                right = leaf.part if isinstance(leaf.part, FindPart) else self.drawer.wrong_steps.corrected(leaf.part, drawn)
                found.append((leaf.key, self.drawer.find(right)))
        return found

    def _wrong(self, asked: Template, drawn: Drawn) -> dict[int, tuple[Find, Planted]]:
        """The workings to look through: what each leads to, and the error in it."""
        steps = self.drawer.wrong_steps
        parts = ((at, part) for at, part in enumerate(asked.parts) if isinstance(part, WrongStepPart))
        return {at: (self.drawer.find(part), steps.planted(part, drawn)) for at, part in parts}

    def context(self, seen: Seen) -> Context:
        """How the variant's values print."""
        return Context(self.composer.printer, seen.drawn)
