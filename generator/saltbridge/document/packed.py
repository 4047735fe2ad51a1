"""Documents as plain JSON and back, so that a record prints the same paper for ever.

A node is an object with its class under ``""`` and its fields by name; a mapping keeps the kind of its keys. Only the classes of
this room are read, and a field that is missing has its default: records of an older version stay readable.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from functools import cache
from typing import Any, cast

from saltbridge import document

Json = Any
_CLASS = ""


def packed(node: Any) -> Json:
    """The node as JSON. Raises ``TypeError`` for what no document holds."""
    if node is None or isinstance(node, str | bool | int | float):
        return node
    if is_dataclass(node) and not isinstance(node, type):
        return {_CLASS: type(node).__name__} | {
            each.name: packed(getattr(node, each.name)) for each in fields(node) if not _is_default(node, each)
        }
    if isinstance(node, tuple) and hasattr(node, "_fields"):
        return {_CLASS: type(node).__name__} | {name: packed(getattr(node, name)) for name in node._fields}
    if isinstance(node, Mapping):
        return {_CLASS: "map", "items": [[packed(key), packed(value)] for key, value in node.items()]}
    if isinstance(node, frozenset):
        return {_CLASS: "set", "items": sorted(node)}
    if isinstance(node, list | tuple):
        return [packed(each) for each in node]
    raise TypeError(f"a document holds no {type(node).__name__}")


def _is_default(node: Any, each: Any) -> bool:
    value = getattr(node, each.name)
    if each.default is not MISSING:
        return bool(value == each.default)
    return each.default_factory is not MISSING and bool(value == each.default_factory())


def unpacked(told: Json, *, inner: bool = False) -> Any:
    """The node of its JSON. Raises ``ValueError`` for JSON that ``packed`` does not write."""
    if told is None or isinstance(told, str | bool | int | float):
        return told
    if isinstance(told, list):
        found = [unpacked(each, inner=inner) for each in told]
        return found if inner else tuple(found)
    if not isinstance(told, dict) or not isinstance(told.get(_CLASS), str):
        raise ValueError("a node without its class")  # noqa: TRY004 - what is wrong is the file, not a type
    name = told[_CLASS]
    try:
        if name == "map":
            return {unpacked(key, inner=True): unpacked(value, inner=True) for key, value in told["items"]}
        if name == "set":
            return frozenset(told["items"])
        values = {key: unpacked(value) for key, value in told.items() if key != _CLASS}
        return _classes()[name](**values)
    except (KeyError, TypeError) as error:
        raise ValueError(f"a node `{name}` that can't be read") from error


@cache
def _classes() -> Mapping[str, Callable[..., Any]]:
    """The classes of documents by name."""
    found = {name: getattr(document, name) for name in document.__all__}
    return {name: cast("Callable[..., Any]", each) for name, each in found.items() if isinstance(each, type)}
