"""Reads scenarios from ``data/scenarios/`` and a bank's own: every key known, every fault at its line with what to write instead."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, cast

from saltbridge.algebra.expression import names, parse
from saltbridge.catalogue.catalogue_records import Fact, Quantity, Relation
from saltbridge.catalogue.entries import Entry, EntryError
from saltbridge.catalogue.macros import MacroError
from saltbridge.catalogue.rules import RuleEntry
from saltbridge.catalogue.scenario_keys import drawn_key
from saltbridge.catalogue.scenario_records import Comparison, Condition, DrawnKey, RuleUse, ScenarioEntry, Sign
from saltbridge.catalogue.scenario_things import THINGS, Thing
from saltbridge.catalogue.word_lists import WORD_LISTS
from saltbridge.faults import Faulty, nearest

KEYS = (
    "is", "families", "draws", "reads", "things", "facts", "rules", "lists", "exactly two of", "either", "one or more of", "together", "needs", "refuse unless",
    "film noted", "names", "names as in", "words", "words beside", "examples",
)  # fmt: skip
CONSTANTS = ("F", "R", "slope")
MORE_CONSTANTS = ("T", "V_m")
_KIND = re.compile(r"[a-z][a-z0-9-]*(?: [a-z0-9-]+){0,5}")
_OWNED = re.compile(r"([A-Za-z_]\w*)\.([A-Za-z_]\w*)")
_SIGN = re.compile(r"\s*(<=|>=|<|>|=)\s*")
MOST = 40
"""Keys, things, rules or names of one scenario."""


@dataclass(frozen=True)
class Known:
    """What of the catalogue a scenario may name."""

    quantities: Mapping[str, Quantity]
    relations: Mapping[str, Relation]
    facts: Mapping[str, Fact]
    rules: Mapping[str, RuleEntry]
    scenarios: Mapping[str, ScenarioEntry]

    @property
    def families(self) -> frozenset[str]:
        """The headings of relations, facts and rules."""
        found = {each.family for each in self.relations.values()} | {each.family for each in self.facts.values()}
        return frozenset(found | {each.family for each in self.rules.values()} - {""})


def scenario(entry: Entry, known: Known, *, bank: bool) -> ScenarioEntry:
    """One kind of scenario; ``bank``: a bank's own, which can keep no code and so has ``draws``.

    Raises ``EntryError`` where a needed key is missing, after noting its faults.
    """
    entry.allow(KEYS, ("is", "draws") if bank else ("is",))
    if not _KIND.fullmatch(entry.path):
        entry.blame("kind", "", expected="small letters, digits and hyphens, words with spaces between", found=entry.path)
    draws = tuple(drawn_key(each, known.quantities) for each in _inner(entry, "draws"))
    _refuse_unknown_tellers(entry, draws)
    found = ScenarioEntry(
        entry.path, entry.text("is"), _families(entry, known.families), draws,
        _reads(entry), dict(_things(entry, draws)), _facts(entry, known.facts),
        tuple(_rule(each, known.rules, _stems(draws)) for each in _inner(entry, "rules")), _texts(entry, "lists"), _keys(entry, "exactly two of", draws),
        _either(entry, draws), _keys(entry, "one or more of", draws),
        _keys(entry, "together", draws), _needs(entry, draws), tuple(_condition(each) for each in _inner(entry, "refuse unless")), entry.flag("film noted"),
        _names(entry, known.scenarios), entry.text("names as in"), _told_by_words(entry, "words", known.quantities), _told_by_words(entry, "words beside", known.quantities),
        _examples(entry),
    )  # fmt: skip
    _refuse_unknown_lists(entry, found)
    return found


def _inner(entry: Entry, key: str) -> Iterator[Entry]:
    """The entries under a key, one a line of the file."""
    inner = entry.inner(key)
    if inner is None:
        return
    if len(inner.keys) > MOST:
        entry.blame("too-many", key, expected=f"at most {MOST}", found=f"{len(inner.keys)}")
        raise EntryError
    for name in inner.keys:
        found = inner.inner(name)
        if found is not None:
            yield Entry(found.file, found.path, found.line, found.keys, found.faults)


def name_of(entry: Entry) -> str:
    """The last key of an inner entry's path."""
    return entry.path.rpartition(".")[2]


def _texts(entry: Entry, key: str) -> dict[str, str]:
    """Names with a text each."""
    inner = entry.inner(key)
    return {name: inner.text(name) for name in inner.keys} if inner else {}


def _examples(entry: Entry) -> tuple[dict[str, Any], ...]:
    """What templates may write under the kind, as plain texts, lists and mappings; whether that is right is the model's to say."""
    return tuple({key: node.plain for key, node in each.keys.items()} for each in entry.each("examples"))


