"""Which families of relations and facts each kind of scenario joins, read from ``data/scenarios.yaml``."""

from __future__ import annotations

from collections.abc import Collection

from saltbridge.catalogue.entries import Entry, nearest


def joined_families(entry: Entry, known: Collection[str]) -> tuple[str, ...]:
    """The families of one kind of scenario; a heading that no relation and no fact has is a fault at its line."""
    entry.allow(("families",), ("families",))
    found = entry.texts("families")
    for place, family in enumerate(found):
        if family not in known:
            hint = nearest(family, known) or "Headings stand under the key family of relations and facts."
            entry.blame("unknown-family", "families", expected="a family of relations or facts", found=family, hint=hint)
        if family in found[:place]:
            entry.blame("repeated", "families", expected="each family once", found=f"{family} twice")
    return found
