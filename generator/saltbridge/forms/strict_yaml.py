"""Strict YAML: a file becomes nodes of plain text with their lines, never loaded objects.

Scalars stay the characters that were typed, so ``NO`` is the gas and not "false", ``1e-5`` and ``1:30`` are what they look
like, and ``0.50`` keeps its zero. Nodes are built from the parser's events, because composed nodes no longer tell an
explicit tag from a guessed one. Anchors, aliases, tags, repeated keys and tabs are refused; sizes are limited as counts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import yaml

from saltbridge.faults import Fault, FaultList, Faulty
from saltbridge.tables.characters import improper

MOST_BYTES = 1_000_000
DEEPEST = 20
LONGEST_KEY = 200  # characters
MOST_NODES = 10_000  # keys, lists and texts of one file


@dataclass(frozen=True, slots=True)
class Scalar:
    """A text as typed. ``first`` is the line its own characters start on (a block text starts below its key)."""

    text: str
    line: int
    first: int

    def plain(self) -> object:
        """Give the text."""
        return self.text


@dataclass(frozen=True, slots=True)
class Listing:
    """A list."""

    items: tuple[Node, ...]
    line: int

    def plain(self) -> object:
        """Give a Python list of plain values."""
        return [item.plain() for item in self.items]


@dataclass(frozen=True, slots=True)
class Entry:
    """A key with its value."""

    key: str
    line: int
    value: Node


@dataclass(frozen=True, slots=True)
class Table:
    """Keys and values in file order; each key once."""

    entries: tuple[Entry, ...]
    line: int

    def get(self, key: str) -> Entry | None:
        """Find the entry of that key, if there."""
        return next((entry for entry in self.entries if entry.key == key), None)

    def plain(self) -> object:
        """Give a Python dict of plain values."""
        return {entry.key: entry.value.plain() for entry in self.entries}


Node = Scalar | Listing | Table


@dataclass(frozen=True, slots=True)
class Place:
    """Where a key path leads: the path as far as the file goes, its line, and the node there."""

    key: str
    line: int
    node: Node


def locate(root: Node, steps: tuple[str | int, ...]) -> Place:
    """Follow keys and list positions as far as they exist; ``parts[2].find`` is how the path is written."""
    path, line, node = "", root.line, root
    for step in steps:
        if isinstance(node, Table) and (entry := node.get(str(step))):
            path, line, node = (f"{path}.{step}" if path else str(step)), entry.line, entry.value
        elif isinstance(node, Listing) and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
            path, line = f"{path}[{step + 1}]", node.line
        else:
            break
    return Place(path, line, node)


def lines_of(root: Node, path: str = "") -> Iterator[tuple[str, int]]:
    """Give every key path of a file with its line."""
    match root:
        case Table(entries):
            for entry in entries:
                inner = f"{path}.{entry.key}" if path else entry.key
                yield inner, entry.line
                yield from lines_of(entry.value, inner)
        case Listing(items):
            for position, item in enumerate(items, 1):
                yield f"{path}[{position}]", item.line
                yield from lines_of(item, f"{path}[{position}]")
        case Scalar():
            pass


def read_yaml(path: Path, file: str) -> Table:
    """Read the keys of a YAML file; ``file`` is the name used in faults.

    Raises ``Faulty`` with every fault found: not UTF-8, too big, too deep, a tab, a tag, an anchor, a repeated key…
    """
    if not path.is_file():  # a pipe would never end, a device could do anything
        raise Faulty(
            [Fault("not-a-file", "an ordinary file", "a folder, a pipe or a device", "Put the file itself there.", file)]
        )
    try:
        with path.open("rb") as stream:
            raw = stream.read(MOST_BYTES + 1)
    except OSError as error:
        hint = "Give yourself the right to read it."
        raise Faulty([Fault("unreadable", "a file that can be read", (error.strerror or "none").lower(), hint, file)]) from None
    return parse_yaml(raw, file)


def parse_yaml(raw: bytes, file: str) -> Table:
    """Read the keys of YAML text given as bytes; see ``read_yaml``."""
    faults = FaultList()
    root = None
    try:
        root = _Builder(faults).document(_text(raw))
    except Faulty as trouble:
        faults.extend(trouble.faults)
    if root is not None and not isinstance(root, Table):
        faults.add("yaml-no-keys", expected="keys with values, as `title: …`", found=_kind(root), line=root.line)
    faults.faults = [each.at(file=file) for each in faults.faults]
    faults.stop_if_any()
    if not isinstance(root, Table):  # pragma: no cover - the fault above has been raised
        raise TypeError(file)
    return root


def _kind(node: Node) -> str:
    return "a list" if isinstance(node, Listing) else "a text"


def _text(raw: bytes) -> str:
    if len(raw) > MOST_BYTES:
        raise _one("file-too-big", "at most 1 MB", "a bigger file", "Split it into several files.", 0)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as trouble:
        line = raw.count(b"\n", 0, trouble.start) + 1
        raise _one("not-utf-8", "text in UTF-8", f"the byte {raw[trouble.start]:02X}", "Save the file as UTF-8.", line) from None
    if found := re.search(r"^ *\t", text, re.MULTILINE):
        line = text.count("\n", 0, found.start()) + 1
        raise _one("yaml-tab", "spaces before a key", "a tab", "YAML counts spaces; set the editor to write two of them.", line)
    return text


def _one(code: str, expected: str, found: str, hint: str, line: int) -> Faulty:
    return Faulty([Fault(code, expected, found, hint, line=line)])


def _line(event: yaml.Event) -> int:
    """Line of an event; the parser marks every one."""
    return event.start_mark.line + 1 if event.start_mark else 0


class _Builder:
    """Builds nodes from parser events; recursion is bounded by ``DEEPEST``."""

    def __init__(self, faults: FaultList) -> None:
        self._faults = faults
        self._nodes = 0

    def document(self, text: str) -> Node | None:
        try:
            events = yaml.parse(text, Loader=yaml.SafeLoader)
            return self._only_document(events)
        except yaml.reader.ReaderError as trouble:
            line = text.count("\n", 0, trouble.position) + 1
            raise _one(
                "yaml-character", "printable characters", f"U+{ord(text[trouble.position]):04X}", "Delete it.", line
            ) from None
        except yaml.MarkedYAMLError as trouble:
            mark = trouble.problem_mark or trouble.context_mark
            found = f"a slip in the YAML ({trouble.problem or trouble.context})"
            hint = "A key ends with a colon. " if "':'" in found else ""
            hint += (
                "A text with `: ` or ` #` in it, or starting with `{`, `[`, `*`, `&`, `!`, `%`, `@` or a backtick, needs quotes."
            )
            raise _one("yaml-syntax", "keys, lists and texts", found, hint, mark.line + 1 if mark else 0) from None
        except (ValueError, OverflowError):  # the parser's own: a `\\U…` beyond the last character, a version of 5 000 digits
            found = "a number that is no character or no version"
            raise _one("yaml-syntax", "keys, lists and texts", found, "Type the character itself.", 0) from None

    def _only_document(self, events: Iterator[yaml.Event]) -> Node | None:
        root: Node | None = None
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                line = _line(event)
                if root is not None:
                    raise _one("yaml-documents", "one document", "a second `---`", "Put it in a file of its own.", line)
                if event.tags or event.version:
                    raise _one("yaml-directive", "no directives", "a line starting with `%`", "Delete it.", line)
                root = self._node(next(events), events, "", 1)
        if root is None:
            raise _one("yaml-no-keys", "keys with values, as `title: …`", "an empty file", "", 1)
        return root

    def _node(self, event: yaml.Event, events: Iterator[yaml.Event], path: str, depth: int) -> Node:
        line = _line(event)
        if depth > DEEPEST:
            raise _one("yaml-too-deep", f"at most {DEEPEST} levels", "more", "Nothing here needs so many.", line)
        self._nodes += 1
        if self._nodes > MOST_NODES:
            raise _one("yaml-too-many", f"at most {MOST_NODES} keys and values", "more", "Split it into several files.", line)
        self._refuse_tricks(event, path, line)
        if isinstance(event, yaml.MappingStartEvent):
            return self._table(events, path, line, depth)
        if isinstance(event, yaml.SequenceStartEvent):
            items: list[Node] = []
            while not isinstance(event := next(events), yaml.SequenceEndEvent):
                items.append(self._node(event, events, f"{path}[{len(items) + 1}]", depth + 1))
            return Listing(tuple(items), line)
        if isinstance(event, yaml.ScalarEvent):
            scalar = Scalar(event.value, line, line + 1 if event.style in ("|", ">") else line)
            self._refuse_hidden(scalar, path)
            return scalar
        return Scalar("", line, line)  # an alias, refused above

    def _table(self, events: Iterator[yaml.Event], path: str, line: int, depth: int) -> Table:
        entries: dict[str, Entry] = {}
        while not isinstance(event := next(events), yaml.MappingEndEvent):
            at = _line(event)
            key = self._node(event, events, path, depth + 1)
            name = key.text if isinstance(key, Scalar) else "?"
            inner = f"{path}.{name}" if path else name
            value = self._node(next(events), events, inner, depth + 1)
            if len(name) > LONGEST_KEY:
                raise _one("yaml-key", f"a key of at most {LONGEST_KEY} characters", f"{len(name)}", "", at)
            if not isinstance(key, Scalar):
                self._faults.add("yaml-key", expected="a text as key", found=_kind(key), line=at, key=path)
            elif name in entries:
                found, hint = f"`{name}` again", f"It stands on line {entries[name].line} already; keep one."
                self._faults.add("duplicate-key", expected="each key once", found=found, hint=hint, line=at, key=inner)
            else:
                entries[name] = Entry(name, at, value)
        return Table(tuple(entries.values()), line)

    def _refuse_hidden(self, scalar: Scalar, path: str) -> None:
        """Refuse what is hidden in a text; YAML has turned its escapes into characters by now."""
        if (wrong := improper(scalar.text)) is not None:
            place, found = wrong
            line = scalar.first + scalar.text.count("\n", 0, place)
            self._faults.add(
                "yaml-character", expected="printable characters", found=found, hint="Delete it.", line=line, key=path
            )

    def _refuse_tricks(self, event: yaml.Event, path: str, line: int) -> None:
        if isinstance(event, yaml.AliasEvent):
            hint = "Write the value out; if `*` begins a text, put the text in quotes."
            self._faults.add(
                "yaml-alias", expected="a value", found=f"the alias `*{event.anchor}`", hint=hint, line=line, key=path
            )
            return
        if (anchor := getattr(event, "anchor", None)) is not None:
            hint = "Write the value out where it is needed; if `&` begins a text, put the text in quotes."
            self._faults.add("yaml-anchor", expected="a value", found=f"the anchor `&{anchor}`", hint=hint, line=line, key=path)
        if (tag := getattr(event, "tag", None)) is not None:
            hint = "Types are known from the key; if `!` begins a text, put the text in quotes."
            self._faults.add(
                "yaml-tag", expected="a value without a tag", found=f"the tag `{tag}`", hint=hint, line=line, key=path
            )
