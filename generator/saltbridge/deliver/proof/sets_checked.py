"""Things to tick, compared a second time: by plain formulas where they are derived, by what was told where they are given."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.several_part import SeveralPart
from saltbridge.check.factors import to_coherent
from saltbridge.deliver.proof.findings import Hit
from saltbridge.deliver.proof.independent import second_opinion
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.draw.drawn_sets import compared_names, shown_things, things_of


def sets_agree(seen: Seen) -> Iterator[Hit]:
    """The things keyed as right against those that the values themselves pick."""
    for at, part in enumerate(seen.template.parts):
        compared = part.compared if isinstance(part, SeveralPart) else None
        if not isinstance(part, SeveralPart) or compared is None:
            continue
        key = f"parts[{at + 1}].where"
        *values, mark = (_value(name, seen) for name in compared_names(part, seen.drawn.lists))
        if mark is None or None in values:
            hint = "Compare the things of one variant by hand before you sign."
            yield Hit("not-checked", key, "a second route to what is compared", "none", hint, "warning")
            continue
        pairs = zip(things_of(part, seen.drawn.lists), values, strict=True)
        theirs = {
            thing for thing, value in pairs if value is not None and (value < mark if compared.sign == "<" else value > mark)
        }
        shown = shown_things(part, seen.drawn)
        ours = {shown[place] for place in seen.variant.judge[at]["right"] if place < len(shown)}
        if ours != theirs:
            yield Hit(
                "routes-differ",
                key,
                f"{_told(theirs)}, by the values",
                _told(ours),
                "The condition or the reading of the scenario is wrong.",
            )


def _value(name: str, seen: Seen) -> float | None:
    given = seen.drawn.given(name)
    if given is not None and isinstance(given.value, float):
        return to_coherent(given.value, given.unit)
    return second_opinion(name, seen.drawn, seen.template, seen.bank)


def _told(things: set[str]) -> str:
    return ", ".join(sorted(things)) or "none"
