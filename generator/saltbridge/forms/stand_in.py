"""``each`` in a text or a name stands for one thing after another of a list: ``{{ each.metal }}`` for ``{{ s1.metal }}``."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from saltbridge.forms.conditions import Name
from saltbridge.forms.holes import Hole
from saltbridge.forms.value_types import Option

EACH = "each"
Node = TypeVar("Node")


def stands_in(name: str) -> bool:
    """Whether a name is that of the thing that ``each`` stands for."""
    return name.startswith(f"{EACH}.")


def named_for(name: str, thing: str) -> str:
    """The name with the thing in place of ``each``; any other name as it is."""
    return f"{thing}{name.removeprefix(EACH)}" if stands_in(name) else name


def text_for(node: Node, thing: str) -> Node:
    """A parsed text, options, or anything they are made of, with the thing in place of ``each``."""
    found: Any = node
    items: Any = node
    if isinstance(node, Hole):
        found = replace(node, name=named_for(node.name, thing))
    elif isinstance(node, Option):
        worded = f"{node.wording} ({thing})" if node.wording else ""
        found = replace(node, text=named_for(node.text, thing), prose=text_for(node.prose, thing), wording=worded)
        found = found if (found.text, found.prose) != (node.text, node.prose) else node
    elif isinstance(node, Name):
        found = replace(node, path=named_for(node.path, thing))
    elif type(node) is tuple:
        found = tuple(text_for(each, thing) for each in items)
    elif is_dataclass(node) and not isinstance(node, type):
        inner = {each.name: getattr(node, each.name) for each in fields(node) if each.init}
        changed = {name: text_for(value, thing) for name, value in inner.items()}
        found = replace(node, **changed) if any(changed[name] is not value for name, value in inner.items()) else node
    kept: Node = node if found == node else found
    return kept