def _names(entry: Entry, known: Mapping[str, ScenarioEntry]) -> dict[str, str]:
    """What each name is, with the names of another kind before them."""
    other = entry.text("names as in")
    if other and other not in known:
        hint = nearest(other, known) or "It must stand before this one."
        entry.blame("unknown-kind", "names as in", expected="a kind of scenario", found=other, hint=hint)
    return {**(known[other].names if other in known else {}), **_texts(entry, "names")}


def _families(entry: Entry, known: Collection[str]) -> tuple[str, ...]:
    """The families that it joins; a heading that nothing has is a fault at its line."""
    found = entry.texts("families")
    for place, family in enumerate(found):
        if family not in known:
            hint = nearest(family, known) or "Headings stand under the key family of relations and facts."
            entry.blame("unknown-family", "families", expected="a family of relations or facts", found=family, hint=hint)
        if family in found[:place]:
            entry.blame("repeated", "families", expected="each family once", found=f"{family} twice")
    return found


def _called(draws: tuple[DrawnKey, ...]) -> tuple[str, ...]:
    return tuple(name for key in draws for name in (*key.called, key.all_called) if name)


def _things(entry: Entry, draws: tuple[DrawnKey, ...]) -> Iterator[tuple[str, str]]:
    """Each thing by its name, which is the name of what is drawn or told for it."""
    words = entry.inner("words")
    there = (*_called(draws), *(name for word in (words.keys if words else ()) for name in cast("Entry", words).texts(word)))
    for owner, kind in _texts(entry, "things").items():
        here = cast("Entry", entry.inner("things"))
        if kind in THINGS:
            _fits(here, owner, THINGS[kind], draws, there)
        else:
            hint = nearest(kind, THINGS) or f"Known: {', '.join(THINGS)}."
            here.blame("unknown-thing", owner, expected="a kind of thing", found=kind, hint=hint)
        if owner not in there:
            hint = nearest(owner, there) or "A key under draws says it with as: or all as:."
            here.blame("unknown-name", owner, expected="the name of something that is drawn", found=owner, hint=hint)
        yield owner, kind


def _fits(entry: Entry, owner: str, thing: Thing, draws: tuple[DrawnKey, ...], there: Collection[str]) -> None:
    """Note words that are of no list of this thing, and a name that it needs beside it and that is not there."""
    key = next((each for each in draws if owner in (*each.called, each.all_called)), None)
    known = key is not None and (key.of in WORD_LISTS or key.what == "word")
    if (
        key is not None
        and known
        and key.of not in thing.lists
        and not (key.what == "word" and set(key.words) <= set(thing.words))
    ):
        expected = f"{entry.text(owner)} from a list of: {', '.join(thing.lists) or ', '.join(thing.words)}"
        entry.blame("wrong-list", owner, expected=expected, found=key.of or "words of its own")
    for name in thing.beside:
        if name not in there:
            entry.blame("unknown-name", owner, expected=f"something drawn as {name} beside {entry.text(owner)}", found="none")


def _reads(entry: Entry) -> tuple[str, ...]:
    """The constants that are given, those of every sheet where nothing is said."""
    known = (*CONSTANTS, *MORE_CONSTANTS)
    for each in entry.texts("reads"):
        if each not in known:
            entry.blame("unknown-constant", "reads", expected=f"one of {', '.join(known)}", found=each, hint=nearest(each, known))
    return tuple(each for each in entry.texts("reads") if each in known) if "reads" in entry.keys else CONSTANTS


def _facts(entry: Entry, known: Mapping[str, Fact]) -> tuple[str, ...]:
    for each in entry.texts("facts"):
        if each not in known:
            hint = nearest(each, known) or "Facts stand in facts.yaml."
            entry.blame("unknown-fact", "facts", expected="the id of a fact", found=each, hint=hint)
    return entry.texts("facts")


def _stems(draws: tuple[DrawnKey, ...]) -> frozenset[str]:
    """The names that numbers follow."""
    several = {key.called[0] for key in draws if key.what == "some of" and len(key.called) == 1}
    return frozenset(several | {key.all_called for key in draws if key.all_called})


def _rule(entry: Entry, known: Mapping[str, RuleEntry], stems: Collection[str]) -> RuleUse:
    """A rule with inputs and keys that fit it, a stem tried as three."""
    entry.allow(("rule", "of", "keys"), ("rule",))
    use = RuleUse(name_of(entry), entry.text("rule"), entry.texts("of"), entry.texts("keys"))
    if use.rule not in known:
        hint = nearest(use.rule, known) or "Rules stand in rules.yaml and rules/."
        entry.blame("unknown-rule", "rule", expected="the id of a rule", found=use.rule, hint=hint)
        return use
    inputs, keys = (tuple(each for name in names_of for each in _three(name, stems)) for names_of in (use.of, use.keys))
    try:
        known[use.rule].program(inputs, keys)
    except MacroError as error:
        entry.blame("bad-use", "of", expected=error.expected, found=error.found)
    return use


