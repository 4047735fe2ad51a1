"""Rules of corrosion: whether two tables agree, what iron needs to rust, who outlasts whom."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

YES = "yes"


def _alike(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The first key where both values are the same, else the second."""
    return keys[0] if values[0] == values[1] else keys[1]


def _both(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The first key where every value is yes, else the second."""
    return keys[0] if all(value == YES for value in values) else keys[1]


def _either(values: Sequence[Any], keys: Sequence[str]) -> Any:
    """The first key where one value is yes, else the second: the slip beside ``both``."""
    return keys[0] if any(value == YES for value in values) else keys[1]


CORROSION_RULES: Mapping[str, Callable[[Sequence[Any], Sequence[str]], Any]] = {
    "alike": _alike,
    "both": _both,
    "either": _either,
}
