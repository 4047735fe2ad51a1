"""Records of the catalogue: quantities, relations, slips and facts as they were read."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace

from saltbridge.algebra.expression import Tree, names
from saltbridge.catalogue.balance_entries import BalanceEntry
from saltbridge.catalogue.ideas import Idea
from saltbridge.catalogue.rules import RuleEntry, Taken
from saltbridge.catalogue.scenario_records import ScenarioEntry


@dataclass(frozen=True, slots=True)
class Flags:
    """How a quantity is treated in a working, in judging and at the command line; the head of quantities.yaml tells each."""

    judged: str = ""
    counted_by: str = ""
    silent: bool = False
    seldom_given: bool = False
    inner: bool = False
    numbered: bool = False
    several_cells: bool = False
    electrons: bool = False
    put_in: bool = False

    @property
    def by_logarithm(self) -> bool:
        """Whether a number is right within a range of its common logarithm."""
        return self.judged == "by logarithm"


@dataclass(frozen=True, slots=True)
class Example:
    """A derivation that can be asked for at the command line as it stands: what is wanted, what is given, and a cell diagram."""

    find: str
    given: tuple[str, ...] = ()
    diagram: str = ""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity's name, printed symbol and coherent ``unit``; ``show`` is the unit a result is given in.

    ``word``: not a number but a word, such as a metal or the product at an electrode; ``family`` is its heading then.
    ``example``: one that no relation's outside case tells.
    """

    symbol: str
    name: str
    base: str
    unit: str
    show: str
    sub: str = ""
    standard: bool = False
    of: str = ""
    signed: bool = False
    whole: bool = False
    constant: bool = False
    upright: bool = False
    least: str = "any"
    word: bool = False
    family: str = ""
    flags: Flags = Flags()
    example: Example | None = None


@dataclass(frozen=True, slots=True)
class Form:
    """The same relation under a condition: ``at`` pins a quantity (K for T) within ``within``; ``constant`` says what a new constant is."""

    id: str
    subject: str
    tree: Tree
    at: Mapping[str, float]
    within: Mapping[str, float]
    constant: Mapping[str, Tree]


@dataclass(frozen=True, slots=True)
class Case:
    """An outside case: the ``values`` that a source gives for all names of a relation."""

    values: Mapping[str, float]
    source: str


@dataclass(frozen=True, slots=True)
class Relation:
    """One relation: ``subject = tree``; sentences for the working; validity, source and outside cases.

    ``where``: names that a situation must not know to be otherwise, so that it holds there (``nu_anode: 1``);
    ``cost``: how many steps it counts as where two ways lead to one quantity; ``hint``: a question that helps to find the step, "" where
    a bank's own has none.
    """

    id: str
    subject: str
    tree: Tree
    family: str
    say: str
    say_here: str
    valid: str
    source: str
    forms: tuple[Form, ...]
    cases: tuple[Case, ...]
    where: Mapping[str, str] = field(default_factory=dict)
    cost: int = 1
    hint: str = ""

    @property
    def symbols(self) -> tuple[str, ...]:
        """All names of the relation, subject first."""
        return tuple(dict.fromkeys((self.subject, *names(self.tree))))


@dataclass(frozen=True, slots=True)
class Slip:
    """A usual wrong way and its places: ``relations``, or ``conversions`` (from, to), or the quotient, or a ``fact``.

    ``rules`` are those under which it stands as a common error, with what is taken there in place of the right answer.

    ``reshape`` is how an equation is written wrong at the ``balances``, beside another place or alone. ``only_asked``: it ends in
    what is asked itself, and is no way to anything behind that.
    """

    id: str
    hint: str
    source: str
    twins: tuple[str, ...]
    relations: tuple[str, ...] = ()
    rules: Mapping[str, Taken] = field(default_factory=dict)
    conversions: tuple[tuple[str, str], ...] = ()
    quotient: str = ""
    instead: tuple[str, Tree] | None = None
    read: Mapping[str, Tree] = field(default_factory=dict)
    when: str = ""
    only_asked: bool = False
    takes: str = ""
    fact: str = ""
    balances: tuple[str, ...] = ()
    reshape: str = ""


def title(slip: str) -> str:
    """The id of a common error as words, for whoever reads a report: ``add-both-as-printed`` → "Add both as printed"."""
    return slip.replace("-", " ").capitalize()


@dataclass(frozen=True, slots=True)
class Wrong:
    """A wrong answer; ``shows`` is the belief that leads to it, "" for none, with its hint and source, and how it is written down (``Slip``)."""

    says: str
    shows: str = ""
    hint: str = ""
    source: str = ""
    balances: tuple[str, ...] = ()
    reshape: str = ""


@dataclass(frozen=True, slots=True)
class Fact:
    """A fact as a law of the graph: ``node`` is ``right``; ``wrong`` answers stand beside it, ``family`` is "" where a scenario states it."""

    id: str
    node: str
    statement: str
    right: str
    wrong: tuple[Wrong, ...]
    why: str
    hint: str
    source: str
    family: str = ""
    name: str = ""

    @property
    def say(self) -> str:
        """The sentence of the working."""
        return f"{self.statement} {self.why}".strip()

    @property
    def keys(self) -> tuple[str, ...]:
        """Every answer, the right one first."""
        return (self.right, *(each.says for each in self.wrong))

    @property
    def inputs(self) -> tuple[str, ...]:
        """Nothing: a fact needs no other node."""
        return ()

    def among(self, answers: Collection[str]) -> Fact:
        """The fact with those of its wrong answers that a situation has."""
        return replace(self, wrong=tuple(each for each in self.wrong if each.says in answers))

    def slips(self) -> Iterator[Slip]:
        """The beliefs behind the wrong answers, as slips."""
        for each in self.wrong:
            if each.shows:
                yield Slip(
                    each.shows, each.hint, each.source, (), fact=self.id, takes=each.says, balances=each.balances, reshape=each.reshape
                )  # fmt: skip

    def quantity(self) -> Quantity:
        """The name asked for, as a word of the list of quantities."""
        return Quantity(self.node, self.name, self.name, "", "", word=True, family=self.family)


@dataclass(frozen=True, slots=True)
class Catalogue:
    """All quantities, relations, slips and facts, in file order (the planner's ties go by it).

    ``scenarios`` are the kinds of scenario; ``own`` are a bank's own relations, ``own_facts`` its facts that are true in every scenario, ``own_rules`` its rules;
    ``parts_of_names`` say what stands behind an owner (``left.metal``).
    """

    quantities: Mapping[str, Quantity]
    relations: Mapping[str, Relation]
    slips: Mapping[str, Slip]
    ideas: Mapping[str, Idea] = field(default_factory=dict)
    facts: Mapping[str, Fact] = field(default_factory=dict)
    scenarios: Mapping[str, ScenarioEntry] = field(default_factory=dict)
    own: tuple[str, ...] = ()
    own_facts: tuple[str, ...] = ()
    balances: Mapping[str, BalanceEntry] = field(default_factory=dict)
    rules: Mapping[str, RuleEntry] = field(default_factory=dict)
    own_rules: tuple[str, ...] = ()
    parts_of_names: Mapping[str, str] = field(default_factory=dict)
