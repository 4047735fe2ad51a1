"""The words that a program can end in, read off its tree without running it."""

from __future__ import annotations

from collections.abc import Iterable

from saltbridge.algebra.programs import Program

_BY_KEY = {"highest": 0, "lowest": 0, "only": 0, "nth": 1}  # where the operation holds what its keys stand for


def possible_words(tree: Program) -> tuple[str, ...] | None:
    """Every word, each once in the order of the tree; None where a name's own value or a number may come out."""
    match tree:
        case ["text", str(word)]:
            return (word,)
        case ["none", *_]:
            return ()
        case ["if", _, yes, no]:
            return _all_of((yes, no))
        case ["pick", _, dict(among)]:
            return _all_of(among.values())
        case ["at", _, [*places]]:
            return _all_of(places)
        case [str(operation), *rest] if operation in _BY_KEY:
            return tuple(rest[_BY_KEY[operation]])
        case _:
            return None


def _all_of(trees: Iterable[Program]) -> tuple[str, ...] | None:
    found = [possible_words(each) for each in trees]
    words = [word for each in found if each is not None for word in each]
    return None if None in found else tuple(dict.fromkeys(words))
