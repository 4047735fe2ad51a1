"""Bench readings against a reference metal as a situation: every strip on paper with its own ions, signed readings in V.

Strips are owners ``s1``, ``s2``… in the order told; ``red`` and ``black`` are two of them joined without the reference.
"""

from __future__ import annotations

from collections.abc import Mapping

from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.inscriptions import in_english
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.galvanic import couple_label
from saltbridge.derivation.laws import Given, Rule, Say, Situation, instance
from saltbridge.derivation.situations import add_constants, name_metal
from saltbridge.faults import fault
from saltbridge.tables import Metal, Sheet, SheetRow, metals

RANK = "The reading puts each metal in its place: the lower the reading, the more readily the metal gives electrons."


def bench(
    reference: str,
    readings: Mapping[str, str],
    pair: tuple[str, str],
    sheet: Sheet,
    catalogue: Catalogue,
    say: Say = in_english,
) -> Situation:
    """The situation of readings (metal symbol → printed volts); ``pair`` names the strips on the red and the black lead.

    Raises ``Faulty`` where a metal's couple is not on the sheet.
    """
    situation = Situation(say=say)
    add_constants(situation, sheet)
    metal, row = _metal(reference, sheet)
    situation.given["E_ref"] = Given(float(row.E0), "V", row.E0, "read", sheet.title)
    _name(situation, "reference", metal, row)
    situation.about["E_ref"] = "reference.couple"
    for place, (symbol, printed) in enumerate(readings.items(), 1):
        _add_strip(situation, catalogue, f"s{place}", symbol, printed, sheet)
    for owner, symbol in zip(("red", "black"), pair, strict=True):
        _add_strip(situation, catalogue, owner, symbol, readings[symbol], sheet)
    situation.laws.append(
        instance(catalogue.relations["reading-of-pair"], {"reading_red": "red.reading", "reading_black": "black.reading"})
    )
    strips = tuple(f"s{place}" for place in range(1, len(readings) + 1))
    situation.laws.append(
        Rule("ranking", "rising", tuple(f"{strip}.reading" for strip in strips), RANK, keys=strips, slips_as="ranking")
    )
    situation.shape = (f"{len(readings)} strips",)
    return situation


def _add_strip(situation: Situation, catalogue: Catalogue, owner: str, symbol: str, printed: str, sheet: Sheet) -> None:
    metal, row = _metal(symbol, sheet)
    _name(situation, owner, metal, row)
    situation.given[f"{owner}.reading"] = Given(float(printed), "V", printed)
    situation.about[f"{owner}.reading"] = f"{owner}.symbol"
    situation.about[f"{owner}.E"] = f"{owner}.couple"
    relation = catalogue.relations["reading-of-electrode"]
    say = relation.say_here.replace("{metal}", f"{{{owner}.metal}}")
    situation.laws.append(instance(relation, {"reading": f"{owner}.reading", "E": f"{owner}.E"}, say=say))


def _metal(symbol: str, sheet: Sheet) -> tuple[Metal, SheetRow]:
    metal = metals().get(symbol)
    row = next((each for each in sheet.rows if metal and each.couple == metal.couple), None)
    if metal is None or row is None:
        raise fault("couple-not-on-sheet", expected=f"a metal with its couple on {sheet.title}", found=symbol)
    return metal, row


def _name(situation: Situation, owner: str, metal: Metal, row: SheetRow) -> None:
    name_metal(situation, owner, metal)
    situation.labels[f"{owner}.couple"] = couple_label(*parse_half_reaction(row.half_reaction).principal, situation.say)
