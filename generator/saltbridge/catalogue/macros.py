"""Macros: how a rule in data writes one tree of operations from its inputs and its keys.

A macro is a tree (``algebra/programs.py`` lists the operations) in which these words stand for what a use of the rule names:

=====================  ==========================================================================================
``input 1 … last input``     an input, by its place
``key 1 … last key``         a key as a literal; on the left of a colon, the key itself
``{each key: T}``            for a tree by keys: T once for each key, in which
``its key``                  is that key as a literal,
``its input``                the input that belongs to it (as many inputs as there are keys, counted from the last),
``its first input``          the same counted from the first,
``its other side``           the key with oxidised and reduced changed over: the other species of a couple
``{each pair: T}``           T for each pair of things, the keys being the pairs (1 with 2, 1 with 3 …); in it ``one`` and
                             ``other`` are the two among the first inputs, ``one of the last`` and ``other of the last`` among the last
``{each input: T}``          among the terms of an operation: T for every input, which is ``its input``
``{each other: T}``          inside ``each key``, among the terms of an operation: T for the inputs of all other keys
``every key``                for ``at``: all keys as literals, in order
=====================  ==========================================================================================

``[text, WORD]`` is a word as it stands. In a reason ``{input 1}`` and ``{key 1}`` are filled in.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations
from math import isqrt
from typing import Any

from saltbridge.algebra.programs import NUMERAL, OPERATIONS, Program

Macro = Any
"""Nested lists, mappings and texts, as they stand in the file."""

MOST_NODES = 200
OTHER_SIDE = {"oxidised": "reduced", "reduced": "oxidised"}
ONE, TWO, SEVERAL = (1, 1), (2, 2), (1, 40)
_TERMS = {
    **dict.fromkeys(("neg", "ln", "lg", "exp", "exp10", "sqrt", "abs", "floor", "ceil", "text"), ONE),
    **dict.fromkeys(("+", "-", "*", "/", "^", "<", ">", "==", "pick", "at"), TWO),
    **dict.fromkeys(("min", "max", "lcm", "median", "and", "or"), SEVERAL),
    **dict.fromkeys(("highest", "lowest", "only"), (1, 2)), "those": ONE, "if": (3, 3), "nth": (2, 3), "order": (2, 3), "none": (0, 1),
}  # fmt: skip
"""How many terms each operation may have."""
_KEYED = {"pick": 1, "highest": 0, "lowest": 0, "only": 0, "those": 0, "nth": 1, "order": 1}
"""At which place of the terms the tree by keys stands."""
_REASON = {"none": 0, "highest": 1, "lowest": 1, "only": 1, "nth": 2, "order": 2}
_PLACE = re.compile(r"(input|key) ([1-9][0-9]?)|last (input|key)")
_HOLE = re.compile(r"\{((?:input|key) [1-9][0-9]?|last (?:input|key))\}")
ITS = ("its key", "its input", "its first input", "its other side")
OF_PAIR = ("one", "other", "one of the last", "other of the last")
WORDS = ("input 1", "key 1", "last input", "last key", *ITS, *OF_PAIR)


class MacroError(ValueError):
    """A macro that can't be read, or does not fit the inputs and keys of a use: ``expected`` and ``found`` for a teacher."""

    def __init__(self, expected: str, found: str) -> None:
        super().__init__(f"expected {expected}, found {found}")
        self.expected, self.found = expected, found


Words = Mapping[str, Program]
"""What the words of a macro stand for at a place in it."""


class _Use:
    """The inputs and keys of one use of a rule."""

    def __init__(self, inputs: Sequence[str], keys: Sequence[str]) -> None:
        self.inputs, self.keys = tuple(inputs), tuple(keys)

    def at(self, words: str) -> str:
        """The input or key that a word such as ``input 2`` or ``last key`` names."""
        found = _PLACE.fullmatch(words)
        if found is None:
            raise MacroError("input 1, key 1, last input or last key", words)
        of = self.inputs if "input" in words else self.keys
        place = int(found[2]) if found[2] else len(of)
        if not 0 < place <= len(of):
            raise MacroError(f"as many {'inputs' if of is self.inputs else 'keys'} as {words} needs", str(len(of)))
        return of[place - 1]

    def leaf(self, word: str, its: Words) -> Program:
        if word in its:
            return its[word]
        if NUMERAL.fullmatch(word):
            return float(word)
        if _PLACE.fullmatch(word):
            return self.at(word) if "input" in word else ["text", self.at(word)]
        raise MacroError("a number, [text, WORD] or one of " + ", ".join(WORDS), word)


def expand(macro: Macro, inputs: Sequence[str], keys: Sequence[str]) -> Program:
    """The tree that a macro writes for these inputs and keys. Raises ``MacroError`` where they do not fit."""
    return _tree(macro, _Use(inputs, keys), {})


def _tree(macro: Macro, use: _Use, its: Words) -> Program:
    if isinstance(macro, str):
        return use.leaf(macro, its)
    if not isinstance(macro, list) or not macro or not isinstance(macro[0], str) or macro[0] not in OPERATIONS:
        found = macro[0] if isinstance(macro, list) and macro and isinstance(macro[0], str) else _kind(macro)
        raise MacroError("an operation: " + " ".join(sorted(OPERATIONS)), found)
    head, *rest = macro
    if head == "text":
        return ["text", _literal(rest)]
    terms = [each for place, term in enumerate(rest) for each in _terms(head, place, term, use, its)]
    least, most = _TERMS[head]
    if not least <= len(terms) <= most:
        raise MacroError(f"{least if least == most else f'{least} to {most}'} term(s) after {head}", str(len(terms)))
    return [head, *terms]


