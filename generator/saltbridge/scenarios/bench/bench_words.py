"""Words of the bench told at the command line: repeated readings."""

from __future__ import annotations

import re
from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import fault
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.bench.meter import MOST_REPEATS, add_repeats
from saltbridge.tables import Sheet

FEWEST_REPEATS = 3


def add_told_repeats(situation: Situation, words: Mapping[str, str], _sheet: Sheet, _catalogue: Catalogue) -> None:
    """``repeats = 0.74 0.75 0.73 0.92``: the one far off, mean and half range of the rest. Raises ``Faulty`` for what is no such list."""
    texts = words["repeats"].removesuffix("V").split()
    if not FEWEST_REPEATS <= len(texts) <= MOST_REPEATS or not all(
        re.fullmatch(r"[-+]?[0-9]{1,6}(\.[0-9]{1,6})?", text) for text in texts
    ):
        expected = f"{FEWEST_REPEATS} to {MOST_REPEATS} readings in V with spaces between them"
        raise fault("repeats", expected=expected, found=words["repeats"][:60], hint='As "repeats = 0.74 0.75 0.73 0.92".')
    add_repeats(situation, texts)
