"""Reads data/figures.yaml: every key known, every fault at its line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from saltbridge.catalogue.catalogue import Catalogue, catalogue
from saltbridge.catalogue.entries import Entry, EntryError, entries
from saltbridge.catalogue.macros import MacroError
from saltbridge.catalogue.scenario_records import RuleUse
from saltbridge.faults import FaultList, Faulty, nearest
from saltbridge.forms.conditions import Condition, parse_condition
from saltbridge.home import shipped
from saltbridge.scenarios.figures.figure_records import (
    DRAWN,
    ArrowPair,
    FigureEntry,
    FigureText,
    FigureWords,
    GraphLine,
    LetterPlace,
)

KEYS = (
    "is", "kinds", "plot", "needs", "labels", "flags", "keys", "letters", "lettered", "arrows", "asked", "follows", "axes", "curves",
    "lines", "keep only if", "says",
)  # fmt: skip
NONE = "none"


@cache
def figures() -> Mapping[str, FigureEntry]:
    """The figures that a template may name, by name. Raises ``Faulty`` with every fault of the file."""
    return read_figures(shipped("data") / "figures.yaml", catalogue())


def read_figures(path: Path, known: Catalogue) -> dict[str, FigureEntry]:
    """The figures of a file. Raises ``Faulty`` with every fault of it."""
    faults = FaultList()
    found: dict[str, FigureEntry] = {}
    for entry in entries(path, faults):
        try:
            found[entry.path] = _figure(entry, known)
        except EntryError:
            continue
    faults.stop_if_any()
    return found


def fitting(kind: str) -> tuple[str, ...]:
    """The figures that a scenario of this kind may name."""
    return tuple(name for name, each in figures().items() if each.fits(kind))


def _figure(entry: Entry, known: Catalogue) -> FigureEntry:
    entry.allow(KEYS, ("is", "says"))
    kinds = entry.texts("kinds")
    for kind in kinds:
        if kind not in known.scenarios:
            hint = nearest(kind, known.scenarios)
            entry.blame("unknown-kind", "kinds", expected="a kind of scenario", found=kind, hint=hint)
    return FigureEntry(
        entry.path, entry.text("is"), kinds, entry.text("plot"), entry.texts("needs"), _labels(entry),
        {name: _condition(inner, name) for inner in _at(entry, "flags") for name in inner.keys},
        {name: _words(each) for name, each in _inner(entry, "keys")},
        {name: _place(each) for name, each in _inner(entry, "letters")},
        {name: _arrows(each) for name, each in _inner(entry, "arrows")},
        tuple(_rule(name, each, known) for name, each in _inner(entry, "asked")),
        tuple(_rule(name, each, known) for name, each in _inner(entry, "follows")),
        _pair(entry, "axes") if "axes" in entry.keys else (),
        {name: _pair(inner, name) for inner in _at(entry, "curves") for name in inner.keys},
        tuple(_line(each) for each in entry.each("lines")), tuple(_texts(entry, "says")), entry.flag("lettered"), _condition(entry, "keep only if") if "keep only if" in entry.keys else None,
    )  # fmt: skip


def _at(entry: Entry, key: str) -> Iterator[Entry]:
    inner = entry.inner(key)
    if inner is not None:
        yield inner


def _inner(entry: Entry, key: str) -> Iterator[tuple[str, Entry]]:
    """The mappings under a key, by name."""
    for inner in _at(entry, key):
        for name in inner.keys:
            each = inner.inner(name)
            if each is not None:
                yield name, each


def _labels(entry: Entry) -> dict[str, tuple[FigureText, ...]]:
    return {name: tuple(_texts(inner, name)) for inner in _at(entry, "labels") for name in inner.keys}


def _texts(entry: Entry, key: str) -> Iterator[FigureText]:
    """A text, a text with the draws it stands in, or several of which the first that can be filled counts."""
    plain = entry.keys[key].plain
    for each in plain if isinstance(plain, list) else [plain]:
        yield _text(entry, key, each)


def _text(entry: Entry, key: str, plain: Any) -> FigureText:
    if isinstance(plain, str):
        return FigureText(plain)
    if not isinstance(plain, dict) or set(plain) != {"if", "text"}:
        entry.blame("bad-shape", key, expected="a text, or `if` and `text`", found="something else")
        raise EntryError
    when = str(plain["if"])
    return FigureText(str(plain["text"]), when if when.replace("-", "").isalnum() else _parsed(entry, key, when))


def _condition(entry: Entry, key: str) -> Condition:
    return _parsed(entry, key, entry.text(key))


def _parsed(entry: Entry, key: str, text: str) -> Condition:
    try:
        return parse_condition(text)
    except Faulty as error:
        for each in error.faults:
            entry.blame(each.code, key, expected=each.expected, found=each.found, hint=each.hint)
        raise EntryError from error


def _words(entry: Entry) -> FigureWords:
    entry.allow(("means", "words", "usual"), ("means", "words"))
    inner = entry.inner("words")
    words = {name: inner.text(name) for name in inner.keys} if inner else {}
    return FigureWords(entry.text("means"), words, entry.one_of("usual", (*words, DRAWN), next(iter(words), "")))


def _place(entry: Entry) -> LetterPlace:
    entry.allow(("says", "what", "hides"), ("says",))
    inner = entry.inner("what")
    return LetterPlace(entry.text("says"), {name: inner.text(name) for name in inner.keys} if inner else {}, entry.text("hides"))


def _arrows(entry: Entry) -> ArrowPair:
    entry.allow(("letters", "names", "says", "hides"), ("letters", "names", "says"))
    letters, names = entry.texts("letters"), entry.texts("names")
    if len(letters) != len(("left", "right")) or len(names) != len(letters):
        entry.blame("bad-value", "letters", expected="two letters and two names", found=f"{len(letters)} and {len(names)}")
        raise EntryError
    return ArrowPair((letters[0], letters[1]), (names[0], names[1]), entry.text("says"), entry.text("hides"))


def _rule(name: str, entry: Entry, known: Catalogue) -> RuleUse:
    """A use of a rule; where it is about each letter, ``L`` in a name stands for the letter."""
    entry.allow(("rule", "of", "keys"), ("rule", "of"))
    use = RuleUse(name, entry.text("rule"), entry.texts("of"), entry.texts("keys"))
    if use.rule not in known.rules:
        entry.blame("unknown-rule", "rule", expected="the id of a rule", found=use.rule, hint=nearest(use.rule, known.rules))
        return use
    try:
        known.rules[use.rule].program(use.of, use.keys)
    except MacroError as error:
        entry.blame("bad-use", "of", expected=error.expected, found=error.found)
    return use


def _line(entry: Entry) -> GraphLine:
    entry.allow(("across", "up", "named", "scale", "from zero"), ("across", "up", "named"))
    log = entry.one_of("scale", ("", "log"), "") == "log"
    return GraphLine(entry.texts("across"), entry.texts("up"), _pair(entry, "named"), log, entry.flag("from zero"))


def _pair(entry: Entry, key: str) -> tuple[str, ...]:
    """The quantities across and up."""
    found = entry.texts(key)
    if len(found) != len(("across", "up")):
        entry.blame("bad-value", key, expected="two quantities, across and up", found=f"{len(found)}")
        raise EntryError
    return found
