"""Records of the catalogue: quantities, relations and slips as they were read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from saltbridge.algebra.expression import Tree, names
from saltbridge.catalogue.ideas import Idea


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity's name, printed symbol and coherent ``unit``; ``show`` is the unit a result is given in.

    ``word``: not a number but a word, such as a metal or the product at an electrode; ``family`` is its heading then.
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
    """One relation: ``subject = tree``; sentences for the working; validity, source and outside cases."""

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

    @property
    def symbols(self) -> tuple[str, ...]:
        """All names of the relation, subject first."""
        return tuple(dict.fromkeys((self.subject, *names(self.tree))))


@dataclass(frozen=True, slots=True)
class Slip:
    """A usual wrong way and its place: ``relations``, or a ``rule``, or ``conversions`` (from, to), or the quotient."""

    id: str
    hint: str
    source: str
    twins: tuple[str, ...]
    relations: tuple[str, ...] = ()
    rule: str = ""
    conversions: tuple[tuple[str, str], ...] = ()
    quotient: str = ""
    instead: tuple[str, Tree] | None = None
    read: Mapping[str, Tree] = field(default_factory=dict)
    when: str = ""
    takes: str = ""


@dataclass(frozen=True, slots=True)
class Catalogue:
    """All quantities, relations and slips, in file order (the planner's ties go by it); ``own`` are a bank's own relations."""

    quantities: Mapping[str, Quantity]
    relations: Mapping[str, Relation]
    slips: Mapping[str, Slip]
    ideas: Mapping[str, Idea] = field(default_factory=dict)
    own: tuple[str, ...] = ()
