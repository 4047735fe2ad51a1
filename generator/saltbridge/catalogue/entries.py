"""Strict reading of the entries of a catalogue file: every key known, every fault with its file, line and key."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from saltbridge.algebra.expression import Tree, parse, parse_equation
from saltbridge.faults import FaultList, Faulty, nearest
from saltbridge.tables.yaml_text import Node, read_mapping


class EntryError(Exception):
    """An entry that can't be used; its faults are noted already."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a file, or a mapping inside one; ``path`` is its key path."""

    file: str
    path: str
    line: int
    keys: dict[str, Node]
    faults: FaultList

    def blame(self, code: str, key: str, *, expected: str, found: str, hint: str = "") -> None:
        """Note a fault at a key of this entry."""
        line = self.keys[key].line if key in self.keys else self.line
        path = f"{self.path}.{key}" if key else self.path
        self.faults.add(code, expected=expected, found=found, hint=hint, file=self.file, line=line, key=path)

    def allow(self, known: Iterable[str], needed: Iterable[str]) -> None:
        """Note unknown keys with the nearest known one, and missing keys; raises ``EntryError`` where one is missing."""
        known = tuple(known)
        for key in self.keys:
            if key not in known:
                hint = nearest(key, known) or f"Known keys: {', '.join(known)}."
                self.blame("unknown-key", key, expected="a key of this kind of entry", found=key, hint=hint)
        missing = [key for key in needed if key not in self.keys]
        for key in missing:
            self.blame("missing-key", "", expected=f"the key {key}", found="none")
        if missing:
            raise EntryError

    def text(self, key: str, default: str = "") -> str:
        """A text; raises ``EntryError`` where the key holds something else."""
        node = self.keys.get(key)
        if node is None:
            return default
        if not isinstance(node.value, str) or node.items is not None:
            self.blame("bad-shape", key, expected="a text", found="a list or a mapping")
            raise EntryError
        return node.value

    def flag(self, key: str) -> bool:
        """Whether ``true`` stands there; nothing counts as false."""
        text = self.text(key, "false")
        if text not in {"true", "false"}:
            self.blame("bad-value", key, expected="true or false", found=text)
        return text == "true"

    def one_of(self, key: str, known: Iterable[str], default: str) -> str:
        """One of some words."""
        known, text = tuple(known), self.text(key, default)
        if text not in known:
            self.blame("bad-value", key, expected="one of " + ", ".join(each or '""' for each in known), found=text)
        return text

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts; a single text counts as a list of one."""
        node = self.keys.get(key)
        if node is None:
            return ()
        if node.items is None:
            return (self.text(key),)
        if any(not isinstance(item.value, str) or item.items is not None for item in node.items):
            self.blame("bad-shape", key, expected="a list of texts", found="a list of something else")
            raise EntryError
        return tuple(str(item.value) for item in node.items)

    def inner(self, key: str) -> Entry | None:
        """The mapping at a key."""
        node = self.keys.get(key)
        if node is None:
            return None
        return self._entry(key, node)

    def each(self, key: str) -> Iterator[Entry]:
        """The mappings in the list at a key."""
        node = self.keys.get(key)
        if node is None:
            return
        if node.items is None:
            self.blame("bad-shape", key, expected="a list", found="something else")
            raise EntryError
        for place, item in enumerate(node.items, 1):
            yield self._entry(f"{key}[{place}]", item)

    def _entry(self, key: str, node: Node) -> Entry:
        if not isinstance(node.value, dict):
            self.faults.add(
                "bad-shape",
                expected="a mapping",
                found="something else",
                file=self.file,
                line=node.line,
                key=f"{self.path}.{key}",
            )
            raise EntryError
        return Entry(self.file, f"{self.path}.{key}", node.line, node.value, self.faults)

    def number(self, key: str) -> float:
        """A finite number; raises ``EntryError`` for anything else."""
        text = self.text(key)
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not math.isfinite(value) or not text.isascii() or "_" in text:
            self.blame("number", key, expected="a number such as 0.34 or 1.5e-3", found=repr(text))
            raise EntryError
        return value

    def equation(self, key: str) -> tuple[str, Tree]:
        """An equation; raises ``EntryError`` where it can't be read."""
        try:
            return parse_equation(self.text(key))
        except Faulty as error:
            raise self._unread(key, error) from error

    def tree(self, key: str) -> Tree:
        """An expression; raises ``EntryError`` where it can't be read."""
        try:
            return parse(self.text(key))
        except Faulty as error:
            raise self._unread(key, error) from error

    def _unread(self, key: str, error: Faulty) -> EntryError:
        for each in error.faults:
            self.blame(each.code, key, expected=each.expected, found=each.found, hint=each.hint)
        return EntryError()


def entries(path: Path, faults: FaultList) -> Iterator[Entry]:
    """The entries of a catalogue file in order; nothing where there is no such file."""
    if not path.is_file():
        return
    try:
        found = read_mapping(path, faults, lists=True)
    except Faulty as error:
        faults.extend(error.faults)
        return
    for name, node in found.items():
        if isinstance(node.value, dict):
            yield Entry(path.name, name, node.line, node.value, faults)
        else:
            faults.add("bad-shape", expected="a mapping", found="something else", file=path.name, line=node.line, key=name)
