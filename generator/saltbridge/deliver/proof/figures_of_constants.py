"""More figures of a constant than the potentials behind it leave."""

from __future__ import annotations

import math
from collections.abc import Iterator

from saltbridge.deliver.proof.findings import Hit
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.draw.drawn import Drawn
from saltbridge.graph.laws import flags_of
from saltbridge.sigfigs import decimals_of


def figures_of_constants(seen: Seen) -> Iterator[Hit]:
    """A constant with more figures, or its logarithm with more decimals, than are sure.

    Each potential read is good to half its last place; at worst the uncertainties add up, so that the one with fewer decimals decides.
    """
    for place, find in seen.finds:
        judged = flags_of(find.name, seen.catalogue.quantities).judged
        asked = find.asked.figures if judged == "by logarithm" else find.asked.decimals if judged else None
        if asked is None:
            continue
        doubt = _doubt(seen.drawn, find.name, by_logarithm=judged == "by logarithm")
        sure = max(0, math.floor(-math.log10(doubt) + 1e-9)) if doubt else asked
        if judged == "by logarithm":
            if asked > max(1, sure):
                hint = f"Ask for lg {find.name}, or for `figures: {max(1, sure)}`; a data sheet of more decimals leaves more."
                key = f"{place}.figures"
                yield Hit(
                    "figures-of-K",
                    key,
                    f"{find.name} with no more figures than its potentials leave",
                    f"{asked}",
                    hint,
                    "warning",
                )
        elif asked > sure:
            hint = f"Ask for `decimals: {sure}`; a data sheet of more decimals leaves more."
            key = f"{place}.decimals"
            yield Hit(
                "figures-of-K", key, f"{find.name} to no more decimals than its potentials leave", f"{asked}", hint, "warning"
            )


def _doubt(drawn: Drawn, name: str, *, by_logarithm: bool) -> float:
    """How far the common logarithm is off, at worst, where each potential read is off by half its last place."""
    graph, given = drawn.graph, drawn.situation.given
    own = graph.value(drawn.cells, name)
    total = 0.0
    for step in graph.upstream(name):
        known = given.get(step.node)
        if step.how != "read" or known is None or known.unit != "V" or not isinstance(known.value, float):
            continue
        moved = list(drawn.start)
        moved[graph.index[step.node]] = known.value + 0.5 * 10.0 ** -decimals_of(known.printed)
        other = graph.value(graph.run(moved), name)
        if isinstance(own, float) and isinstance(other, float):
            total += abs(math.log10(other / own)) if by_logarithm else abs(other - own)
    return total
