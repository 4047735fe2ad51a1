"""The common errors and beliefs of a question: those that can be met in it, and those that a variant tells from the right answer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from saltbridge.bank.beliefs import is_own
from saltbridge.deliver.proof.variant_under_test import Seen


def caught_slips(seen: Seen) -> frozenset[str]:
    """Those that this variant tells from the right answer and from one another."""
    outcomes = (seen.drawn.outcomes[find.node] for _, find in seen.finds)
    found = {slip for each in outcomes for value in each.slips for slip in (value.point.slip.id, *value.same)}
    known = seen.catalogue.slips.keys() | seen.catalogue.ideas.keys()
    found.update(slip for asked in seen.asked for slip in _told(asked.share) if slip in known or is_own(slip))
    return frozenset(found)


def _told(share: Mapping[str, Any]) -> Iterator[str]:
    """The ids in a share of a key, those of its cases and its reason too."""
    for each in (share, *share.get("rows", ()), share.get("reason", {})):
        for slips in (each.get("slips", {}), each.get("beliefs", {})):
            yield from (slip for ids in slips.values() if isinstance(ids, list | tuple) for slip in ids)


def possible_slips(seen: Seen) -> tuple[str, ...]:
    """Those that can be made anywhere in this question; words of a template's own, which have no name, are left out."""
    found: dict[str, None] = {}
    for key in (each for part in seen.question.parts for each in part.judge.get("cells", (part.judge,))):
        slips = key.get("slips", ())
        found.update(dict.fromkeys(each["id"] for each in slips if isinstance(each, Mapping)) if isinstance(slips, list) else {})
        found.update(dict.fromkeys(name for name in key.get("hints", ()) if not is_own(name)))
    return tuple(found)
