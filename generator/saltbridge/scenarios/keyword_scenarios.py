"""Themes: what a word told at the command line brings with it. A family adds its own here, one line each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.bath.electrolysis_words import (
    add_gas_word,
    add_salt_words,
    add_second_word,
)
from saltbridge.scenarios.bench.bench_words import add_told_repeats
from saltbridge.scenarios.concentration.changes import add_change_word
from saltbridge.scenarios.corrosion.joined_words import (
    add_joined_word,
)
from saltbridge.scenarios.redox.redox_words import add_change, add_displacement, add_skeleton, add_species, add_titration
from saltbridge.scenarios.standards.standards_words import add_couples, add_told_reference, add_told_steps
from saltbridge.tables import Sheet

Adder = Callable[[Situation, Mapping[str, str], Sheet, Catalogue], None]

THEMES: tuple[tuple[frozenset[str], Adder], ...] = (
    (frozenset({"cell_change"}), add_change_word),
    (frozenset({"gas"}), add_gas_word),
    (frozenset({"salt", "state", "electrodes"}), add_salt_words),
    (frozenset({"second"}), add_second_word),
    (frozenset({"species"}), add_species),
    (frozenset({"half_skeleton"}), add_change),
    (frozenset({"skeleton"}), add_skeleton),
    (frozenset({"solid", "dissolved"}), add_displacement),
    (frozenset({"couples"}), add_couples),
    (frozenset({"chain"}), add_told_steps),
    (frozenset({"reference"}), add_told_reference),
    (frozenset({"repeats"}), add_told_repeats),
    (frozenset({"titrant", "analyte"}), add_titration),
    (frozenset({"joined", "series"}), add_joined_word),
)
"""(words read, what they add): an adder gives the situation facts, rules and relations; raises ``Faulty`` for an unknown word."""
