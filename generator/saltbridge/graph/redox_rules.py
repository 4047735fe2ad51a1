"""Rules of redox and titration: what a reaction is, which process runs, which of several values fits."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from saltbridge.graph.laws import Undefined


def _then(values: Sequence[Any], _keys: Sequence[str]) -> Any:
    """A step after others: its own text, which is the last value."""
    return values[-1]


def _untold(_values: Sequence[Any], keys: Sequence[str]) -> Any:
    """What has no single value; the key says why."""
    return Undefined(keys[0])


def _by_numbers(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """Keys oxidation, reduction, neither, by the change of the oxidation number."""
    return _by_sign(values[0], keys)


def _by_oxygen(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The same by the oxygen atoms gained; of several equations, the one that holds no oxygen."""
    if len(values) == 2:
        return _by_sign(values[1], keys)
    return _only_zero(values[len(keys) :], keys)


def _by_sign(value: Any, keys: Sequence[str]) -> Any:
    return keys[0] if value > 0 else keys[1] if value < 0 else keys[2]


def _unchanged(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The one equation in which no oxidation number changes; the first values are the changes."""
    return _only_zero(values[: len(keys)], keys)


def _only_zero(values: Sequence[Any], keys: Sequence[str]) -> Any:
    found = [key for key, value in zip(keys, values, strict=True) if value == 0]
    return found[0] if len(found) == 1 else Undefined(f"{len(found)} of them fit, and one is asked for")


def _kind(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """Keys disproportionation, redox, neither; values: whether one species does both, and the electrons passed."""
    if not values[1]:
        return keys[2]
    return keys[0] if values[0] else keys[1]


def _partner(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """Keys yes, no: a half with electrons in it needs a partner."""
    return keys[0] if values[0] else keys[1]


def _nearest(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The key whose value lies nearest the first value."""
    gaps = [abs(value - values[0]) for value in values[1:]]
    best = min(gaps)
    return keys[gaps.index(best)] if gaps.count(best) == 1 else Undefined("two lie equally near, so neither can be chosen")


def _steepest(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The key of the largest step from one value to the next."""
    steps = [abs(after - before) for before, after in pairwise(values)]
    best = max(steps)
    return keys[steps.index(best)] if steps.count(best) == 1 else Undefined("two steps are equally steep")


def _by_size(values: Sequence[Any], keys: Sequence[str], place: int) -> Any:
    """The key at a place when the values are put in order of their size; the charges of a half-equation's forms."""
    return [key for _, key in sorted((abs(value), key) for value, key in zip(values, keys, strict=True))][place]


REDOX_RULES: Mapping[str, Callable[[Sequence[Any], Sequence[str]], Any]] = {
    "then": _then,
    "untold": _untold,
    "by numbers": _by_numbers,
    "by oxygen": _by_oxygen,
    "unchanged": _unchanged,
    "kind of reaction": _kind,
    "partner": _partner,
    "charge fits": lambda values, keys: _by_size(values, keys, 0),
    "charge once off": lambda values, keys: _by_size(values, keys, 1),
    "charge twice off": lambda values, keys: _by_size(values, keys, 2),
    "nearest": _nearest,
    "steepest": _steepest,
}
