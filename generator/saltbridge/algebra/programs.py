"""Trees of operations as small programs: made once into closures, then run on values as often as is wanted.

A tree is a number, a name, or a list whose head is an operation: the form in which a key carries it to the page, whose
``trees.js`` is the only other interpreter. Nothing is evaluated as code. A closure raises where the tree has no value.

======================  ==========================================================================================
``+ - * / ^ neg`` …     arithmetic, ``abs exp exp10 sqrt ln lg floor ceil`` of one term, ``min max lcm median`` of several
``< > ==``              comparisons; ``==`` of two numbers within a hair, or of two texts; ``and or`` of them
``if``                  condition, tree, other tree
``pick``                tree that gives a key, {key: tree}
``at``                  tree that gives a place (cut to the ends), [tree, …]
``text``                the literal that follows; a bare word is a name
``highest lowest``      {key: tree}: the key of that value; none where two lie within a hair
``only``                {key: condition}: the one key for which it holds
``those``               {key: condition}: all keys for which it holds, joined by ``+``; ``none`` where it holds for none
``nth``                 place, {key: tree}: the key at that place of the rising values
``order``               rising or falling, {key: tree}: all keys in that order, joined by ``<``
``none``                no value
======================  ==========================================================================================

``highest``, ``lowest``, ``only``, ``nth``, ``order`` and ``none`` may end with a sentence that says why there is no value; the
page has no use for it (``bare``).
"""

from __future__ import annotations

import math
import re
import statistics
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Any

Program = Any
"""A tree as nested lists; whoever makes it checks it, so that its readers may trust its shape."""
Cells = Any
"""The values of all names: a list by place, or a mapping by name."""
Compiled = Callable[[Cells], Any]

HAIR = 1e-9
"""Two values nearer than this are equal: V, cells or decades, less than any printed place."""
MAX_EXPONENT = 120
NUMERAL = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
EQUAL = "the values are equal, so neither can be chosen"
NONE_FITS = "none of them fits, or more than one"


class NoValue(LookupError):
    """A tree that has no value here, and why."""


class ByName(dict[str, str]):
    """The places of names where the values are a mapping: each name is its own place."""

    def __missing__(self, name: str) -> str:
        """The name itself."""
        return name


# ------------------------------------------------------------------ arithmetic


def _power(base: float, exponent: float) -> float:
    if abs(exponent) > MAX_EXPONENT:
        raise OverflowError("exponent too large")
    raised = base**exponent
    if isinstance(raised, complex):
        raise ValueError("a root of a negative number")  # noqa: TRY004 - out of range, not of the wrong kind
    return float(raised)


def _lcm(*terms: float) -> float:
    """The least common multiple of whole numbers from one on."""
    if any(term != int(term) or term < 1 for term in terms):
        raise ValueError("a least common multiple needs whole numbers from 1 on")
    return float(math.lcm(*(int(term) for term in terms)))


def _less(a: Any, b: Any) -> bool:
    if isinstance(a, str) or isinstance(b, str):
        raise TypeError("a text has no size")
    return bool(a < b)


def _equal(a: Any, b: Any) -> bool:
    """Whether two numbers lie within a hair, or two texts are the same; nan and what is undefined are like nothing."""
    if isinstance(a, str) and isinstance(b, str):
        return a == b
    gap = abs(a - b)
    if math.isnan(gap):
        raise ValueError("a value is not a number")
    return bool(gap < HAIR)


_CALLS: Mapping[str, Callable[..., Any]] = {
    "ln": math.log, "lg": math.log10, "exp": math.exp, "exp10": lambda x: float(10.0**x), "sqrt": math.sqrt, "abs": abs,
    "min": lambda *terms: min(terms) + 0.0, "max": lambda *terms: max(terms) + 0.0, "neg": lambda x: -x, "^": _power, "lcm": _lcm, "median": lambda *terms: float(statistics.median(terms)),
    "floor": lambda x: float(math.floor(x)), "ceil": lambda x: float(math.ceil(x)),
    "<": _less, ">": lambda a, b: _less(b, a), "==": _equal,
}  # fmt: skip

