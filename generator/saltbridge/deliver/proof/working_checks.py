"""Workings with an error in them and estimates, held against plain formulas that know nothing of the derivation."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.spare_part import SparePart
from saltbridge.check.factors import to_coherent
from saltbridge.deliver.proof.findings import Hit
from saltbridge.deliver.proof.independent import agrees, second_opinion
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_estimates import bounds
from saltbridge.draw.spare_data import data_of

LARGER = 1.07


def wrong_steps_tell(seen: Seen) -> Iterator[Hit]:
    """A working with an error in it whose end is right all the same, by our own range or by plain formulas."""
    for at, (find, found) in seen.wrong.items():
        wrong, right = found.judged.outcomes[find.node], seen.drawn.outcomes[find.node].right
        theirs = second_opinion(find.name, seen.drawn, seen.template, seen.bank)
        same = theirs is not None and agrees(find.name.rpartition(".")[2], to_coherent(wrong.exact, find.unit), theirs)
        if same or right.lo <= wrong.right.printed < right.hi:
            expected = f"a wrong step that leads to another {find.name}"
            yield Hit("wrong-step-right", f"parts[{at + 1}].wrong step in", expected, f"{found.name} leads to the right one")


def estimates_hold(seen: Seen) -> Iterator[Hit]:
    """A size or a sign to choose, held against the number by plain formulas."""
    for at, part in enumerate(seen.template.parts):
        if not isinstance(part, EstimatePart):
            continue
        theirs = second_opinion(part.find, seen.drawn, seen.template, seen.bank)
        key = seen.variant.judge[at]
        right = key["values"][key["right"][0]]
        if theirs is not None and not _holds(
            right, theirs, seen.drawn.unit(seen.question.parts[at].judge["node"].partition(" of ")[2])
        ):
            shown = f"{theirs:.6g} by plain formulas"
            yield Hit(
                "routes-differ", f"parts[{at + 1}].estimate", f"a right option that holds {part.find} = {shown}", f"{right}"
            )


def spares_change_nothing(seen: Seen) -> Iterator[Hit]:
    """Data to choose the needless one from: by plain formulas the answer moves with each datum but that one."""
    for at, part in enumerate(seen.template.parts):
        if not isinstance(part, SparePart):
            continue
        right = data_of(part, seen.drawn)[seen.variant.judge[at]["right"][0]]
        plain = second_opinion(part.find, seen.drawn, seen.template, seen.bank)
        for name in part.data if plain is not None else ():
            other = second_opinion(part.find, _with_another(name, seen.drawn), seen.template, seen.bank)
            if other is not None and (other == plain) != (name == right):
                expected = f"{part.find} by plain formulas to {'stay' if name == right else 'move'} with {name}"
                yield Hit("routes-differ", f"parts[{at + 1}].from", expected, f"{plain:.6g} and {other:.6g}", value=name)


def _with_another(name: str, drawn: Drawn) -> Drawn:
    """The draw with one datum a little larger."""
    situation = drawn.situation.copy()
    for node, given in drawn.situation.given.items():
        if node.partition(":")[0] == name and isinstance(given.value, float):
            situation.given[node] = replace(given, value=given.value * LARGER)
    return replace(drawn, situation=situation, found={})


def _holds(right: float | str, theirs: float, unit: str) -> bool:
    if isinstance(right, str):
        return right == ("positive" if theirs > 0 else "negative" if theirs < 0 else "zero")
    low, high = (to_coherent(float(end), unit) for end in bounds(right))
    return low <= theirs < high
