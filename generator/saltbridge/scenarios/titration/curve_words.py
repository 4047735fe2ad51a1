"""A titration curve told at the command line by its two couples."""

from __future__ import annotations

from collections.abc import Mapping

from saltbridge.faults import fault
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.titration.titration import add_curve, add_indicators, in_acid
from saltbridge.tables import Sheet
from saltbridge.tables.indicators import indicators
from saltbridge.tables.reading import nearest


def add_curve_words(situation: Situation, words: Mapping[str, str], sheet: Sheet) -> None:
    """``titrant = Ce^4+/Ce^3+`` and ``analyte = Fe^3+/Fe^2+``: the curve, with the ``indicators`` told and formal potentials in an ``acid``.

    Raises ``Faulty``: ``couple-not-on-sheet``, ``no-formal-potential``, ``unknown-indicator``, and what ``add_curve`` does.
    """
    rows = {each.couple: each for each in sheet.rows}
    found, acid = [], words.get("acid", "")
    for name in ("titrant", "analyte"):
        if acid:
            found.append(in_acid(words[name], acid))
            continue
        if words[name] not in rows:
            raise fault(
                "couple-not-on-sheet", expected=f"a couple of {sheet.title}", found=words[name], hint=nearest(words[name], rows)
            )
        found.append(rows[words[name]])
    add_curve(situation, sheet, found[0], found[1], acid)
    named = [each.strip() for each in words.get("indicators", "").split(",") if each.strip()]
    for each in named:
        if each not in indicators():
            raise fault(
                "unknown-indicator", expected="indicators of indicators.csv", found=each[:40], hint=nearest(each, indicators())
            )
    if named:
        add_indicators(situation, [(each, indicators()[each].potential, indicators()[each].source) for each in named])