_Maker = Callable[[Any, Any], Compiled]
# For each operation: two names, a name and a tree, a tree and a name, two trees. A name is looked up in place, which spares a call.
_PAIRS: Mapping[str, tuple[_Maker, _Maker, _Maker, _Maker]] = {
    "+": (
        lambda a, b: lambda cells: cells[a] + cells[b],
        lambda a, g: lambda cells: cells[a] + g(cells),
        lambda f, b: lambda cells: f(cells) + cells[b],
        lambda f, g: lambda cells: f(cells) + g(cells),
    ),
    "-": (
        lambda a, b: lambda cells: cells[a] - cells[b],
        lambda a, g: lambda cells: cells[a] - g(cells),
        lambda f, b: lambda cells: f(cells) - cells[b],
        lambda f, g: lambda cells: f(cells) - g(cells),
    ),
    "*": (
        lambda a, b: lambda cells: cells[a] * cells[b],
        lambda a, g: lambda cells: cells[a] * g(cells),
        lambda f, b: lambda cells: f(cells) * cells[b],
        lambda f, g: lambda cells: f(cells) * g(cells),
    ),
    "/": (
        lambda a, b: lambda cells: cells[a] / cells[b],
        lambda a, g: lambda cells: cells[a] / g(cells),
        lambda f, b: lambda cells: f(cells) / cells[b],
        lambda f, g: lambda cells: f(cells) / g(cells),
    ),
    "^": (
        lambda a, b: lambda cells: _power(cells[a], cells[b]),
        lambda a, g: lambda cells: _power(cells[a], g(cells)),
        lambda f, b: lambda cells: _power(f(cells), cells[b]),
        lambda f, g: lambda cells: _power(f(cells), g(cells)),
    ),
}
ARITHMETIC = frozenset({*_CALLS, *_PAIRS} - {"<", ">", "=="})


def compiled(tree: Program, index: Mapping[str, Any]) -> Compiled:
    """A closure that runs the tree on values, ``index`` saying at which place each name stands.

    The closure raises ``NoValue``, ``ArithmeticError``, ``LookupError``, ``TypeError`` or ``ValueError`` where the tree has no value.
    """
    if isinstance(tree, int | float):
        value = float(tree)
        return lambda _cells: value
    if isinstance(tree, str):
        if NUMERAL.fullmatch(tree):
            return compiled(float(tree), index)
        place = index[tree]
        return lambda cells: cells[place]
    head, *rest = tree
    if head in _CHOOSING:
        return _CHOOSING[head](rest, index)
    if head in _PAIRS:
        return _compiled_pair(head, rest[0], rest[1], index)
    return _compiled_call(_CALLS[head], rest, index)


def _is_name(tree: Program) -> bool:
    return isinstance(tree, str) and not NUMERAL.fullmatch(tree)


def _compiled_call(call: Callable[..., Any], terms: Sequence[Program], index: Mapping[str, Any]) -> Compiled:
    if len(terms) == 1:
        if _is_name(terms[0]):
            place = index[terms[0]]
            return lambda cells: call(cells[place])
        only = compiled(terms[0], index)
        return lambda cells: call(only(cells))
    runs = [compiled(term, index) for term in terms]
    if len(runs) == 2:
        first, second = runs
        return lambda cells: call(first(cells), second(cells))
    return lambda cells: call(*[run(cells) for run in runs])


def _compiled_pair(op: str, left: Program, right: Program, index: Mapping[str, Any]) -> Compiled:
    both, name_first, name_last, neither = _PAIRS[op]
    if _is_name(left) and _is_name(right):
        return both(index[left], index[right])
    if _is_name(left):
        return name_first(index[left], compiled(right, index))
    if _is_name(right):
        return name_last(compiled(left, index), index[right])
    return neither(compiled(left, index), compiled(right, index))


# ------------------------------------------------------------------ choosing

Rest = Sequence[Any]
Index = Mapping[str, Any]


def _text(rest: Rest, _index: Index) -> Compiled:
    said = rest[0]
    return lambda _cells: said


def _none(rest: Rest, index: Index) -> Compiled:
    """No value; holes such as ``{limit}`` in its reason are filled with the values of those names."""
    why = rest[0] if rest else "there is no such value"
    places = {name: index[name] for name in re.findall(r"\{([^{}]+)\}", why) if name in index or isinstance(index, ByName)}

    def run(cells: Cells) -> Any:
        said = why
        for name, place in places.items():
            value = cells[place]
            said = said.replace(f"{{{name}}}", f"{value:g}" if isinstance(value, float) else str(value))
        raise NoValue(said)

    return run


def _if(rest: Rest, index: Index) -> Compiled:
    condition, yes, no = (compiled(each, index) for each in rest)
    return lambda cells: yes(cells) if condition(cells) else no(cells)


def _and(rest: Rest, index: Index) -> Compiled:
    """All of them are worked out, so that one without a value is never passed over."""
    runs = [compiled(each, index) for each in rest]
    return lambda cells: min([run(cells) for run in runs])


def _or(rest: Rest, index: Index) -> Compiled:
    """True where one is; all of them are worked out here too."""
    runs = [compiled(each, index) for each in rest]
    return lambda cells: max([run(cells) for run in runs])


def _pick(rest: Rest, index: Index) -> Compiled:
    among: Mapping[str, Program] = rest[1]
    if _is_name(rest[0]) and all(map(_is_name, among.values())):
        role, places = index[rest[0]], {key: index[name] for key, name in among.items()}
        return lambda cells: cells[places[cells[role]]]
    if _is_name(rest[0]) and all(isinstance(each, list) and each[0] == "text" for each in among.values()):
        role, words = index[rest[0]], {key: each[1] for key, each in among.items()}
        return lambda cells: words[cells[role]]
    chosen, runs = compiled(rest[0], index), _runs(among, index)
    return lambda cells: runs[chosen(cells)](cells)