def _kind(macro: Macro) -> str:
    return "a mapping" if isinstance(macro, Mapping) else "an empty list" if not macro else "something else"


def _literal(rest: Sequence[Macro]) -> str:
    if len(rest) != 1 or not isinstance(rest[0], str):
        raise MacroError("one word after text", str(len(rest)))
    return rest[0]


def _terms(head: str, place: int, term: Macro, use: _Use, its: Words) -> Iterator[Program]:
    """What one term of an operation writes: a tree by keys, a list, a reason, or one or several trees."""
    if _KEYED.get(head) == place:
        yield _by_key(term, use, its)
    elif _REASON.get(head) == place:
        yield _reason(term, use)
    elif head == "at" and place == 1:
        yield _list(term, use, its)
    elif head == "order" and place == 0:
        yield _one_of(term, ("rising", "falling"))
    elif head == "nth" and place == 0:
        yield int(_one_of(term, tuple("0123456789")))
    elif isinstance(term, Mapping):
        yield from _spliced(term, use, its)
    else:
        yield _tree(term, use, its)


def _one_of(term: Macro, known: Sequence[str]) -> str:
    if term not in known:
        raise MacroError("one of " + ", ".join(known), str(term))
    return str(term)


def _reason(term: Macro, use: _Use) -> str:
    if not isinstance(term, str):
        raise MacroError("a sentence that says why there is no value", _kind(term))
    return _HOLE.sub(lambda hole: f"{{{use.at(hole[1])}}}" if "input" in hole[1] else use.at(hole[1]), term)


def _list(term: Macro, use: _Use, its: Words) -> list[Program]:
    if term == "every key":
        return [["text", key] for key in use.keys]
    if not isinstance(term, list) or not term:
        raise MacroError("every key, or a list of trees", str(term))
    return [_tree(each, use, its) for each in term]


# ------------------------------------------------------------------ each …


def _by_key(term: Macro, use: _Use, its: Words) -> dict[str, Program]:
    if not isinstance(term, Mapping) or not term:
        raise MacroError("a mapping such as {each key: its input}", str(term))
    found: dict[str, Program] = {}
    for key, tree in term.items():
        for name, words in _EACH.get(key, _named)(key, use):
            found[name] = _tree(tree, use, {**its, **words})
    if not found:
        raise MacroError("a use with keys", "none")
    return found


def _named(key: str, use: _Use) -> Iterator[tuple[str, Words]]:
    if not key.startswith(("key", "last key")):
        raise MacroError("each key, each pair, key 1 or last key before the colon", key)
    yield use.at(key), {}


def _each_key(_key: str, use: _Use) -> Iterator[tuple[str, Words]]:
    for place, key in enumerate(use.keys):
        yield key, _words_of_key(use, place)


def _words_of_key(use: _Use, place: int) -> Words:
    key, last = use.keys[place], len(use.inputs) - len(use.keys)
    words: dict[str, Program] = {"its key": ["text", key], "_place": place}
    if place < len(use.inputs):
        words["its first input"] = use.inputs[place]
    if last >= 0:
        words["its input"] = use.inputs[last + place]
    owner, _, side = key.rpartition(".")
    if side in OTHER_SIDE:
        words["its other side"] = ["text", f"{owner}.{OTHER_SIDE[side]}"]
    return words


def _each_pair(_key: str, use: _Use) -> Iterator[tuple[str, Words]]:
    count = (1 + isqrt(1 + 8 * len(use.keys))) // 2
    pairs = list(combinations(range(count), 2))
    if len(pairs) != len(use.keys) or len(use.inputs) < count:
        raise MacroError("a key for each pair of inputs", f"{len(use.keys)} keys for {len(use.inputs)} inputs")
    last = len(use.inputs) - count
    for key, (a, b) in zip(use.keys, pairs, strict=True):
        among = (use.inputs[a], use.inputs[b], use.inputs[last + a], use.inputs[last + b])
        yield key, {"its key": ["text", key], **dict(zip(OF_PAIR, among, strict=True))}


_EACH: Mapping[str, Callable[[str, _Use], Iterator[tuple[str, Words]]]] = {"each key": _each_key, "each pair": _each_pair}


def _spliced(term: Mapping[str, Macro], use: _Use, its: Words) -> Iterator[Program]:
    key, tree = next(iter(term.items()), ("", ""))
    if len(term) != 1 or key not in {"each input", "each other"}:
        raise MacroError("{each input: …} or {each other: …}", f"{{{', '.join(term)}}}")
    if key == "each input":
        for name in use.inputs:
            yield _tree(tree, use, {**its, "its input": name})
        return
    if "_place" not in its:
        raise MacroError("each other inside each key", "it elsewhere")
    for place in range(len(use.keys)):
        if place != its["_place"]:
            yield _tree(tree, use, {**its, **_words_of_key(use, place), "_place": its["_place"]})


# ------------------------------------------------------------------ looking


def size(macro: Macro) -> int:
    """How many words, lists and mappings a macro has."""
    if isinstance(macro, list):
        return 1 + sum(size(each) for each in macro)
    return 1 + sum(size(each) for each in macro.values()) if isinstance(macro, Mapping) else 1