def _three(name: str, stems: Collection[str]) -> tuple[str, ...]:
    owner, point, symbol = name.partition(".")
    return tuple(f"{owner}{place}{point}{symbol}" for place in (1, 2, 3)) if owner in stems else (name,)


def _keys(entry: Entry, key: str, draws: tuple[DrawnKey, ...]) -> tuple[str, ...]:
    """Keys under draws that go together in some way."""
    found = entry.texts(key)
    _refuse_unknown_keys(entry, key, found, draws)
    return found


def _needs(entry: Entry, draws: tuple[DrawnKey, ...]) -> dict[str, str]:
    """Keys with the one that each needs beside it."""
    found = _texts(entry, "needs")
    _refuse_unknown_keys(entry, "needs", (*found, *found.values()), draws)
    return found


def _either(entry: Entry, draws: tuple[DrawnKey, ...]) -> tuple[tuple[str, ...], ...]:
    """The sets of keys of which a template writes one: texts with ``and`` between the keys of a set."""
    found = tuple(tuple(text.split(" and ")) for text in entry.texts("either"))
    for names_of in found:
        _refuse_unknown_keys(entry, "either", tuple(each for each in names_of if each != "nothing"), draws)
    return tuple(tuple(each for each in names_of if each != "nothing") for names_of in found)


def _refuse_unknown_keys(entry: Entry, key: str, found: tuple[str, ...], draws: tuple[DrawnKey, ...]) -> None:
    known = [each.name for each in draws]
    for each in found:
        if each not in known:
            entry.blame("unknown-name", key, expected="a key under draws", found=each, hint=nearest(each, known))


def _refuse_unknown_tellers(entry: Entry, draws: tuple[DrawnKey, ...]) -> None:
    """Note a key that another one is to look at and that there is not."""
    known = [key.name for key in draws]
    for key in draws:
        for way, other in (("how many", key.many), ("other than", key.other_than), ("only with", key.only_with[0])):
            if other and not other.isdigit() and other not in known:
                hint = nearest(other, known)
                entry.blame(
                    "unknown-name", "draws", expected=f"a key under draws as `{way}` of {key.name}", found=other, hint=hint
                )

    for key in draws:
        teller = next((each for each in draws if each.name == key.many), None)
        if teller is not None and not (teller.what == "count" or all(word.isdigit() for word in teller.words)):
            entry.blame(
                "number", "draws", expected=f"whole numbers as words of {teller.name}", found=", ".join(teller.words) or "others"
            )


def _refuse_unknown_lists(entry: Entry, found: ScenarioEntry) -> None:
    for name, stem in found.lists.items():
        if stem not in found.stems:
            here = cast("Entry", entry.inner("lists"))
            hint = nearest(stem, found.stems) or "A key of several says it with as: or all as:."
            here.blame("unknown-name", name, expected="the name that numbers follow", found=stem, hint=hint)


def _condition(entry: Entry) -> Condition:
    """A condition of a draw, its code as key."""
    entry.allow(("holds", "expected", "for one"), ("holds", "expected"))
    parts = _SIGN.split(entry.text("holds"))
    if len(parts) not in {3, 5}:
        hint = "As `U_term < E_cell`."
        entry.blame(
            "comparison", "holds", expected="two or three terms with < or > between", found=entry.text("holds"), hint=hint
        )
        raise EntryError
    try:
        terms = tuple(parse(_OWNED.sub(r"\1__\2", each)) for each in parts[::2])
    except Faulty as error:
        for each in error.faults:
            entry.blame(each.code, "holds", expected=each.expected, found=each.found, hint=each.hint)
        raise EntryError from error
    signs = cast("tuple[Sign, ...]", tuple(parts[1::2]))
    return Condition(name_of(entry), entry.text("expected"), Comparison(terms, signs), entry.text("for one"))


def terms_of(holds: Comparison) -> frozenset[str]:
    """The names in a comparison, owners before a point."""
    return frozenset(name.replace("__", ".") for tree in holds.terms for name in names(tree))


def _told_by_words(entry: Entry, key: str, quantities: Mapping[str, Quantity]) -> dict[str, tuple[str, ...]]:
    """Words of the command line, each a quantity that is a word, with the name that it tells and the stem for several."""
    inner = entry.inner(key)
    found = {word: inner.texts(word) for word in inner.keys} if inner else {}
    words = [name for name, each in quantities.items() if each.word]
    for word, tells in found.items():
        if not 1 <= len(tells) <= 2:
            here = cast("Entry", inner)
            here.blame("bad-shape", word, expected="a name, or a name and a stem", found=f"{len(tells)} names")
            raise EntryError
        if word not in words:
            hint = nearest(word, words) or "Add it to quantities.yaml with word: true."
            here = cast("Entry", inner)
            here.blame("unknown-word", word, expected="a quantity that is a word", found=word, hint=hint)
    return found
