"""One variant as the checks see it: the draw with its facts, and the composed question."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import FindPart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.compose.context import Context
from saltbridge.compose.question import Composer
from saltbridge.document import Question, Variant
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.finds import Find
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
    """A variant under the eyes of the checks; ``finds`` by the place of their part."""

    template: Template
    bank: Bank
    catalogue: Catalogue
    drawn: Drawn
    facts: Facts
    question: Question
    variant: Variant
    finds: Mapping[int, Find]


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
        finds = {at: self.drawer.find(part) for at, part in enumerate(self.template.parts) if isinstance(part, FindPart)}
        question = self.composer.question(variant)
        facts = self.drawer.facts_of(drawn, self.drawer.facts)
        return Seen(self.template, self.bank, self.catalogue, drawn, facts, question, variant, finds)

    def context(self, seen: Seen) -> Context:
        """How the variant's values print."""
        return Context(self.composer.printer, seen.drawn)
