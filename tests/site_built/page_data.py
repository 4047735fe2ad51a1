"""What a published page carries for its script."""

from __future__ import annotations

import json

from saltbridge.bank.bank import load_bank
from saltbridge.home import shipped

TEMPLATES = load_bank(shipped("question_templates")).templates


def one_of_each(*, scenarios: bool = True) -> tuple[str, ...]:
    """The question pages on which a kind of part or of drawing stands, or with ``scenarios`` of scenario, that is on no page before.

    The answers of every page are judged in Python by keys that both judges share; a browser is asked once for each kind.
    """
    met: set[str] = set()
    chosen = []
    for each in TEMPLATES:
        here = {each.figure.name, *(type(part).__name__ for part in each.parts)} | ({each.scenario.kind} if scenarios else set())
        if "practice" in each.use and not here <= met:
            met |= here
            chosen.append(f"{each.id}.html")
    return tuple(chosen)


def data_of(page: str) -> dict:
    """The data block of a page."""
    block = page.partition('type="application/json"')[2].partition(">")[2].partition("</script>")[0]
    return json.loads(block)
