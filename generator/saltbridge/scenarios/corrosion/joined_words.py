"""Two joined metals told at the command line, as ``joined = Fe+Cu``."""

from __future__ import annotations

import re
from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import fault
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.corrosion.corrosion_situation import (
    SERIES,
    add_joined,
    told_apart_in_sea,
)
from saltbridge.tables import Sheet

Words = Mapping[str, str]
_PAIR = re.compile(r"\s*([A-Za-z0-9-]+)\s*\+\s*([A-Za-z0-9-]+)\s*")


def add_joined_word(situation: Situation, words: Words, sheet: Sheet, _catalogue: Catalogue) -> None:
    """``joined = Fe+Cu``, with ``series = standard``, ``seawater`` or ``both`` for the table that decides.

    Without ``series`` the standard table decides, and the sea-water series is compared with it where it tells the two apart.
    Raises ``Faulty``: ``joined``, ``series``, and what ``add_joined`` does.
    """
    match = _PAIR.fullmatch(words.get("joined", ""))
    if match is None:
        raise fault(
            "joined", expected="two metals with a plus sign", found=words.get("joined", "none"), hint='As "joined = Fe+Cu".'
        )
    series = words.get("series", "standard")
    if series not in (*SERIES, "both"):
        raise fault("series", expected="series = standard, seawater or both", found=series[:40])
    pair = (match[1], match[2])
    add_joined(situation, pair, "both" if "series" not in words and told_apart_in_sea(pair) else series, sheet)
