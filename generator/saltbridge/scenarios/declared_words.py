"""A scenario from data told in words at the command line: ``coating_metal = Sn`` with ``coated = Fe``."""

from __future__ import annotations

import re
from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.catalogue.word_lists import WORD_LISTS
from saltbridge.faults import fault
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.declared_situation import build
from saltbridge.scenarios.things import Making
from saltbridge.tables import Sheet


def build_told(entry: ScenarioEntry, situation: Situation, words: Mapping[str, str], sheet: Sheet, catalogue: Catalogue) -> None:
    """Put into a situation what the words of an entry tell of it; what is not told is as in a question that does not say it.

    Raises ``Faulty`` (code ``also-needed``) for a word that is needed beside those told.
    """
    picked: dict[str, str] = {}
    for word, (name, *stems) in (entry.words | entry.words_beside).items():
        key = entry.key(name)
        usual = key.usual if key is not None else ""
        if word not in words and not usual:
            there = next(each for each in entry.words if each in words)
            raise fault(
                "also-needed", expected=f"{word} beside {there}", found="none", hint=f'As "{word} = {_example(entry, name)}".'
            )
        told = [each.strip() for each in words.get(word, usual).split(",")]
        if stems and len(told) > 1:
            picked |= {f"{stems[0]}{place}": each for place, each in enumerate(told, 1)}
        else:
            picked[name] = words.get(word, usual)
    build(entry, Making(situation, sheet, catalogue, picked))


def _example(entry: ScenarioEntry, name: str) -> str:
    """A word that may be told by a name: the one that the meaning of its key names, or the first of its list."""
    key = entry.key(name)
    if key is not None and (named := re.search(r"such as ([^\s,.]+)", key.means)):
        return named[1]
    if key is not None and key.of in WORD_LISTS:
        return next(iter(WORD_LISTS[key.of].words()))
    return "yes" if entry.things.get(name) == "yes or no" else "…"
