"""Routes: the ways a careful student may take, each an override; the accepted range is the hull of their results."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache, lru_cache
from typing import Any, NamedTuple

import yaml

from saltbridge.algebra.expression import Cells, Tree, names, to_json
from saltbridge.algebra.rearrange import solve
from saltbridge.algebra.rounding import rounder
from saltbridge.faults import Faulty
from saltbridge.graph.graph import Graph, Part
from saltbridge.graph.laws import Conversion, Instance
from saltbridge.graph.planner import Step
from saltbridge.home import shipped
from saltbridge.sigfigs import figures_of, last_place, place_of, to_decimals, to_figures

MOST_ROUTES = 24
WIDEST = 5  # last places; a wider hull rejects the draw
_NEAR_25 = 0.2  # K


@dataclass(frozen=True, slots=True)
class Route:
    """One way: ``part`` is what it changes in a run, ``json`` the same for the page; ``rounded``: every step is rounded.

    ``law``: it takes another law at some step, and not only another constant.

    ``near``: a value that is put holds only within so much of the right one (298 for 298.15, but not for 310.15).
    """

    part: Part
    json: Mapping[str, Any]
    rounded: bool
    law: bool = False
    near: float | None = None

    def holds(self, cells: Cells) -> bool:
        """Whether a careful student may go this way in this variant; the same in all variants of a shape."""
        return self.near is None or all(abs(cells[place] - value) <= self.near for place, value in self.part.values)

    def tells(self, cells: Cells) -> bool:
        """Whether it can give another result than the plain way: not where it puts what stands there already."""
        return self.holds(cells) and (self.law or any(cells[place] != value for place, value in self.part.values))


@dataclass(frozen=True, slots=True)
class Asked:
    """How an answer is to be given: so many ``figures`` or ``decimals``; ``log``: judged by its common logarithm.

    ``whole``: it is a whole number by its nature, measured or counted.
    """

    figures: int | None = None
    decimals: int | None = None
    log: bool = False
    whole: bool = False

    def printed(self, value: float) -> Decimal:
        """The value as it is to be printed."""
        if self.decimals is not None:
            return to_decimals(value, self.decimals)
        return to_figures(value, self.figures or 3)


@dataclass(frozen=True, slots=True)
class Accepted:
    """The answer as printed and the range in which another counts as right; ``place`` is its last place, ``width`` in places."""

    printed: Decimal
    place: Decimal
    lo: Decimal
    hi: Decimal
    width: float


@cache
def _alternatives() -> Mapping[str, Any]:
    data: Mapping[str, Any] = yaml.safe_load((shipped("data") / "routes.yaml").read_text(encoding="utf-8"))
    return data


def form_names(steps: Sequence[Step]) -> tuple[str, ...]:
    """The constants that other forms of these steps' relations need, to be planned beside them."""
    found = (name for step in steps if isinstance(step.law, Instance) for _, tree in step.law.forms for name in names(tree))
    return tuple(dict.fromkeys(found))


def routes(graph: Graph, target: str) -> tuple[Route, ...]:
    """All routes to ``target``: the plain one first, then each form alone, then each with rounding; at most 24."""
    known = graph.memo.get(("routes", target))
    if known is None:
        steps = graph.upstream(target)
        forms = [_Way({}, {}), *_constant_forms(graph, steps), *_law_forms(graph, steps)]
        parts = [graph.part(way.put, target) for way in forms]
        both = [
            Route(part, way.json, rounded, any(callable(each) for each in way.put.values()), way.near)
            for rounded in (False, True)
            for way, part in zip(forms, parts, strict=True)
        ]
        known = graph.memo["routes", target] = tuple(both[:MOST_ROUTES])
    found: tuple[Route, ...] = known
    return found


class _Way(NamedTuple):
    put: Mapping[int, Any]
    json: Mapping[str, Any]
    near: float | None = None


