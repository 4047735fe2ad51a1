"""What a scenario knows and the laws that hold in it: the planner's input.

A *situation* lists given quantities, rules (choices and whole numbers, one direction only), facts (true whatever is given)
and instances of relations (solvable for any of their names). It holds no numbers in its laws, so that one plan serves every variant of a shape.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

from saltbridge.algebra.expression import Ref, Tree, names, substitute
from saltbridge.catalogue.catalogue import Catalogue, Fact, Quantity, Relation
from saltbridge.catalogue.catalogue_records import Flags
from saltbridge.chemistry.inscriptions import in_english
from saltbridge.chemistry.species import Phase
from saltbridge.document import Inscription

Say = Callable[[str], str]
How = Literal["given", "read", "rule", "balance", "relation", "convert"]
Side = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Undefined:
    """A value that does not exist, and why; it flows downstream instead of raising."""

    why: str


Value = float | str | Undefined
"""A number in its unit, a side or other word, or ``Undefined``."""


@dataclass(frozen=True, slots=True)
class Given:
    """A known quantity: ``value`` in ``unit``, ``printed`` as the student sees it; ``how`` given, or read from ``source``."""

    value: Value
    unit: str
    printed: str
    how: How = "given"
    source: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """``node`` follows from ``inputs`` by the ``rule`` of that id in ``data/rules/``, where its sentence, hint and errors stand."""

    node: str
    rule: str
    inputs: tuple[str, ...]
    how: How = "rule"
    keys: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Instance:
    """A relation with this scenario's names in it: ``subject = tree``.

    ``power`` names the factor by which the equation is taken: a quotient is raised to it, so that it stands upside down where the
    reaction does.
    """

    law: str
    subject: str
    tree: Tree
    say: str
    binding: tuple[tuple[str, str], ...] = ()
    how: How = "relation"
    forms: tuple[tuple[str, Tree], ...] = ()
    power: str = ""
    hint: str = ""
    cost: int = 1
    symbols: tuple[str, ...] = field(init=False, repr=False, compare=False)
    """All names, subject first."""
    _hash: int = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Its hash and its names are kept: a graph is looked up by its laws at every draw, a plan looks at all their names."""
        told = (self.law, self.subject, self.tree, self.say, self.binding, self.how, self.forms, self.power, self.hint, self.cost)
        object.__setattr__(self, "_hash", hash(told))
        object.__setattr__(self, "symbols", tuple(dict.fromkeys((self.subject, *names(self.tree)))))

    def __hash__(self) -> int:
        return self._hash


@dataclass(frozen=True, slots=True)
class Conversion:
    """``node`` is ``source`` in another unit: value × factor + offset."""

    node: str
    source: str
    unit_from: str
    unit_to: str
    factor: float
    offset: float = 0.0


@dataclass(frozen=True, slots=True)
class Balance:
    """``node`` is an equation, or a number counted from one, got by a named operation (see ``balances.py``).

    ``kind`` is its entry in the catalogue. With ``keys`` the first input is the choice that says which of the others is meant. ``says``:
    the sentence, and where two equations are added those for the first, the second and both taken several times.
    """

    node: str
    kind: str
    op: str
    inputs: tuple[str, ...]
    keys: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    hint: str = ""
    how: How = "balance"

    @property
    def say(self) -> str:
        """Its sentence; "" for a silent step."""
        return self.says[0] if self.says else ""


def balance(
    catalogue: Catalogue, kind: str, node: str, inputs: tuple[str, ...], keys: tuple[str, ...] = (), *, silent: bool = False
) -> Balance:
    """The step of this kind that gives ``node``; ``silent`` without its sentence."""
    entry = catalogue.balances[kind]
    return Balance(node, kind, entry.op, inputs, keys, () if silent else entry.says, entry.hint)


Law = Rule | Instance | Conversion | Balance | Fact


