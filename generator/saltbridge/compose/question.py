"""A template composed: one question a shape, one variant a draw."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import AnyPart, BalancePart, ChoosePart, FindPart, OrderPart, WhichPart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.compose import choices, keys
from saltbridge.compose import equation_parts as equations
from saltbridge.compose import figure_data as figures
from saltbridge.compose import filled_prose as prose
from saltbridge.compose import idea_parts as ideas
from saltbridge.compose import order_parts as orders
from saltbridge.compose.common_errors import common_errors
from saltbridge.compose.context import Context
from saltbridge.compose.mathset import MathSetter, spaced, speech
from saltbridge.compose.printing import Printer
from saltbridge.compose.question_graph import QuestionGraph
from saltbridge.compose.slots import Slots
from saltbridge.compose.wanted import wanted
from saltbridge.compose.workings import sentence, working
from saltbridge.document import Block, FigureSlot, Inline, Maths, NumberField, Paragraph, Part, Question, Spans, Text, Variant
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_options import without
from saltbridge.draw.finds import Find
from saltbridge.draw.misfits import with_unknown_names
from saltbridge.faults import Fault, FaultList, Faulty, fault
from saltbridge.graph.graph import Graph
from saltbridge.graph.planner import Step as PlanStep
from saltbridge.graph.precision import measured
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import WalkStep, needs_text, picked_sides, shown_nodes, walk, worked_anew
from saltbridge.policy import mark_points, policy

Share = Callable[[Context], Mapping[str, Any]]
MINUTES_A_MARK = 1.2  # common practice, no source
CELL_POTENTIALS, DIAGRAM = ("E0_cell", "E_cell"), "diagram"
_KEY_OF = {"no-right-option": ".from", "not-a-number": ".by"}
LETTERS = "abcdefghijklmnopqrstuvwxyz"
MOST_HINTS = 2  # beside the author's own; more would tell the whole working


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
        texts = (self.template.text, *(part.ask for part in self.template.parts))
        branches = tuple(condition.holds(drawn.lookup) for condition in prose.block_branches(*texts))
        fallen = {at: frozenset(name for name in names if not drawn.has(name)) for at, names in self.drawer.seldom_there.items()}
        key = (self._plan(drawn.graph), branches, *fallen.values())
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
    """Composes one shape from its first draw."""

    def __init__(self, composer: Composer, drawn: Drawn, fallen: Mapping[int, frozenset[str]]) -> None:
        self.composer, self.drawn, self.fallen = composer, drawn, fallen
        self.template, self.printer, self.words = composer.template, composer.printer, composer.printer.words
        self.slots = Slots()
        self.setter = MathSetter(self.printer, drawn.situation, self.slots)
        self.policy = policy(composer.bank.settings.policy)
        self.known: set[str] = set()
        self.earlier: list[keys.Earlier] = []
        self.shares: list[Share] = []
        self.following = QuestionGraph(drawn.graph)

    def compose(self, number: int) -> Shape:
        template = self.template
        text = prose.blocks(template.text, self.slots, self.drawn)
        drawing = self._figure()
        parts = self._parts()
        marks = sum(part.marks for part in parts)
        minutes = template.minutes or max(1, round(marks * MINUTES_A_MARK))
        provenance = {"template": template.id, "outcome": template.outcome, "level": template.level}
        blocks, graph = (*text, *drawing), self.following.steps()
        question = Question(template.id, template.title, marks, minutes, blocks, parts, provenance, graph)
        return Shape(number, question, self.slots, tuple(self.shares), self.following.given)

    def _parts(self) -> tuple[Part, ...]:
        """All parts. Raises ``Faulty`` with the faults of all of them."""
        faults, parts = FaultList(), []
        for place, part in enumerate(self.template.parts):
            try:
                there = without(part, self.fallen.get(place, frozenset())) if isinstance(part, ChoosePart) else part
                parts.append(self._part(LETTERS[place], there))
            except Faulty as error:
                faults.extend(_at_part(self.template, place + 1, error))
        faults.stop_if_any()
        return tuple(parts)

    def _figure(self) -> tuple[FigureSlot, ...]:
        drawn = {"galvanic cell": figures.galvanic_cell, "number line": figures.number_line}.get(self.template.figure)
        return (self.slots.figure(drawn),) if drawn else ()

    def _part(self, label: str, part: AnyPart) -> Part:
        match part:
            case FindPart():
                return self._find(label, part)
            case ChoosePart():
                return self._choose(label, part)
            case OrderPart():
                return self._order(label, part)
            case BalancePart():
                return self._balance(label, part)
            case WhichPart():
                return self._which(label, part)

    # -------------------------------------------------------------- numbers

    def _find(self, label: str, part: FindPart) -> Part:
        drawn, find = self.drawn, self.composer.drawer.find(part)
        graph = drawn.graph
        method = self.template.method or self.composer.bank.settings.method
        known, picked = frozenset(self.known), picked_sides(graph, drawn.cells)
        steps = walk(graph, find.node, known, method=method, picked=picked)
        points = points_of(graph, find.node, drawn.situation, self.composer.catalogue)
        shape = keys.number_shape(drawn, find, points, self.earlier, self.printer)
        if shape["earlier"]:
            self.following.need(find.node, (each["put"] for each in (*shape["routes"], *shape["slips"]) if "put" in each))
        self.shares.append(lambda context: keys.number_variant(context.drawn, find))
        marks = mark_points(self.policy, steps)
        self._refuse_too_many(part, sum(marks.values()))
        worth, anew = part.marks or sum(marks.values()), worked_anew(graph, find.node, known, picked)
        errors = common_errors(points, steps, marks, worth, {step.node for step in anew}, self.policy, self.setter, self.words)
        symbol = self.setter.symbol(find.node)
        said = spaced(speech(symbol, self.words))
        label_text = self.words("Your answer for {quantity}", quantity=self._name(find.node))
        exactness = wanted(find.asked, find.unit, self.printer)
        answer = self.setter.answer(find.node)
        self.known.update(shown_nodes(steps), (find.node,))
        self.earlier.append((label, find.node, keys.rounding(find)))
        hints = (*self._own_hint(part), *self._hints(steps, Counter(point.node for point in points)))
        return Part(
            label, worth, (*prose.blocks(part.ask, self.slots, drawn), *self._giving_current(find), *self._nearest_whole(find)),
            NumberField(Maths(symbol, said), self.printer.unit(find.unit), label_text, exactness), hints,
            working(steps, self.setter, drawn.situation, self.words, marks), (answer,), shape,
            errors=errors, needs_text=needs_text(anew),
        )  # fmt: skip

    def _nearest_whole(self, find: Find) -> tuple[Block, ...]:
        """What a whole number that comes from measured ones says of itself."""
        drawn = self.drawn
        if not find.asked.whole or measured(drawn.graph, drawn.cells, drawn.situation.given)[find.node].place is None:
            return ()
        return (Paragraph((Text(self.words("Give the nearest whole number.")),)),)

    def _refuse_too_many(self, part: FindPart, earned: int) -> None:
        """Raise ``Faulty`` (code ``too-many-marks``) where a part comes to more marks than the policy lets it, untold by its author."""
        if part.marks is None and earned > self.policy.most:
            raise fault(
                "too-many-marks",
                expected=f"a part of at most {self.policy.most} marks, by the policy {self.policy.id}",
                found=f"{earned} marks for {part.find}",
                hint=f"Ask for a result on the way in a part of its own, or write `marks: {earned}` if it is meant.",
            )

    def _giving_current(self, find: Find) -> tuple[Block, ...]:
        """Which potential is meant where a diagram is printed, whose right minus left may be negative."""
        if find.node.split(":")[0] not in CELL_POTENTIALS or DIAGRAM not in self.template.text.names:
            return ()
        return (Paragraph((Text(self.words("Give the potential of the cell as it gives a current.")),)),)

    def _name(self, node: str) -> str:
        quantity = self.printer.entry(node)
        return self.words(quantity.name) if quantity else node

    def _hints(self, steps: Sequence[WalkStep], errors: Mapping[str, int] | None = None) -> tuple[Spans, ...]:
        """The questions of the likeliest steps, each once, in order: of that with most common ``errors`` and of the last but a conversion.

        A step without a question says itself without its number.
        """
        known = errors or {}
        weights: dict[str, int] = {}
        for step in steps:
            if say := step.hint or step.say:
                often = max(known.get(node, 0) for node in (step.node, *(line.node for line in step.lines)))
                weights[say] = max(weights.get(say, 0), often)
        last = [step.hint or step.say for step in steps if step.how != "convert"][-1:]
        likely = [*last, *sorted((say for say in weights if say not in last), key=lambda say: -weights[say])][:MOST_HINTS]
        return tuple(sentence(say, self.slots, self.drawn.situation, self.words) for say in weights if say in likely)

    def _own_hint(self, part: AnyPart) -> tuple[Spans, ...]:
        if part.hint is None:
            return ()
        spans: list[Inline] = []
        for block in prose.blocks(part.hint, self.slots, self.drawn):
            spans += getattr(block, "spans", ())
        return (tuple(spans),)

    # -------------------------------------------------------------- choices, orders, equations

    def _choose(self, label: str, part: ChoosePart) -> Part:
        made = choices.choose(part, self.drawn, self.setter, self.composer.catalogue, self.words, frozenset(self.known))
        return self._chosen(label, part, self._following(label, made), self.policy.choose)

    def _following(self, label: str, made: choices.Made) -> choices.Made:
        """The part with what it follows from, where a node of the graph decides it; later parts may follow from it in turn."""
        self.shares.append(made.share)
        if not made.node:
            return made
        shape = {
            **made.shape,
            "earlier": keys.followed(self.earlier, {step.node for step in self.drawn.graph.upstream(made.node)}),
        }
        if shape["earlier"]:
            shape["errors"] = keys.errors(made.points)
            self.following.need(made.node, (each["put"] for each in shape["errors"]))
        self.known.update(shown_nodes(made.walked), (made.node,))
        self.earlier.append((label, made.node, None))
        return replace(made, shape=shape)

    def _which(self, label: str, part: WhichPart) -> Part:
        made = ideas.which(part, self.setter, self.composer.catalogue.ideas, self.words)
        self.shares.append(made.share)
        return self._chosen(label, part, made, self.policy.choose)

    def _order(self, label: str, part: OrderPart) -> Part:
        made = orders.order(part, self.drawn, self.setter, self.composer.catalogue, self.words, frozenset(self.known))
        return self._chosen(label, part, self._following(label, made), orders.order_worth(self.policy, part, self.drawn))

    def _chosen(self, label: str, part: AnyPart, made: choices.Made, marks: int) -> Part:
        told = self._hints(made.walked) or made.hints
        hints = (*self._own_hint(part), *told)
        return Part(
            label, part.marks or marks, prose.blocks(part.ask, self.slots, self.drawn), made.field, hints, made.working, made.answer,
            made.shape,
        )  # fmt: skip

    def _balance(self, label: str, part: BalancePart) -> Part:
        made = equations.balance(
            part, self.drawn, self.setter, self.composer.catalogue, self.words, frozenset(self.known), self.earlier
        )
        self.shares.append(made.share)
        self.known.update((made.node, "n" if made.node == "equation" else "z"), shown_nodes(made.walked))
        if made.shape["earlier"]:
            for name in made.needs:
                self.following.need(name, ())
        self.earlier.append((label, made.shape["node"], None))
        return self._chosen(label, part, made, self.policy.equation)
