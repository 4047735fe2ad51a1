"""One drawn variant: its situation, its run, its judged answers, and the value of each of its names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from saltbridge.algebra.expression import Cells
from saltbridge.algebra.possible_words import possible_words
from saltbridge.catalogue.catalogue import Catalogue, Fact
from saltbridge.draw.name_advice import unknown_name
from saltbridge.faults import Fault, Faulty
from saltbridge.forms.conditions import Called, Measured
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Balance, Given, Rule, Situation, Undefined, quantity_of
from saltbridge.graph.solved import Outcome
from saltbridge.graph.written import GUARD, Written, written
from saltbridge.scenarios.equation_laws import is_inner
from saltbridge.tables.substances import metals

T = TypeVar("T")


@dataclass(slots=True)
class Judged:
    """The answers by node, what no working shows, the figures written beyond those asked for, and every number as written."""

    outcomes: Mapping[str, Outcome] = field(default_factory=dict)
    unwritten: frozenset[str] = frozenset()
    guard: int = GUARD
    written: Written | None = None


def is_caution(name: str) -> bool:
    """Whether a name of a template prints a line of safety."""
    return name == "caution" or name.endswith(".caution") or name.startswith("safety.")


@dataclass
class Drawn:
    """``start`` are the givens, ``cells`` the run, ``extra`` drawn words, ``seed`` its name, ``kind`` that of its scenario; ``found`` is shared by draws that know the same."""

    catalogue: Catalogue
    situation: Situation
    graph: Graph
    start: Cells
    cells: Cells
    extra: Mapping[str, str] = field(default_factory=dict)
    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    seed: str = ""
    judged: Judged = field(default_factory=Judged)
    found: dict[tuple[str, ...], Any] = field(default_factory=dict)
    kind: str = ""

    def once(self, work: Callable[[], T], *name: str) -> T:
        """What ``work`` gives, done once for all draws that know the same; it may look at nothing but numbers and laws."""
        if name not in self.found:
            self.found[name] = work()
        known: T = self.found[name]
        return known

    def judge(self, outcomes: Mapping[str, Outcome], unwritten: frozenset[str] = frozenset(), guard: int = GUARD) -> None:
        """Take over the answers; ``unwritten`` are results that no working shows, ``guard`` the figures written beyond."""
        self.judged = Judged(outcomes, unwritten, guard)

    @property
    def outcomes(self) -> Mapping[str, Outcome]:
        """The judged answers by node."""
        return self.judged.outcomes

    @property
    def written(self) -> Written:
        """Every number as the working writes it and uses it on."""
        judged = self.judged
        if judged.written is None:
            asked = {node: each.asked for node, each in judged.outcomes.items()}
            judged.written = written(self.graph, self.cells, self.situation.given, asked, judged.unwritten, judged.guard)
        return judged.written

    def unlike_written(self) -> list[str]:
        """The answers that come out otherwise where every line is worked from the digits of the line before."""
        found = self.outcomes.items()
        return [node for node, each in found if each.asked.printed(float(self.written[node])) != each.right.printed]

    def given(self, name: str) -> Given | None:
        """The given of a name, in whatever unit it was given."""
        known = self.situation.given.get(name)
        if known is None:
            known = next((each for node, each in self.situation.given.items() if node.startswith(f"{name}:")), None)
        return known

    def unit(self, node: str) -> str:
        """The unit of a node: the one in its name, of its given, or the coherent one."""
        if ":" in node:
            return node.split(":", 1)[1]
        known = self.situation.given.get(node)
        quantity = quantity_of(node, self.catalogue.quantities)
        return known.unit if known else quantity.unit if quantity else ""

    def lookup(self, name: str) -> object:
        """A name's value for a condition: a measured quantity, a word, or ``None`` where it is undefined.

        Raises ``Faulty`` (code ``unknown-name``) for a name that this scenario does not have.
        """
        if name in self.extra:
            return self.extra[name]
        if name in self.graph.index:
            value = self.cells[self.graph.index[name]]
            if isinstance(value, Undefined):
                return None
            return Measured(value, self.unit(name)) if isinstance(value, float) else value
        word = self._word(name)
        if word is not None:
            return word
        known = self.given(name)
        if known is None:
            raise self.unknown(name)
        return Measured(known.value, known.unit) if isinstance(known.value, float) else known.value

    def has(self, name: str) -> bool:
        """Whether a template may use this name."""
        held = (self.extra, self.situation.labels, self.situation.words, self.graph.index, self.lists)
        return not is_inner(name) and (any(name in each for each in held) or name in self.once(self._told, "told"))

    def _word(self, name: str) -> str | None:
        """A word or label of the scenario, a metal with its name and symbol; None for another name."""
        words, labels = self.situation.words, self.situation.labels
        owner, _, what = name.rpartition(".")
        said = words[name] if name in words else labels[name].plain if name in labels else None
        if said is None or what not in ("metal", "symbol") or f"{owner}.metal" not in words or f"{owner}.symbol" not in labels:
            return said
        symbol = labels[f"{owner}.symbol"].plain
        return Called(said, symbol if what == "metal" else words[f"{owner}.metal"])

    def choices(self, name: str) -> tuple[str, ...]:
        """The words that a name can be in any draw, where a rule, a fact or the table of metals gives them; else none."""
        if name in self.graph.index:
            return self._outcomes_of(self.graph.step(name).law)
        called = self._word(name)
        if not isinstance(called, Called):
            return ()
        known = [(each.name, each.symbol) for each in metals().values()]
        return tuple(word for pair in known for word in pair) if {called, called.other} in map(set, known) else ()

    def _outcomes_of(self, law: object) -> tuple[str, ...]:
        if isinstance(law, Fact):
            return law.keys
        if not isinstance(law, Rule):
            return ()
        return possible_words(self.catalogue.rules[law.rule].program(law.inputs, law.keys)) or ()

    def names(self) -> list[str]:
        """All names that a template may use."""
        named = {*self.extra, *self.situation.labels, *self.situation.words, *self._told(), *self.graph.index, *self.lists}
        return sorted(name for name in named if not is_inner(name))

    def _told(self) -> set[str]:
        """What is given, in whatever unit, and what is counted from an equation."""
        known = {node.split(":", 1)[0] for node in self.situation.given}
        return known | {law.node for law in self.situation.laws if isinstance(law, Balance) and law.op == "counted"}

    def unknown(self, name: str) -> Faulty:
        """The fault for a name that this scenario does not have."""
        return Faulty([self.unknown_fault(name)])

    def unknown_fault(self, name: str) -> Fault:
        """What is wrong with a name that this scenario does not have: the nearest, and the command that lists them."""
        return unknown_name(name, self.kind, self.names(), self.catalogue)
