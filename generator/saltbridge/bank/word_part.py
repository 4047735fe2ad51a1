"""A short word to write, such as the name of a metal."""

from __future__ import annotations

from saltbridge.bank.answer_keys import WordKeys
from saltbridge.bank.part_base import PartKeys


class WordPart(WordKeys, PartKeys):
    """A short word to write."""