@dataclass(slots=True)
class Situation:
    """Everything known of one drawn scenario.

    ``labels`` are printed names by place ("anode.couple", "left.ion"); ``words`` plain texts for prose; ``units`` the unit of
    each node that the quantity table does not tell; ``shape`` what the plan may depend on beyond names and laws; ``say`` puts
    the words of spoken labels into the bank's language. ``own_laws``: how many of the laws are the scenario's own, where every
    relation of the catalogue is joined after them (``None``: all). ``states`` are those of the species in its equations, "" where not told.
    """

    given: dict[str, Given] = field(default_factory=dict)
    laws: list[Law] = field(default_factory=list)
    labels: dict[str, Inscription] = field(default_factory=dict)
    words: dict[str, str] = field(default_factory=dict)
    about: dict[str, str] = field(default_factory=dict)
    shape: tuple[str, ...] = ()
    flat_quotients: dict[str, Tree] = field(default_factory=dict)
    own_laws: int | None = None
    say: Say = in_english
    states: dict[str, Phase] = field(default_factory=dict)

    def key(self) -> tuple[object, ...]:
        """Hashable shape: one plan serves all situations with the same key."""
        return (tuple((name, known.how) for name, known in self.given.items()), tuple(self.laws), self.shape)

    def decided(self) -> frozenset[str]:
        """The names that rules, facts and balancing give, such as the anode: no matter of calculation."""
        return frozenset(law.node for law in self.laws if not isinstance(law, Instance | Conversion))

    def copy(self) -> Situation:
        """The same situation, to be changed without changing this one."""
        return Situation(
            dict(self.given), list(self.laws), dict(self.labels), dict(self.words), dict(self.about), self.shape,
            dict(self.flat_quotients), self.own_laws, self.say, dict(self.states),
        )  # fmt: skip


def instance(
    relation: Relation, binding: Mapping[str, str] | None = None, *, say: str = "", form: str = "", other_forms: bool = False
) -> Instance:
    """The relation bound to names (``{"E0_cathode": "right.E0"}``); with ``form`` that form of it stands as the equation.

    ``other_forms``: the condition of the relation's forms is met, so that a student may use any of them.
    """
    key = (id(relation), tuple((binding or {}).items()), say, form, other_forms)
    known = _instances.get(key)
    if known is None:
        if len(_instances) >= _KEPT:
            _instances.clear()
        known = _instances[key] = (relation, _instance(relation, binding, say, form, other_forms))
    return known[1]


_KEPT = 4096
_NO_FLAGS = Flags()
_instances: dict[tuple[object, ...], tuple[Relation, Instance]] = {}
"""Instances made before; each holds its relation, so that no other can have its id."""


def _instance(relation: Relation, binding: Mapping[str, str] | None, say: str, form: str, other_forms: bool) -> Instance:
    put = {name: Ref(to) for name, to in (binding or {}).items()}
    chosen = next((each for each in relation.forms if each.id == form), None)
    tree = chosen.tree if chosen else relation.tree
    subject = (binding or {}).get(relation.subject, relation.subject)
    others = [(each.id, substitute(each.tree, put)) for each in relation.forms if each is not chosen and other_forms]
    if chosen:
        others.append(("", substitute(relation.tree, put)))
    return Instance(
        relation.id, subject, substitute(tree, put), say or relation.say_here or relation.say,
        tuple(sorted((binding or {}).items())), forms=tuple(others), hint=relation.hint, cost=relation.cost,
    )  # fmt: skip


@lru_cache(maxsize=8192)
def bare_name(name: str) -> str:
    """A node's name without its owner and unit: ``left.c2`` → ``c2``, ``t:min`` → ``t``, ``E0_cell`` → ``E0_cell``."""
    return name.split(":", 1)[0].rsplit(".", 1)[-1]


def quantity_of(name: str, quantities: Mapping[str, Quantity]) -> Quantity | None:
    """The quantity a node stands for (``left.c2``: c), or ``None`` for a side, a species or another word."""
    bare = bare_name(name)
    found = quantities.get(bare)
    if found is None and bare[-1:].isdigit():
        found = quantities.get(bare.rstrip("0123456789"))
        return found if found is not None and found.flags.numbered else None
    return found


def flags_of(name: str, quantities: Mapping[str, Quantity]) -> Flags:
    """How the quantity of a node is treated; what is no quantity has no flags."""
    quantity = quantity_of(name, quantities)
    return quantity.flags if quantity is not None else _NO_FLAGS


def given_name(name: str, unit: str) -> str:
    """The node of a quantity as given in a unit other than the coherent one: ``t:min``."""
    return f"{name}:{unit}"
