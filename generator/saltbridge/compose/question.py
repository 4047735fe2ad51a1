"""A template composed: one question a shape, one variant a draw."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import ChoosePart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.compose import figure_data as figures
from saltbridge.compose import filled_prose as prose
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk, Share
from saltbridge.compose.part_kinds import composed
from saltbridge.compose.printing import Printer
from saltbridge.compose.slots import Slots
from saltbridge.document import FigureSlot, Part, Question, Variant
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_cases import shape_of
from saltbridge.draw.drawn_options import without
from saltbridge.draw.drawn_tables import arrangements
from saltbridge.draw.misfits import with_unknown_names
from saltbridge.faults import Fault, FaultList, Faulty
from saltbridge.graph.graph import Graph
from saltbridge.graph.planner import Step as PlanStep

MINUTES_A_MARK = 1.2  # common practice, no source
LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True)
class Shape:
    """A composed shape: its question and what fills a variant of it."""

    number: int
    question: Question
    slots: Slots
    shares: tuple[Share, ...]
    given: Callable[[Drawn], Mapping[str, Any]]


@dataclass
class Composer:
    """Composes the variants of one template; ``questions`` are its shapes in the order met."""

    template: Template
    bank: Bank
    catalogue: Catalogue
    drawer: Drawer = field(init=False)
    printer: Printer = field(init=False)
    _shapes: dict[tuple[Any, ...], Shape] = field(default_factory=dict)
    _plans: dict[tuple[PlanStep, ...], int] = field(default_factory=dict)
    _graphs: dict[int, tuple[Graph, int]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.drawer = Drawer(self.template, self.bank, self.catalogue)
        self.printer = Printer(self.bank.settings, self.catalogue)

    @property
    def questions(self) -> tuple[Question, ...]:
        """The questions of all shapes so far, by shape number."""
        return tuple(shape.question for shape in self._shapes.values())

    def question(self, variant: Variant) -> Question:
        """The question of a variant's shape."""
        return self.questions[variant.shape]

    def variant(self, number: int, seed: str) -> Variant:
        """Draw and compose one variant. Raises ``Faulty`` as ``Drawer.draw`` does."""
        drawn = self.drawer.draw(seed)
        try:
            return self._composed(number, drawn)
        except Faulty as error:
            raise with_unknown_names(self.template, error, drawn) from error

    def _composed(self, number: int, drawn: Drawn) -> Variant:
        shape = self._shape(drawn)
        context = Context(self.printer, drawn)
        return Variant(
            number,
            shape.number,
            shape.slots.fill(context),
            shape.slots.fill_figures(context),
            tuple(self._shared(at, share, context) for at, share in enumerate(shape.shares, 1)),
            shape.given(drawn),
        )

    def _shared(self, at: int, share: Share, context: Context) -> Mapping[str, Any]:
        try:
            return share(context)
        except Faulty as error:
            raise Faulty(_at_part(self.template, at, error)) from error

    def _shape(self, drawn: Drawn) -> Shape:
        texts = (self.template.text, *(text for part in self.template.parts for text in part.texts.values()))
        branches = tuple(condition.holds(drawn.lookup) for condition in prose.block_branches(*texts))
        fallen = {
            key: frozenset(name for name in names if not drawn.has(name)) for key, names in self.drawer.seldom_there.items()
        }
        drawn_apart = (*shape_of(self.template.parts, drawn.seed), *arrangements(self.template, drawn))
        key = (self._plan(drawn.graph), branches, self.drawer.wrong_steps.names(drawn), *fallen.values(), *drawn_apart)
        if key not in self._shapes:
            self._shapes[key] = _ShapeComposer(self, drawn, fallen).compose(len(self._shapes))
        return self._shapes[key]

    def _plan(self, graph: Graph) -> int:
        """The number of a graph's plan; equal plans are one, whether or not they are one object (each is held, so ids last)."""
        known = self._graphs.get(id(graph))
        if known is None:
            known = self._graphs[id(graph)] = (graph, self._plans.setdefault(graph.steps, len(self._plans)))
        return known[1]


_KEY_OF = {"no-right-option": ".from", "not-a-number": ".by"}


def _at_part(template: Template, at: int, error: Faulty) -> Iterator[Fault]:
    """The faults at their part; those that know their key stay there, and unknown names are placed where they stand."""
    for each in error.faults:
        if each.key or each.code == "unknown-name":
            yield each
        else:
            key = f"parts[{at}]{_KEY_OF.get(each.code, '')}"
            yield template.fault(key, each.code, expected=each.expected, found=each.found, hint=each.hint)


class _ShapeComposer:
    """Composes one shape from its first draw; ``fallen`` are the options of each part that this draw lacks."""

    def __init__(self, composer: Composer, drawn: Drawn, fallen: Mapping[str, frozenset[str]]) -> None:
        asked = composer.drawer.scaffold.as_asked(drawn)
        self.desk = Desk(
            asked.template, composer.bank, composer.catalogue, composer.drawer, composer.printer, drawn, fallen=fallen
        )
        self.template, self.sources = asked.template, asked.sources

    def compose(self, number: int) -> Shape:
        template, desk = self.template, self.desk
        text = prose.blocks(template.text, desk.slots, desk.drawn)
        drawing = self._figure()
        parts = self._parts()
        marks = sum(part.marks for part in parts)
        minutes = template.minutes or max(1, round(marks * MINUTES_A_MARK))
        provenance = {"template": template.id, "outcome": template.outcome, "level": template.level}
        blocks, graph = (*text, *drawing), desk.following.steps()
        question = Question(template.id, template.title, marks, minutes, blocks, parts, provenance, graph)
        return Shape(number, question, desk.slots, tuple(desk.shares), desk.following.given)

    def _parts(self) -> tuple[Part, ...]:
        """All parts. Raises ``Faulty`` with the faults of all of them."""
        faults, parts = FaultList(), []
        for place, part in enumerate(self.template.parts):
            try:
                fallen = self.desk.fallen.get(f"parts[{self.sources[place] + 1}]", frozenset())
                there = without(part, fallen) if isinstance(part, ChoosePart) else part
                parts.append(composed(LETTERS[place], there, self.desk))
            except Faulty as error:
                faults.extend(_at_part(self.template, place + 1, error))
        faults.stop_if_any()
        return tuple(parts)

    def _figure(self) -> tuple[FigureSlot, ...]:
        drawn = figures.figure_of(self.template.figure)
        return (self.desk.slots.figure(drawn),) if drawn else ()
