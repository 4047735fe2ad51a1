"""Reads a small YAML file in which every scalar stays text and every value knows its line."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import yaml

from saltbridge.faults import Fault, FaultList, Faulty
from saltbridge.home import shipped
from saltbridge.tables.characters import improper

if TYPE_CHECKING:
    from pathlib import Path

MAX_BYTES = 1_000_000
MAX_DEPTH = 8
_MOST_TEXTS = 20_000  # keys and values of one file
_DEEPEST = 40  # brackets and indents open at once; past it the parser would only cost time


@dataclass(frozen=True, slots=True)
class Node:
    """A text, or a mapping from keys to nodes, with the line it starts on; ``items`` where it is a list (and ``value`` is "")."""

    value: str | dict[str, Node]
    line: int
    items: tuple[Node, ...] | None = None

    @property
    def plain(self) -> Any:
        """Its texts, lists and mappings without their lines."""
        if self.items is not None:
            return [each.plain for each in self.items]
        return {key: each.plain for key, each in self.value.items()} if isinstance(self.value, dict) else self.value


class _Reader:
    def __init__(self, faults: FaultList, file: str, *, lists: bool) -> None:
        self.faults, self.file, self.lists = faults, file, lists

    def blame(self, code: str, node: yaml.Node, key: str, *, expected: str, found: str, hint: str = "") -> None:
        line = node.start_mark.line + 1
        self.faults.add(code, expected=expected, found=found, hint=hint, file=self.file, line=line, key=key)

    def node(self, node: yaml.Node, key: str, depth: int) -> Node:
        line = node.start_mark.line + 1
        if isinstance(node, yaml.ScalarNode):
            self.refuse_hidden(str(node.value), node, key)
            return Node(str(node.value).strip(), line)
        if isinstance(node, yaml.MappingNode) and depth < MAX_DEPTH:
            return Node(self.mapping(node, key, depth), line)
        if isinstance(node, yaml.SequenceNode) and self.lists and depth < MAX_DEPTH:
            return Node(
                "", line, tuple(self.node(item, f"{key}[{place}]", depth + 1) for place, item in enumerate(node.value, 1))
            )
        found = "a list" if isinstance(node, yaml.SequenceNode) else "values nested too deep"
        expected = "a text, a list or a mapping" if self.lists else "a text or a mapping"
        self.blame("bad-shape", node, key, expected=expected, found=found)
        return Node("", line)

    def refuse_hidden(self, text: str, node: yaml.Node, key: str) -> None:
        if (wrong := improper(text)) is not None:
            self.blame("bad-character", node, key, expected="printable characters", found=wrong[1], hint="Delete it.")

    def mapping(self, node: yaml.MappingNode, key: str, depth: int) -> dict[str, Node]:
        items: dict[str, Node] = {}
        for key_node, value in node.value:
            if not isinstance(key_node, yaml.ScalarNode):
                hint = "Put a name that begins with a bracket in quotes."
                self.blame(
                    "bad-shape", key_node, key, expected="a key that is a text", found="a list or a mapping as key", hint=hint
                )
                continue
            name = str(key_node.value).strip()
            path = f"{key}.{name}" if key else name
            self.refuse_hidden(name, key_node, key)
            if name in items:
                hint = f"It stands on line {items[name].line} already."
                self.blame("repeated", key_node, path, expected="a key used once", found=f'"{name}" again', hint=hint)
                continue
            items[name] = self.node(value, path, depth + 1)
        return items


_TRICKS = {yaml.AliasToken: "an alias (*)", yaml.AnchorToken: "an anchor (&)", yaml.TagToken: "a tag (!)"}
_OPENINGS = (
    yaml.FlowSequenceStartToken, yaml.FlowMappingStartToken, yaml.BlockSequenceStartToken, yaml.BlockMappingStartToken,
)  # fmt: skip
_CLOSINGS = (yaml.FlowSequenceEndToken, yaml.FlowMappingEndToken, yaml.BlockEndToken)


def _refuse_tricks(text: str, file: str) -> None:
    depth = texts = 0
    for token in yaml.scan(text, Loader=yaml.SafeLoader):
        line = token.start_mark.line + 1
        if type(token) in _TRICKS:
            hint = "Write the value out, or put it in quotes."
            raise Faulty([Fault("bad-yaml", "plain keys and values", _TRICKS[type(token)], hint, file, line)])
        depth += isinstance(token, _OPENINGS) - isinstance(token, _CLOSINGS)
        texts += isinstance(token, yaml.ScalarToken)
        if texts > _MOST_TEXTS:
            raise Faulty([Fault("too-big", f"at most {_MOST_TEXTS} keys and values", "more", file=file, line=line)])
        if depth > _DEEPEST:
            raise Faulty([Fault("bad-shape", f"at most {_DEEPEST} brackets and indents", "more", file=file, line=line)])


def _is_own(path: Path) -> bool:
    """Whether a file lies in the data that come with saltbridge."""
    return ".." not in path.parts and path.is_relative_to(shipped("data"))


def _composed(text: str, file: str, *, own: bool) -> yaml.Node | None:
    """The nodes of a text. ``own``: it is one of the files that come with saltbridge.

    Our own files hold no tricks (a test reads them both ways), so that the quick parser may have them; a stranger's file is read by the
    one whose limits and messages are told here, and so is one of ours that the quick parser refuses.
    """
    if own and yaml.__with_libyaml__:
        with contextlib.suppress(yaml.YAMLError):
            return yaml.compose(text, Loader=yaml.CSafeLoader)
    _refuse_tricks(text, file)
    return yaml.compose(text, Loader=yaml.SafeLoader)


def _unfollowed(error: yaml.MarkedYAMLError, text: str, file: str) -> Fault:
    line = error.problem_mark.line + 1 if error.problem_mark else 0
    lines = text.splitlines()
    bracket = 0 < line <= len(lines) and lines[line - 1].lstrip().startswith("[")
    hint = (
        "Put a name that begins with a bracket in quotes."
        if bracket
        else "Look at the indentation, colons and quotes of this line and the line before."
    )
    found = f"a line that can't be followed ({error.problem or 'no reason given'})"
    return Fault("bad-yaml", "well-formed YAML", found, hint, file, line)


def read_mapping(path: Path, faults: FaultList, *, lists: bool = False) -> dict[str, Node]:
    """Read the mapping in the YAML file at ``path``; repeated keys, and lists unless allowed, are noted in ``faults``.

    Raises ``Faulty`` where the file can't be read at all, is over 1 MB, or holds aliases, anchors or tags.
    """
    file, text = path.name, ""
    try:
        if path.exists() and not path.is_file():  # a pipe would never end, a device could do anything
            raise Faulty([Fault("unreadable", "an ordinary file", "a folder, a pipe or a device", file=file)])
        if path.stat().st_size > MAX_BYTES:
            raise Faulty([Fault("too-big", "a file up to 1 MB", f"{path.stat().st_size} bytes", file=file)])
        text = path.read_text(encoding="utf-8")
        root = _composed(text, file, own=_is_own(path))
    except OSError as error:
        raise Faulty([Fault("unreadable", "a file that can be read", error.strerror or "none", file=file)]) from None
    except UnicodeDecodeError:
        raise Faulty([Fault("unreadable", "text in UTF-8", "other bytes", "Save the file as UTF-8.", file)]) from None
    except yaml.MarkedYAMLError as error:
        raise Faulty([_unfollowed(error, text, file)]) from None
    except (yaml.YAMLError, RecursionError, ValueError, OverflowError) as error:  # the last two for escapes beyond all characters
        raise Faulty([Fault("bad-yaml", "well-formed YAML", type(error).__name__, file=file)]) from None
    if not isinstance(root, yaml.MappingNode):
        raise Faulty([Fault("bad-shape", "a mapping of keys", "an empty file or another shape", file=file, line=1)])
    return _Reader(faults, file, lists=lists).mapping(root, "", 0)
