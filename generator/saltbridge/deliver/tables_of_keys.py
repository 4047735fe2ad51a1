"""Tables of keys out of a JSON Schema: what each is, what can stand there, and whether it is needed. A kind of part that is added appears by itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

Json = Mapping[str, Any]
MOST_WORDS = 16
MOST_KINDS = 2  # that a list is told to hold; more have headings of their own
SCENARIO = "Scenario"
_TYPES = {"string": "text", "integer": "whole number", "number": "number", "boolean": "yes or no"}


def template_tables(schema: Json) -> Iterator[str]:
    """The keys of a template, those that all parts have, those of each kind of part, and of what stands in them."""
    known: Json = schema["definitions"]
    yield table_of(schema, known)
    parts = [_name(each) for each in schema["properties"]["parts"]["items"]["oneOf"]]
    shared = [key for key in known[parts[0]]["properties"] if all(key in known[each]["properties"] for each in parts)]
    yield "### Every part\n\nA part has one of the kinds below, and these keys.\n"
    yield table_of(known[parts[0]], known, only=shared)
    for each in parts:
        own = [key for key in known[each]["properties"] if key not in shared]
        kind = next((key for key in known[each].get("required", ()) if key in own), own[0])
        yield f"### `{kind}`: {known[each]['description'].rstrip('.')}\n"
        yield table_of(known[each], known, only=[kind, *(key for key in own if key != kind)])
    for name in _within([schema, *(known[each] for each in parts)], known):
        if name not in parts:
            yield f"### {known[name]['description'].rstrip('.')}\n"
            yield table_of(known[name], known)


def settings_tables(schema: Json) -> Iterator[str]:
    """The keys of the settings, and of what stands in them."""
    known: Json = schema.get("definitions", {})
    yield table_of(schema, known)
    for name in _within([schema], known):
        yield f"### {known[name]['description'].rstrip('.')}\n"
        yield table_of(known[name], known)


def table_of(schema: Json, known: Json, only: list[str] | None = None) -> str:
    """The keys of one object, in the order of the schema or of ``only``."""
    needed = schema.get("required", ())
    lines = ["| key | what it is | what can stand there |", "| --- | --- | --- |"]
    for key in only if only is not None else schema["properties"]:
        told = schema["properties"][key]
        star = " (needed)" if key in needed else ""
        lines.append(f"| `{key}`{star} | {_cell(told.get('description', ''))} | {_cell(can_be(told, known))} |")
        lines += [f"| `{key}` › `{path}` | {_cell(what)} | {_cell(words)} |" for path, what, words in _inner(told, known)]
    return "\n".join(lines) + "\n"


def can_be(told: Json, known: Json) -> str:
    """What can stand at a key, in words: the words themselves, a kind of value, or what it is called further down."""
    words = list(dict.fromkeys(_words(told, known)))
    shown = [f"`{word}`" for word in words] if len(words) <= MOST_WORDS else [f"`{words[0]}` … `{words[-1]}`"]
    kinds = [kind for kind in dict.fromkeys(_kinds(told, known)) if not (words and kind == "text")]
    return ", ".join([*shown, *kinds])


def _words(told: Json, known: Json) -> Iterator[str]:
    if "const" in told:
        yield str(told["const"])
    yield from map(str, told.get("enum", ()))
    for inner in _ways(told):
        yield from _words(inner, known)
    if isinstance(told.get("items"), dict):
        yield from _words(told["items"], known)


def _kinds(told: Json, known: Json) -> Iterator[str]:
    if "$ref" in told:
        described = known[_name(told)]["description"].rstrip(".")
        yield "a kind with its keys" if _name(told) == SCENARIO else described[:1].lower() + described[1:]
    elif told.get("type") == "array":
        held = [kind for kind in dict.fromkeys(_kinds(told.get("items", {}), known)) if kind != "text"]
        yield f"list of: {', '.join(held)}" if 0 < len(held) <= MOST_KINDS else "list"
    elif told.get("type") == "object":
        yield "keys with values"
    elif "enum" not in told:
        types = told.get("type", ())
        yield from (_TYPES[each] for each in ([types] if isinstance(types, str) else types) if each in _TYPES)
    for inner in _ways(told):
        yield from _kinds(inner, known)


def _ways(told: Json) -> Iterator[Json]:
    for key in ("anyOf", "oneOf", "allOf"):
        yield from told.get(key, ())


def _inner(told: Json, known: Json, path: str = "") -> Iterator[tuple[str, str, str]]:
    """The keys of objects that have no name of their own, by their path."""
    for key, each in told.get("properties", {}).items():
        here = f"{path} › {key}".removeprefix(" › ")
        yield here, each.get("description", ""), can_be(each, known)
        yield from _inner(each, known, here)
    for way in _ways(told):
        yield from _inner(way, known, path)


def _within(schemas: list[Json], known: Json) -> Iterator[str]:
    """The names of the objects that these lead to, each once, but for kinds of scenario, which have pages of their own."""
    met: dict[str, None] = {}
    waiting: list[Any] = [each["properties"] for each in schemas]
    while waiting:
        node = waiting.pop(0)
        if isinstance(node, dict):
            name = _name(node) if "$ref" in node else ""
            if name and name != SCENARIO and name not in met:
                met[name] = None
                waiting.append(known[name])
            waiting += node.values()
        elif isinstance(node, list):
            waiting += node
    yield from (name for name in met if known[name].get("properties"))


def _name(told: Json) -> str:
    return str(told["$ref"]).rpartition("/")[2]


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")
