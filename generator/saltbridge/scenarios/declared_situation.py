"""The situation that a scenario from data makes of picked words, for a question and for what is told at the command line alike.

Picked words go by the names that the entry gives them (``coating``); a stem stands for all that are numbered (``h1``, ``h2``…).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.graph.laws import Instance, Rule, Situation
from saltbridge.scenarios.bath.electrolysis import FARADAY, add_faraday
from saltbridge.scenarios.declared_conditions import require
from saltbridge.scenarios.things import THING_ADDERS, Making, name_choice


def build(entry: ScenarioEntry, making: Making) -> None:
    """Put the things of an entry, its facts and its rules into a situation that knows its quantities.

    Raises ``Faulty`` for a word that the tables do not know, what a thing can't be, and a condition that fails.
    """
    situation, catalogue, picked = making.situation, making.catalogue, making.picked
    for name, kind in entry.things.items():
        for owner in numbered(name, picked) or ((name,) if name in picked else ()):
            THING_ADDERS[kind](making, owner, picked[owner])
    if FARADAY in entry.families and "z" in situation.given and not _has_faraday(situation):
        told = {name.split(":")[0] for name in situation.given}
        add_faraday(situation, catalogue, with_efficiency="efficiency" in told)
    for condition in entry.conditions:
        require(condition, situation, numbered(condition.one_of, picked))
    situation.laws += [catalogue.facts[each] for each in entry.facts]
    for use in entry.rules:
        keys, inputs = (tuple(_spread(names, entry.stems, picked)) for names in (use.keys, use.of))
        if bool(inputs) == bool(use.of) and all(_there(name, entry, picked) for name in inputs):
            name_choice(situation, use.node, keys)
            situation.laws.append(Rule(use.node, use.rule, inputs, keys=keys))


def _there(name: str, entry: ScenarioEntry, picked: Mapping[str, str]) -> bool:
    """Whether the owner of an input is there, where it is one of the entry's things."""
    owner, point, _ = name.partition(".")
    return not point or owner in picked or owner not in entry.things


def _has_faraday(situation: Situation) -> bool:
    """Whether the charge leads to an amount already, as it does at the command line."""
    return any(isinstance(law, Instance) and law.law == "electron-amount" for law in situation.laws)


def numbered(stem: str, picked: Mapping[str, str]) -> tuple[str, ...]:
    """The names of a stem, in order."""
    found: list[str] = []
    while stem and (name := f"{stem}{len(found) + 1}") in picked:
        found.append(name)
    return tuple(found)


def _spread(names: tuple[str, ...], stems: tuple[str, ...], picked: Mapping[str, str]) -> Iterator[str]:
    """The names with each stem in place of all that are numbered: ``h.E0`` as ``h1.E0``, ``h2.E0``."""
    for name in names:
        owner, point, symbol = name.partition(".")
        if owner in stems:
            yield from (f"{each}{point}{symbol}" for each in numbered(owner, picked))
        else:
            yield name
