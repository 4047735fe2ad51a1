"""The letter by which an option is named on paper, in a memorandum and in a marking grid."""

from __future__ import annotations

from collections.abc import Mapping
from string import ascii_uppercase
from typing import Any


def option_sign(key: Mapping[str, Any], at: int) -> str:
    """The letter of an option by its place; options that are letters of a figure (``signs`` of the key) are named by themselves."""
    own = key.get("signs")
    return str(own[at]) if own else ascii_uppercase[at % len(ascii_uppercase)]
