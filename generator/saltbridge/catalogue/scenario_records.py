"""Records of scenarios as data: what a kind draws, what is in it, and what each of its names is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from saltbridge.algebra.expression import Tree

What = Literal["one of", "some of", "given", "quantity", "count", "word"]
Sign = Literal["<", "<=", ">", ">=", "="]


@dataclass(frozen=True, slots=True)
class DrawnKey:
    """A key that a template writes under the kind, and how its value is drawn.

    ``what`` tells its form and ``of`` the list of words, the quantity, or nothing for words of its own; ``called`` are the names
    of what is drawn, one of them a stem that numbers follow where ``many`` is a number or the key that tells it; ``all_called`` is
    the stem of all that could be drawn. ``under`` are the names that the draw goes by, so that another key reshuffles nothing: one, or
    for several quantities one each; ``order`` sorts several, falling or rising. ``other_than``: a key whose word may
    not stand here too; ``as_couples``: metals that stand for the couples of their ions; ``only_with``: a key and the word that it must have. ``unit`` is the usual one, "" for a plain number; ``bare`` that of a number without one.
    """

    name: str
    means: str
    what: What
    of: str = ""
    called: tuple[str, ...] = ()
    under: tuple[str, ...] = ()
    order: str = ""
    many: str = ""
    all_called: str = ""
    words: tuple[str, ...] = ()
    usual: str = ""
    needed: bool = False
    least: str = ""
    most: str = ""
    whole: bool = False
    other_than: str = ""
    as_couples: bool = False
    only_with: tuple[str, str] = ("", "")
    unit: str = ""
    bare: str = ""
    any_sign: bool = False


@dataclass(frozen=True, slots=True)
class Comparison:
    """Terms with signs between them, as ``a.E0 < x.E0 < b.E0``."""

    terms: tuple[Tree, ...]
    signs: tuple[Sign, ...]


@dataclass(frozen=True, slots=True)
class Condition:
    """What must hold of a draw, else it is refused under ``code`` with what was ``expected``; ``one_of``: for exactly one of a stem."""

    code: str
    expected: str
    holds: Comparison
    one_of: str = ""


@dataclass(frozen=True, slots=True)
class RuleUse:
    """A rule of the catalogue with its inputs and keys here; a stem stands for all that are numbered."""

    node: str
    rule: str
    of: tuple[str, ...]
    keys: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class ScenarioEntry:
    """One kind of scenario.

    ``about`` says what it is; ``draws`` are its keys, none where it keeps code; ``reads`` are the constants of the sheet that it
    gives; ``things`` are what is in it, by name, each of a kind of the closed list; ``names`` say what each name is, an owner or a
    whole name, those of the kind ``names_as_in`` among them; ``words`` are those of the command line with the name that each tells, and the stem that it tells where several are
    told; ``words_beside`` are read too, but tell nothing of this kind alone. ``examples`` are what templates may write under the kind.
    """

    kind: str
    about: str
    families: tuple[str, ...] = ()
    draws: tuple[DrawnKey, ...] = ()
    reads: tuple[str, ...] = ()
    things: Mapping[str, str] = field(default_factory=dict)
    facts: tuple[str, ...] = ()
    rules: tuple[RuleUse, ...] = ()
    lists: Mapping[str, str] = field(default_factory=dict)
    two_of: tuple[str, ...] = ()
    either: tuple[tuple[str, ...], ...] = ()
    some_of: tuple[str, ...] = ()
    together: tuple[str, ...] = ()
    needs: Mapping[str, str] = field(default_factory=dict)
    conditions: tuple[Condition, ...] = ()
    film_noted: bool = False
    names: Mapping[str, str] = field(default_factory=dict)
    names_as_in: str = ""
    words: dict[str, tuple[str, ...]] = field(default_factory=dict)
    words_beside: dict[str, tuple[str, ...]] = field(default_factory=dict)
    examples: tuple[Mapping[str, Any], ...] = ()

    @property
    def stems(self) -> tuple[str, ...]:
        """The names that numbers follow."""
        several = tuple(key.called[0] for key in self.draws if key.what == "some of" and len(key.called) == 1)
        return (*several, *(key.all_called for key in self.draws if key.all_called))

    def key(self, name: str) -> DrawnKey | None:
        """The key whose value goes by a name."""
        return next((key for key in self.draws if name in (*key.called, key.all_called)), None)
