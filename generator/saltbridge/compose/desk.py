"""What is at hand while the parts of one shape are composed, and what their kinds share."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import AnyPart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.compose import filled_prose as prose
from saltbridge.compose import keys
from saltbridge.compose.context import Context
from saltbridge.compose.made import Made
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.printing import Printer
from saltbridge.compose.question_graph import QuestionGraph
from saltbridge.compose.slots import Slots
from saltbridge.compose.workings import sentence
from saltbridge.document import Inline, Part, Spans
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.graph.walk import WalkStep, shown_nodes
from saltbridge.policy import Policy, policy
from saltbridge.words import Words

Share = Callable[[Context], Mapping[str, Any]]
MOST_HINTS = 2  # beside the author's own; more would tell the whole working


@dataclass
class Desk:
    """Composes the parts of one shape from its first draw.

    ``known`` are the nodes that parts so far have shown, ``earlier`` the parts that later ones may follow from, ``shares`` a part's
    share of a variant's key each, in the order of the parts, ``fallen`` by the key of a part or cell the options that this draw lacks,
    ``following`` what of the graph the judges run.
    """

    template: Template
    bank: Bank
    catalogue: Catalogue
    drawer: Drawer
    printer: Printer
    drawn: Drawn
    slots: Slots = field(default_factory=Slots)
    known: set[str] = field(default_factory=set)
    earlier: list[keys.Earlier] = field(default_factory=list)
    shares: list[Share] = field(default_factory=list)
    fallen: Mapping[str, frozenset[str]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.setter = MathSetter(self.printer, self.drawn.situation, self.slots)
        self.following = QuestionGraph(self.drawn.graph)

    @property
    def words(self) -> Words:
        """The words of the bank's language."""
        return self.printer.words

    @property
    def policy(self) -> Policy:
        """The bank's marking policy."""
        return policy(self.bank.settings.policy)

    def name(self, node: str) -> str:
        """A quantity's name in words."""
        quantity = self.printer.entry(node)
        return self.words(quantity.name) if quantity else node

    def hints(self, steps: Sequence[WalkStep], errors: Mapping[str, int] | None = None) -> tuple[Spans, ...]:
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

    def own_hint(self, part: AnyPart) -> tuple[Spans, ...]:
        """The hint in the author's words, if there is one."""
        if part.hint is None:
            return ()
        spans: list[Inline] = []
        for block in prose.blocks(part.hint, self.slots, self.drawn):
            spans += getattr(block, "spans", ())
        return (tuple(spans),)

    def followed(self, label: str, made: Made) -> Made:
        """A part with what it follows from, where a node of the graph decides it; later parts may follow from it in turn."""
        self.shares.append(made.share)
        if not made.node:
            return made
        upstream = {step.node for step in self.drawn.graph.upstream(made.node)}
        shape = {**made.shape, "earlier": keys.followed(self.earlier, upstream)}
        if shape["earlier"]:
            shape["errors"] = keys.errors(made.points)
            self.following.need(made.node, (each["put"] for each in shape["errors"]))
        self.known.update(shown_nodes(made.walked), (made.node,))
        self.earlier.append((label, made.node, None))
        return replace(made, shape=shape)

    def part(self, label: str, part: AnyPart, made: Made, marks: int) -> Part:
        """A part of what it is made of, worth ``marks`` where its author says nothing else."""
        hints = (*self.own_hint(part), *(self.hints(made.walked) or made.hints))
        body = prose.blocks(part.ask, self.slots, self.drawn)
        return Part(label, part.marks or marks, body, made.field, hints, made.working, made.answer, made.shape)
