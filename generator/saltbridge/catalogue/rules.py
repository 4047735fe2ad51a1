"""Rules in data: each a macro, with its sentence, its hint and the common errors that students make in its place."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Literal, get_args

from saltbridge.algebra.programs import Program
from saltbridge.catalogue.entries import Entry, EntryError
from saltbridge.catalogue.macros import MOST_NODES, Macro, MacroError, expand, size
from saltbridge.faults import nearest
from saltbridge.tables.yaml_text import Node

_RULE = ("tree", "like", "ways", "say", "hint", "wrong", "gives", "inputs", "keys", "family", "name")
_ADDED = ("adds to", "ways", "wrong")
_WRONG = ("takes", "key", "says", "shows", "hint", "source")
Kind = Literal["takes", "key", "says"]
ANY_OTHER = "any other"
"""In place of a key: the common error explains each wrong option that nothing else leads to."""


@dataclass(frozen=True, slots=True)
class Taken:
    """What a student takes in place of the right answer: a wrong way of the rule, a key of a use (or any other), or words of no use."""

    kind: Kind
    what: str


@dataclass(frozen=True, slots=True)
class CommonError:
    """A common error at a rule: what is taken and the id of what it shows; hint and source are "" where it is told elsewhere."""

    taken: Taken
    shows: str
    hint: str = ""
    source: str = ""


@dataclass(frozen=True, eq=False)
class RuleEntry:
    """A rule of the catalogue: its macro ``tree`` and, by name, the macros of its wrong ``ways``.

    ``macro`` is the id of the rule whose tree it is. ``say`` is its sentence in a working, "" where it stands there silently,
    ``hint`` the question that leads to it, ``wrong`` the common errors. One that joins scenarios by itself ``gives`` a node, from
    these ``inputs`` and with these ``keys``; ``name`` says in words what that is, ``family`` where it joins. One that ``adds_to``
    another rule is no rule of its own: its common errors are made there.
    """

    id: str
    tree: Macro
    ways: Mapping[str, Macro] = field(default_factory=dict)
    macro: str = ""
    say: str = ""
    hint: str = ""
    wrong: tuple[CommonError, ...] = ()
    gives: str = ""
    inputs: tuple[str, ...] = ()
    keys: tuple[str, ...] = ()
    family: str = ""
    name: str = ""
    adds_to: str = ""

    def program(self, inputs: Sequence[str], keys: Sequence[str]) -> Program:
        """The tree for these inputs and keys. Raises ``MacroError`` where they do not fit the macro."""
        return _expanded(self, "", tuple(inputs), tuple(keys))

    def way(self, way: str, inputs: Sequence[str], keys: Sequence[str]) -> Program | None:
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
    if "adds to" in entry.keys:
        return _added(entry, rules)
    entry.allow(_RULE, ())
    if ("tree" in entry.keys) == ("like" in entry.keys):
        found = "both" if "tree" in entry.keys else "neither"
        entry.blame("bad-shape", "", expected="either tree or like", found=found)
        raise EntryError
    base = _base(entry, "like", rules) if "like" in entry.keys else None
    tree = base.tree if base else _macro(entry, "tree", entry.keys["tree"])
    ways = (dict(base.ways) if base else {}) | _own_ways(entry)
    say = _sentence(entry, "say") if "say" in entry.keys else ""
    wrong = tuple(_wrong(each, ways) for each in entry.each("wrong"))
    made = RuleEntry(
        entry.path, tree, ways, base.macro if base else entry.path, say, _hint(entry, say), wrong, entry.text("gives"),
        entry.texts("inputs"), entry.texts("keys"), entry.text("family"), entry.text("name"),
    )  # fmt: skip
    _use(entry, made)
    return made


def _added(entry: Entry, rules: Mapping[str, RuleEntry]) -> RuleEntry:
    """Common errors, and ways for them, that are added to a rule which stands elsewhere."""
    entry.allow(_ADDED, ("adds to", "wrong"))
    base, own = _base(entry, "adds to", rules), _own_ways(entry)
    for name in own.keys() & base.ways.keys():
        hint = "Give your way a name of its own."
        entry.blame("redefined", "ways", expected=f"a way that {base.id} does not have", found=name, hint=hint)
    ways = {**base.ways, **own}
    wrong = tuple(_wrong(each, ways) for each in entry.each("wrong"))
    return RuleEntry(entry.path, base.tree, ways, base.macro, wrong=wrong, adds_to=base.id)


def with_added(rules: dict[str, RuleEntry]) -> None:
    """Give each rule the ways that other entries add to it."""
    for added in [each for each in rules.values() if each.adds_to]:
        base = rules[added.adds_to]
        rules[base.id] = replace(base, ways={**base.ways, **added.ways})


def _own_ways(entry: Entry) -> dict[str, Macro]:
    inner = entry.inner("ways")
    return {name: _macro(inner, name, node) for name, node in inner.keys.items()} if inner else {}


def _use(entry: Entry, found: RuleEntry) -> None:
    """Note what is wrong with the use that a rule tells of itself: its keys without what it gives, or inputs that do not fit."""
    if not found.gives:
        for key in ("inputs", "keys", "family", "name"):
            if key in entry.keys:
                entry.blame("bad-shape", key, expected="gives beside it, the name of what follows", found="none")
        return
    if not found.gives.isidentifier() or not found.gives.isascii():
        entry.blame("name", "gives", expected="a name of letters, digits and _", found=found.gives)
    if found.gives in found.inputs:
        entry.blame("cycle", "inputs", expected=f"inputs other than {found.gives} itself", found=found.gives)
    if not found.say:
        entry.blame("missing-key", "", expected="the keys say and hint", found="none")
    try:
        found.program(found.inputs, found.keys)
    except MacroError as error:
        entry.blame("bad-use", "inputs", expected=error.expected, found=error.found)
    for error_key in sorted({each.taken.what for each in found.wrong if each.taken.kind == "key"} - {ANY_OTHER, *found.keys}):
        hint = nearest(error_key, found.keys) or f"Its keys: {', '.join(found.keys)}."
        entry.blame("unknown-key-of-use", "wrong", expected="one of the keys of this rule", found=error_key, hint=hint)


def _hint(entry: Entry, say: str) -> str:
    """The question that leads to a rule; a rule with a sentence needs one, as else its sentence would have to do."""
    if bool(say) != ("hint" in entry.keys):
        found, hint = ("say alone", "Add a question that leads to it.") if say else ("hint alone", "Add its sentence.")
        entry.blame("bad-shape", "say" if say else "hint", expected="say and hint together", found=found, hint=hint)
    return _question(entry) if "hint" in entry.keys else ""


def _question(entry: Entry) -> str:
    """A hint that is a question."""
    text = _plain_sentence(entry, "hint")
    if text.endswith("."):
        entry.blame("sentence", "hint", expected="a question", found=repr(text[-20:]))
    return text


def _plain_sentence(entry: Entry, key: str) -> str:
    """A sentence without holes, as what would fill them may be the answer."""
    text = _sentence(entry, key)
    if "{" in text or "}" in text:
        entry.blame("sentence", key, expected="plain words, without holes", found="a curly bracket")
    return text


def _sentence(entry: Entry, key: str) -> str:
    text = entry.text(key)
    if text[-1:] not in {".", "?"}:
        entry.blame("sentence", key, expected="a sentence with its full stop or question mark", found=repr(text[-20:]))
    return text


def _wrong(entry: Entry, ways: Mapping[str, Macro]) -> CommonError:
    """A common error; what it shows is told here with hint and source, or elsewhere."""
    entry.allow(_WRONG, ("shows",))
    kinds = [kind for kind in get_args(Kind) if kind in entry.keys]
    if len(kinds) != 1:
        entry.blame("bad-shape", "", expected="one of takes, key and says", found=" and ".join(kinds) or "none")
        raise EntryError
    taken = Taken(kinds[0], entry.text(kinds[0]))
    if taken.kind == "takes" and taken.what not in ways:
        hint = nearest(taken.what, ways) or f"Its ways: {', '.join(ways) or 'none'}. For words as they stand write says."
        entry.blame("unknown-way", "takes", expected="a wrong way of this rule", found=taken.what, hint=hint)
    if not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", entry.text("shows")):
        expected = "small letters, digits and hyphens, such as `anode-always-plus`"
        entry.blame("identifier", "shows", expected=expected, found=entry.text("shows"))
    if ("hint" in entry.keys) != ("source" in entry.keys):
        found = "hint alone" if "hint" in entry.keys else "source alone"
        entry.blame("bad-shape", "", expected="hint and source together, or neither where both stand elsewhere", found=found)
    hint = _plain_sentence(entry, "hint") if "hint" in entry.keys else ""
    return CommonError(taken, entry.text("shows"), hint, entry.text("source"))


def _base(entry: Entry, key: str, rules: Mapping[str, RuleEntry]) -> RuleEntry:
    name = entry.text(key)
    if name not in rules or rules[name].adds_to:
        hint = nearest(name, rules) or "Name a rule that stands before this one."
        entry.blame("unknown-rule", key, expected="the id of a rule", found=name, hint=hint)
        raise EntryError
    return rules[name]


def _macro(entry: Entry, key: str, node: Node) -> Macro:
    """The macro at a key; it is written out once for made-up inputs and keys, so that a wrong word in it is told."""
    macro = node.plain
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
