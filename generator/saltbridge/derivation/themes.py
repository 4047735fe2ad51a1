"""Themes: what a word told at the command line brings with it. A family adds its own here, one line each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.laws import Situation
from saltbridge.tables import Sheet

Adder = Callable[[Situation, Mapping[str, str], Sheet, Catalogue], None]

THEMES: tuple[tuple[frozenset[str], Adder], ...] = ()
"""(words read, what they add): an adder gives the situation facts, rules and relations; raises ``Faulty`` for an unknown word."""
