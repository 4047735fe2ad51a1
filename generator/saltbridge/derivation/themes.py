"""Themes: what a word told at the command line brings with it. A family adds its own here, one line each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.electrolysis_words import (
    add_coat_word,
    add_gas_word,
    add_impurity_word,
    add_salt_words,
    add_second_word,
)
from saltbridge.derivation.laws import Situation
from saltbridge.tables import Sheet

Adder = Callable[[Situation, Mapping[str, str], Sheet, Catalogue], None]

THEMES: tuple[tuple[frozenset[str], Adder], ...] = (
    (frozenset({"gas"}), add_gas_word),
    (frozenset({"coat"}), add_coat_word),
    (frozenset({"salt", "state", "electrodes"}), add_salt_words),
    (frozenset({"second"}), add_second_word),
    (frozenset({"impurity"}), add_impurity_word),
)
"""(words read, what they add): an adder gives the situation facts, rules and relations; raises ``Faulty`` for an unknown word."""
