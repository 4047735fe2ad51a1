"""Rules in data: each a macro, with its sentence, its hint and the wrong ways that students take in its place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from saltbridge.algebra.programs import Program
from saltbridge.catalogue.entries import Entry, EntryError, nearest
from saltbridge.catalogue.macros import MOST_NODES, Macro, MacroError, expand, size
from saltbridge.tables.yaml_text import Node

_RULE = ("tree", "like", "ways")


@dataclass(frozen=True, eq=False)
class RuleEntry:
    """A rule of the catalogue: its macro ``tree`` and, by name, the macros of its wrong ``ways``."""

    id: str
    tree: Macro
    ways: Mapping[str, Macro] = field(default_factory=dict)

    def program(self, inputs: Sequence[str], keys: Sequence[str]) -> Program:
        """The tree for these inputs and keys. Raises ``MacroError`` where they do not fit the macro."""
        return _expanded(self, "", tuple(inputs), tuple(keys))

    def wrong(self, way: str, inputs: Sequence[str], keys: Sequence[str]) -> Program | None:
        """The tree of a wrong way; ``None`` where this rule has no such way or it does not fit this use."""
        if way not in self.ways:
            return None
        try:
            return _expanded(self, way, tuple(inputs), tuple(keys))
        except MacroError:
            return None


@lru_cache(maxsize=8192)
def _expanded(rule: RuleEntry, way: str, inputs: tuple[str, ...], keys: tuple[str, ...]) -> Program:
    return expand(rule.ways[way] if way else rule.tree, inputs, keys)


def rule(entry: Entry, rules: Mapping[str, RuleEntry]) -> RuleEntry:
    """A rule; ``rules`` are those before it. Raises ``EntryError`` after noting its faults."""
    entry.allow(_RULE, ())
    if ("tree" in entry.keys) == ("like" in entry.keys):
        found = "both" if "tree" in entry.keys else "neither"
        entry.blame("bad-shape", "", expected="either tree or like", found=found)
        raise EntryError
    base = _base(entry, rules) if "like" in entry.keys else None
    tree = base.tree if base else _macro(entry, "tree", entry.keys["tree"])
    ways = dict(base.ways) if base else {}
    inner = entry.inner("ways")
    for name in inner.keys if inner else ():
        assert inner is not None  # noqa: S101 - it has this key
        ways[name] = _macro(inner, name, inner.keys[name])
    return RuleEntry(entry.path, tree, ways)


def _base(entry: Entry, rules: Mapping[str, RuleEntry]) -> RuleEntry:
    name = entry.text("like")
    if name not in rules:
        hint = nearest(name, rules) or "A rule is like one that stands before it."
        entry.blame("unknown-rule", "like", expected="the id of a rule", found=name, hint=hint)
        raise EntryError
    return rules[name]


def _macro(entry: Entry, key: str, node: Node) -> Macro:
    """The macro at a key; it is written out once for made-up inputs and keys, so that a wrong word in it is told."""
    macro = _plain(node)
    if size(macro) > MOST_NODES:
        entry.blame("too-large", key, expected=f"a tree of at most {MOST_NODES} words and brackets", found=str(size(macro)))
        raise EntryError
    try:
        expand(macro, MADE_UP_INPUTS, MADE_UP_KEYS)
    except MacroError as error:
        entry.blame("bad-tree", key, expected=error.expected, found=error.found)
        raise EntryError from error
    return macro


MADE_UP_KEYS = ("a.oxidised", "b.reduced", "c.oxidised", "d.reduced", "e.oxidised", "f.reduced")
MADE_UP_INPUTS = tuple(f"x{place}" for place in range(1, 9))
"""Enough of both for any macro: six keys are the pairs of four things, and four fit twice into eight inputs."""


def _plain(node: Node) -> Any:
    if node.items is not None:
        return [_plain(each) for each in node.items]
    return {key: _plain(each) for key, each in node.value.items()} if isinstance(node.value, dict) else node.value
