"""Bench readings against a reference metal as a situation: signed readings in V, in one of two models that are never mixed.

With *own ions* every strip stands on paper with ions of its own metal, and readings follow the data sheet. With *salt only*
they do not: nothing here then joins a reading to the hydrogen scale. Strips are owners ``s1``, ``s2``… in the order told;
``red`` and ``black`` are two of them joined without the reference, ``new`` is the strip taken as another reference.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.inscriptions import in_english, inscribe_equation, inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Rule, Say, Situation, instance
from saltbridge.scenarios.equation_laws import add_half, give_equation
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import add_constants, name_metal, read_potential
from saltbridge.scenarios.standards.standards import name_pairs
from saltbridge.tables import Metal, Sheet, SheetRow, metals, potentials
from saltbridge.tables.benches import safety

Model = Literal["own ions", "salt only"]
OXYGEN_COUPLE = "O2/OH^-"
NEW_ZERO = "Subtract the reading of the new reference, {new.metal}, from that of {metal}."


@dataclass(frozen=True, slots=True)
class Strips:
    """Readings in V as printed, by metal; the metals on the red and the black lead, and the one taken as new reference."""

    reference: str
    readings: Mapping[str, str]
    pair: tuple[str, str]
    new: str
    model: Model = "own ions"


def bench(strips: Strips, sheet: Sheet, catalogue: Catalogue, say: Say = in_english) -> Situation:
    """The situation of readings. Raises ``Faulty`` where a metal's couple is not on the sheet."""
    situation = Situation(say=say)
    add_constants(situation, sheet)
    own = strips.model == "own ions"
    metal, row = _metal(strips.reference, sheet)
    _name(situation, "reference", metal, row)
    if own:
        situation.given["E_ref"] = read_potential(row.E0, sheet)
        situation.about["E_ref"] = "reference.couple"
    for place, (symbol, printed) in enumerate(strips.readings.items(), 1):
        _add_strip(situation, catalogue, f"s{place}", (symbol, printed), sheet, own=own)
    for owner, symbol in zip(("red", "black", "new"), (*strips.pair, strips.new), strict=True):
        _add_strip(situation, catalogue, owner, (symbol, strips.readings[symbol]), sheet, own=own)
    pair = instance(catalogue.relations["reading-of-pair"], {"reading_red": "red.reading", "reading_black": "black.reading"})
    situation.laws.append(pair)
    keys = tuple(f"s{place}" for place in range(1, len(strips.readings) + 1))
    _add_new_reference(situation, catalogue, keys)
    _add_rules(situation, keys, strips, sheet, catalogue)
    _add_safety(situation, (strips.reference, *strips.readings))
    situation.shape = (f"{len(keys)} strips", strips.model)
    return situation


def _add_new_reference(situation: Situation, catalogue: Catalogue, keys: tuple[str, ...]) -> None:
    """Every reading, and that of the old reference, against the new one."""
    relation = catalogue.relations["reading-of-pair"]
    for key in keys:
        names = {"reading_pair": f"{key}.reading_new", "reading_red": f"{key}.reading", "reading_black": "new.reading"}
        situation.laws.append(instance(relation, names, say=NEW_ZERO.replace("{metal}", f"{{{key}.metal}}")))
        situation.about[f"{key}.reading_new"] = f"{key}.symbol"


def _add_rules(situation: Situation, keys: tuple[str, ...], strips: Strips, sheet: Sheet, catalogue: Catalogue) -> None:
    """Ranking, the pole, what is out of place; with salt only also what really takes the electrons."""
    readings = tuple(f"{key}.reading" for key in keys)
    situation.laws += [
        Rule("ranking", "ranking-by-readings", readings, keys=keys),
        Rule("positive_strip", "terminal-by-sign", ("reading_pair",), keys=("red", "black")),
        catalogue.facts["nearer_table"],
    ]
    name_pairs(situation, keys)
    for key, symbol in zip(keys, strips.readings, strict=True):
        row = _metal(symbol, sheet)[1]
        situation.given[f"{key}.E0"] = read_potential(row.E0, sheet)
        situation.about[f"{key}.E0"] = f"{key}.couple"
    table = tuple(f"{key}.E0" for key in keys)
    pairs = tuple(f"pair{place}" for place in range(1, len(keys) * (len(keys) - 1) // 2 + 1))
    situation.laws.append(Rule("out_of_place", "pair-out-of-place", (*readings, *table), keys=pairs))
    if strips.model == "salt only":
        half = parse_half_reaction(potentials()[OXYGEN_COUPLE].half_reaction)
        situation.labels["cathode.reduction"] = inscribe_equation(half.reduction, say=situation.say)
        situation.words["cathode.reduction text"] = half.reduction.bare.text
        situation.labels["oxygen.species"] = inscribe_species(parse_species("O2"), say=situation.say)
        situation.laws.append(catalogue.facts["takes_electrons"])
        choice = catalogue.facts["takes_electrons"].keys
        give_equation(situation, "oxygen.half", half.reduction)
        give_equation(
            situation, "reference.half", parse_half_reaction(_metal(strips.reference, sheet)[1].half_reaction).reduction
        )
        halves = ("takes_electrons", "oxygen.half", "reference.half")
        add_half(situation, catalogue, "cathode", "half-at-cathode", halves, choice)


def _add_safety(situation: Situation, symbols: tuple[str, ...]) -> None:
    """The lines of the safety block: those for all, and those for the metals on the bench as ``safety.metals``."""
    lines = safety().values()
    situation.words |= {f"safety.{each.id}": each.line for each in lines if not each.about}
    own = [situation.say(each.line) for each in lines if each.about in symbols]
    situation.words["safety.metals"] = " ".join(own)


def _add_strip(situation: Situation, catalogue: Catalogue, owner: str, told: tuple[str, str], sheet: Sheet, *, own: bool) -> None:
    symbol, printed = told
    metal, row = _metal(symbol, sheet)
    _name(situation, owner, metal, row)
    situation.given[f"{owner}.reading"] = Given(float(printed), "V", printed)
    situation.about[f"{owner}.reading"] = f"{owner}.symbol"
    if not own:
        return
    situation.about[f"{owner}.E"] = f"{owner}.couple"
    relation = catalogue.relations["reading-of-electrode"]
    say = relation.say_here.replace("{metal}", f"{{{owner}.metal}}")
    situation.laws.append(instance(relation, {"reading": f"{owner}.reading", "E": f"{owner}.E"}, say=say))


def _metal(symbol: str, sheet: Sheet) -> tuple[Metal, SheetRow]:
    metal = metals().get(symbol)
    row = sheet.row(metal.couple) if metal else None
    if metal is None or row is None:
        raise fault("couple-not-on-sheet", expected=f"a metal with its couple on {sheet.title}", found=symbol)
    return metal, row


def _name(situation: Situation, owner: str, metal: Metal, row: SheetRow) -> None:
    name_metal(situation, owner, metal)
    situation.labels[f"{owner}.couple"] = couple_label(*parse_half_reaction(row.half_reaction).principal, situation.say)
