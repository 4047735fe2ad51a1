"""Routes: the ways a careful student may take, each an override; the accepted range is the hull of their results."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

import yaml

from saltbridge.derivation.expression import Cells, Tree, names, to_json
from saltbridge.derivation.graph import Graph
from saltbridge.derivation.laws import Conversion, Instance
from saltbridge.derivation.planner import Step
from saltbridge.derivation.rearrange import solve
from saltbridge.faults import Faulty
from saltbridge.home import shipped
from saltbridge.sigfigs import figures_of, last_place, to_decimals, to_figures

MOST_ROUTES = 24
WIDEST = 5  # last places; a wider hull rejects the draw
_NEAR_25 = 0.2  # K


@dataclass(frozen=True, slots=True)
class Route:
    """Overrides by place and the same as JSON for the page; ``rounded``: results are rounded at every step."""

    put: Mapping[int, Any]
    json: Mapping[str, Any]
    rounded: bool


@dataclass(frozen=True, slots=True)
class Asked:
    """How an answer is to be given: so many ``figures`` or ``decimals``; ``log``: judged by its common logarithm."""

    figures: int | None = None
    decimals: int | None = None
    log: bool = False

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
        forms = [({}, {}), *_constant_forms(graph, steps), *_law_forms(graph, steps)]
        known = tuple(Route(put, json, rounded) for rounded in (False, True) for put, json in forms)[:MOST_ROUTES]
        graph.memo["routes", target] = known
    found: tuple[Route, ...] = known
    return found


def _constant_forms(graph: Graph, steps: Sequence[Step]) -> Iterator[tuple[dict[int, Any], dict[str, Any]]]:
    for step in steps:
        if step.how == "read" and step.node in {"F", "R", "slope"}:
            for text in _alternatives()[step.node]:
                yield {graph.index[step.node]: float(text)}, {step.node: text}
        if isinstance(step.law, Conversion) and step.law.offset > 0:
            source, offset = graph.index[step.law.source], float(_alternatives()["offset"])
            yield (
                {graph.index[step.node]: lambda cells, s=source, o=offset: cells[s] + o},
                {step.node: ["+", step.law.source, offset]},
            )
        if step.node == "T" and step.law is None:
            for text in _alternatives()["T"]:
                place = graph.index["T"]
                yield {place: _near_25(place, float(text))}, {}


def _near_25(place: int, value: float) -> Callable[[Cells], Any]:
    """298 for 298.15 and the other way round, where the temperature is 25 °C at all."""
    return lambda cells: value if abs(cells[place] - value) <= _NEAR_25 else cells[place]


def _law_forms(graph: Graph, steps: Sequence[Step]) -> Iterator[tuple[dict[int, Any], dict[str, Any]]]:
    for step in steps:
        if not isinstance(step.law, Instance):
            continue
        for _, tree in step.law.forms:
            solved = _solved(step.law.subject, tree, step.node)
            if solved is None or any(name not in graph.index for name in names(solved)):
                continue
            for slope in _alternatives()["slope"] if "slope" in names(solved) else ("",):
                put: dict[int, Any] = {graph.index[step.node]: graph.compile_tree(solved)}
                json: dict[str, Any] = {step.node: to_json(solved)}
                if slope:
                    put[graph.index["slope"]] = float(slope)
                    json["slope"] = slope
                yield put, json


def _solved(subject: str, tree: Tree, unknown: str) -> Tree | None:
    try:
        return solve(subject, tree, unknown)
    except Faulty:
        return None


def results(graph: Graph, cells: Cells, target: str, figures: int, put: Mapping[int, Any] | None = None) -> list[float]:
    """The target's value on every route, the plain one first; ``put`` (a slip, an own answer) is laid over each route."""
    place = graph.index[target]
    found = []
    for route in routes(graph, target):
        given = _with_values(cells, route.put)
        laws = {where: value for where, value in route.put.items() if callable(value) and graph.steps[where].law is not None}
        value = graph.run(given, {**laws, **(put or {})}, (lambda x: float(to_figures(x, figures))) if route.rounded else None)[
            place
        ]
        if isinstance(value, float):
            found.append(value)
    return found


def _with_values(cells: Cells, put: Mapping[int, Any]) -> Cells:
    if not put:
        return cells
    out = list(cells)
    for where, value in put.items():
        if not callable(value):
            out[where] = value
        elif out[where] is not None:
            out[where] = value(out)
    return out


def accepted(values: Sequence[float], asked: Asked) -> Accepted:
    """The accepted range of an answer from its routes' results (the plain one first).

    lo and hi are the smallest and largest result, each rounded as asked, widened by half a last place. For a quantity judged by
    its logarithm the hull of the unrounded results is taken, with the half place on the logarithm's own last decimal (0.05).
    """
    exact = values[0]
    printed = asked.printed(exact)
    place = last_place(printed)
    if asked.log:
        return _accepted_log(values, printed, place)
    rounded = [_to_place(value, place) for value in values] + [printed]
    lo, hi = min(rounded), max(rounded)
    return Accepted(printed, place, lo - place / 2, hi + place / 2, float((hi - lo) / place))


def _to_place(value: float, place: Decimal) -> Decimal:
    return (
        to_decimals(value, max(0, -int(place.as_tuple().exponent)))
        if place <= 1
        else (to_decimals(value / float(place), 0) * place)
    )


_LOG_HALF_PLACE = Decimal("0.05")


def _accepted_log(values: Sequence[float], printed: Decimal, place: Decimal) -> Accepted:
    lows = [Decimal(repr(value)).log10() for value in values if value > 0]
    lo, hi = min(lows), max(lows)
    down, up = (Decimal(10) ** (lo - _LOG_HALF_PLACE), Decimal(10) ** (hi + _LOG_HALF_PLACE))
    return Accepted(printed, place, min(down, printed), max(up, printed), float((hi - lo) / (2 * _LOG_HALF_PLACE)))


def step_figures(printed: Decimal) -> int:
    """How many figures a student who rounds at every step keeps: as many as the answer has, three at least."""
    return max(3, figures_of(str(printed)))