def _constant_forms(graph: Graph, steps: Sequence[Step]) -> Iterator[_Way]:
    for step in steps:
        place = graph.index[step.node]
        if step.how == "read" and step.node in {"F", "R", "slope"}:
            for text in _alternatives()[step.node]:
                yield _Way({place: float(text)}, {step.node: text})
        if isinstance(step.law, Conversion) and step.law.offset > 0:
            source, offset = graph.index[step.law.source], float(_alternatives()["offset"])
            yield _Way({place: lambda cells, s=source, o=offset: cells[s] + o}, {step.node: ["+", step.law.source, offset]})
        if step.node == "T" and step.law is None:
            for text in _alternatives()["T"]:
                yield _Way({place: float(text)}, {"T": text}, _NEAR_25)


def _law_forms(graph: Graph, steps: Sequence[Step]) -> Iterator[_Way]:
    for step in steps:
        if not isinstance(step.law, Instance):
            continue
        for _, tree in step.law.forms:
            solved = _solved(step.law.subject, tree, step.node)
            if solved is None or any(name not in graph.index for name in names(solved)):
                continue
            law = {graph.index[step.node]: graph.compile_tree(solved)}
            json = {step.node: to_json(solved)}
            if "slope" in names(solved):
                for slope in _alternatives()["slope"]:
                    yield _Way({**law, graph.index["slope"]: float(slope)}, {**json, "slope": slope})
            else:
                yield _Way(law, json)


def _solved(subject: str, tree: Tree, unknown: str) -> Tree | None:
    try:
        return solve(subject, tree, unknown)
    except Faulty:
        return None


def results(graph: Graph, base: Cells, rough: Cells, target: str, figures: int) -> list[float]:
    """The target's value on every route that tells, the plain one first.

    ``base`` and ``rough`` are whole runs, at full precision and with every step but the target rounded to ``figures``.
    """
    place, rounded = graph.index[target], rounder(figures)
    found = [base[place], rough[place]]
    found += [
        graph.rerun(rough, route.part, rounded) if route.rounded else graph.rerun(base, route.part)
        for route in routes(graph, target)
        if route.tells(base)
    ]
    return [value for value in found if isinstance(value, float)]


def accepted(values: Sequence[float], asked: Asked) -> Accepted:
    """The accepted range of an answer from its routes' results (the plain one first).

    lo and hi are the smallest and largest result, each rounded as asked, widened by half a last place. For a quantity judged by
    its logarithm the hull of the unrounded results is taken, with the half place on the logarithm's own last decimal (0.05).
    """
    exact = values[0]
    printed = asked.printed(exact)
    place = last_place(printed) if asked.decimals is None else place_of(-asked.decimals)
    if asked.log:
        return _accepted_log(values, printed, place)
    half, near = _half_of(place)
    # Rounding keeps the order, so that only the outermost results need it, and not even those that are surely printed alike.
    middle, low, high = float(printed), min(values), max(values)
    lo = printed if abs(low - middle) < near else min(_to_place(low, place), printed)
    hi = printed if abs(high - middle) < near else max(_to_place(high, place), printed)
    return Accepted(printed, place, lo - half, hi + half, 0.0 if lo is hi else float((hi - lo) / place))


@lru_cache(maxsize=256)
def _half_of(place: Decimal) -> tuple[Decimal, float]:
    """Half a place, and a little less as a float: within it a value is printed alike whatever the twelve digits say."""
    half = place / 2
    return half, float(half) * (1 - 1e-6)


def _to_place(value: float, place: Decimal) -> Decimal:
    if place <= 1:
        return to_decimals(value, max(0, -int(place.as_tuple().exponent)))
    return to_decimals(value / float(place), 0) * place


_LOG_HALF_PLACE = 0.05
_LOG_FACTOR = Decimal("1.12201845430196")  # 10 to the power of half a place, twelve digits and more


def _accepted_log(values: Sequence[float], printed: Decimal, place: Decimal) -> Accepted:
    positive = [value for value in values if value > 0]
    lo, hi = min(positive), max(positive)
    down, up = Decimal(repr(lo)) / _LOG_FACTOR, Decimal(repr(hi)) * _LOG_FACTOR
    width = (math.log10(hi) - math.log10(lo)) / (2 * _LOG_HALF_PLACE)
    return Accepted(printed, place, min(down, printed), max(up, printed), width)


def step_figures(printed: Decimal) -> int:
    """How many figures a student who rounds at every step keeps: as many as the answer has, three at least."""
    return max(3, figures_of(str(printed)))
