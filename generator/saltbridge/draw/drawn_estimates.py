"""The size or sign of a number as a choice: the node of the graph that decides it, and which options a variant offers.

A size is one number: the power of ten below the value, plus a hundred, with the sign of the value (101 for 10 to 100, -99 for -1 to
-0.1), so that it follows from a student's own values as any other node does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from math import log10

from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.template import Template
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.finds import Find
from saltbridge.draw.seeds import Seed
from saltbridge.graph.laws import Conversion, Rule, Situation
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import Outcome

SIZE, SIGN = "size-of-a-value", "sign-of-a-value"
SIGNS = ("positive", "zero", "negative")
SHIFT = 100
MOST = 4  # options
WRITTEN_OUT = 5  # powers of ten that are printed with all their zeros
FAR = 6  # powers of ten from the right one; what lies further off no one would choose
EDGE = 0.1  # of a power of ten, by its logarithm: nearer to its ends an estimate may fall on either side

Taken = Mapping[float | str, tuple[str, ...]]


def estimate_law(part: EstimatePart, find: Find) -> Rule:
    """The rule that gives the size or the sign of a number."""
    if part.by == "sign":
        return Rule(f"sign of {find.node}", SIGN, (find.node,), keys=SIGNS)
    return Rule(f"size of {find.node}", SIZE, (find.node,))


def add_estimates(template: Template, situation: Situation, find: Callable[[EstimatePart], Find]) -> list[str]:
    """The nodes of the sizes and signs that a template asks for, added to the laws."""
    laws = [estimate_law(part, find(part)) for part in template.parts if isinstance(part, EstimatePart)]
    situation.laws += laws
    return [law.node for law in laws]


def bounds(size: float) -> tuple[Decimal, Decimal]:
    """The lower and the upper end of a size."""
    power = int(abs(size)) - SHIFT
    ends = _power_of_ten(power), _power_of_ten(power + 1)
    return ends if size > 0 else (-ends[1], -ends[0])


def _power_of_ten(power: int) -> Decimal:
    """Written out where that is short: 10 000, but 1 × 10⁶."""
    return Decimal(10) ** power if abs(power) <= WRITTEN_OUT else Decimal(1).scaleb(power)


def options_of(part: EstimatePart, node: str, drawn: Drawn, points: Sequence[SlipPoint]) -> tuple[list[float | str], Taken]:
    """What a variant offers, from the lowest to the highest, and which errors lead to each wrong option."""
    right = drawn.graph.value(drawn.cells, node)
    taken = _taken(node, drawn, points)
    if isinstance(right, str) or part.by == "sign":
        return [sign for sign in SIGNS if sign in {SIGNS[0], SIGNS[2], right, *taken}], taken
    assert isinstance(right, float)  # noqa: S101 - a size that does not exist has no outcome
    near = [size for size in taken if isinstance(size, float) and abs(abs(size) - abs(right)) <= FAR]
    others = _neighbours(right, drawn.seed) if len(near) < MOST - 1 else ()
    offered: list[float] = sorted(list(dict.fromkeys([right, *near, *others]))[:MOST], key=bounds)
    return [*offered], taken


def _taken(node: str, drawn: Drawn, points: Sequence[SlipPoint]) -> dict[float | str, tuple[str, ...]]:
    """By the wrong size or sign, the errors that lead to it; forgotten units and lost signs come first."""
    right = drawn.graph.value(drawn.cells, node)
    found: dict[float | str, dict[str, None]] = {}
    for point in sorted(points, key=lambda each: _rank(each, drawn)):
        value = drawn.graph.rerun(drawn.cells, point.part)
        if isinstance(value, float | str) and value != right:
            found.setdefault(value, {})[point.slip.id] = None
    return {value: tuple(ids) for value, ids in found.items()}


def _rank(point: SlipPoint, drawn: Drawn) -> int:
    return 0 if isinstance(drawn.graph.step(point.node).law, Conversion) else 1


def _neighbours(right: float, seed: str) -> Iterable[float]:
    """Sizes beside the right one, in a drawn order, so that it does not always stand in the middle."""
    way = 1 if right > 0 else -1
    return Seed("estimate", f"{right}", seed).shuffle("sizes", [right + way * step for step in (-2, -1, 1, 2)])


def on_an_edge(template: Template, find: Callable[[EstimatePart], Find], outcomes: Mapping[str, Outcome]) -> Iterator[str]:
    """The values to estimate that lie so near a power of ten that an honest estimate may come out on the other side of it."""
    for part in template.parts:
        if isinstance(part, EstimatePart) and part.by == "size":
            found = find(part)
            size = abs(float(outcomes[found.node].right.printed))
            if not size or not EDGE <= log10(size) % 1 <= 1 - EDGE:
                yield found.name