def _at(rest: Rest, index: Index) -> Compiled:
    place, runs = compiled(rest[0], index), [compiled(each, index) for each in rest[1]]
    last = len(runs) - 1
    return lambda cells: runs[int(max(0, min(last, place(cells))))](cells)


def _runs(among: Mapping[str, Program], index: Index) -> dict[str, Compiled]:
    return {key: compiled(tree, index) for key, tree in among.items()}


def _extreme(sign: int) -> Callable[[Rest, Index], Compiled]:
    """The key of the greatest value times ``sign``; none where another lies within a hair of it."""

    def make(rest: Rest, index: Index) -> Compiled:
        why = rest[1] if len(rest) > 1 else EQUAL
        if len(rest[0]) == 2:
            return _of_two(rest[0], index, sign, why)
        runs = _runs(rest[0], index)

        def run(cells: Cells) -> Any:
            sizes = {key: sign * (each(cells) - 0.0) for key, each in runs.items()}  # a text has no size
            top = max(sizes.values())
            found = [key for key, size in sizes.items() if _equal(size, top)]
            if len(found) != 1:
                raise NoValue(why)
            return found[0]

        return run

    return make


def _of_two(among: Mapping[str, Program], index: Index, sign: int, why: str) -> Compiled:
    """Of two, which most choices are: the first unless the second lies a hair above."""
    (one, first), (other, second) = among.items()
    apart = _compiled_pair("-", first, second, index)

    def run(cells: Cells) -> str:
        gap = sign * apart(cells)
        if gap >= HAIR:
            return one
        if gap <= -HAIR:
            return other
        if math.isnan(gap):
            raise ValueError("a value is not a number")
        raise NoValue(why)

    return run


def _only(rest: Rest, index: Index) -> Compiled:
    runs, why = _runs(rest[0], index), rest[1] if len(rest) > 1 else NONE_FITS

    def run(cells: Cells) -> str:
        found = [key for key, holds in [(key, each(cells)) for key, each in runs.items()] if holds]
        if len(found) != 1:
            raise NoValue(why)
        return found[0]

    return run


def _those(rest: Rest, index: Index) -> Compiled:
    runs = _runs(rest[0], index)
    return lambda cells: "+".join([key for key, holds in [(key, each(cells)) for key, each in runs.items()] if holds]) or "none"


def _sorted(runs: Mapping[str, Compiled], cells: Cells) -> list[tuple[Any, str]]:
    found = sorted((each(cells), key) for key, each in runs.items())
    if any(isinstance(value, str) or math.isnan(value) for value, _ in found):
        raise ValueError("a value is not a number")
    return found


def _nth(rest: Rest, index: Index) -> Compiled:
    place, runs, why = int(rest[0]), _runs(rest[1], index), rest[2] if len(rest) > 2 else EQUAL

    def run(cells: Cells) -> str:
        found = _sorted(runs, cells)
        value, key = found[place]
        if sum(_equal(value, other) for other, _ in found) > 1:
            raise NoValue(why)
        return key

    return run


def _order(rest: Rest, index: Index) -> Compiled:
    runs, why, falling = _runs(rest[1], index), rest[2] if len(rest) > 2 else EQUAL, rest[0] == "falling"

    def run(cells: Cells) -> str:
        found = _sorted(runs, cells)
        if any(_equal(one, other) for (one, _), (other, _) in pairwise(found)):
            raise NoValue(why)
        return "<".join(key for _, key in (reversed(found) if falling else found))

    return run


_CHOOSING: Mapping[str, Callable[[Rest, Index], Compiled]] = {
    "text": _text, "none": _none, "if": _if, "and": _and, "or": _or, "pick": _pick, "at": _at,
    "highest": _extreme(1), "lowest": _extreme(-1), "only": _only, "those": _those, "nth": _nth, "order": _order,
}  # fmt: skip
OPERATIONS = frozenset({*_CHOOSING, *_CALLS, *_PAIRS})
_REASONED = {"none": 1, "highest": 2, "lowest": 2, "only": 2, "nth": 3, "order": 3}


def bare(tree: Program) -> Program:
    """The tree without the reasons, which only a teacher reads."""
    if not isinstance(tree, list) or tree[0] == "text":
        return tree
    kept = tree[: _REASONED[tree[0]]] if tree[0] in _REASONED else tree
    return [
        {key: bare(each) for key, each in part.items()}
        if isinstance(part, dict)
        else [bare(each) for each in part]
        if tree[0] == "at" and isinstance(part, list) and place == 2
        else bare(part)
        for place, part in enumerate(kept)
    ]
