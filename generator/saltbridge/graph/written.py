"""The working as it is written: every result rounded as it is printed, and that printed number used on.

A result on the way carries two figures more than it deserves, an answer two more than it is asked to; a student who works with the
numbers on the page then gets the next line, digit for digit. What is exact (a sum of printed decimals, minutes in seconds, a
count) is written exactly, and a number that ends sooner ends there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import lru_cache

from saltbridge.algebra.expression import Bin, Cells, Neg, Num, Ref, Tree
from saltbridge.faults import Faulty
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Conversion, Given, Instance, Rule
from saltbridge.graph.planner import Step
from saltbridge.graph.precision import Measured, figures, measured
from saltbridge.graph.routes import Asked
from saltbridge.sigfigs import decimals_of, place_of, to_decimals, to_figures, twelve

GUARD = 2  # figures written beyond those that a result deserves
LEAST = 3  # figures that any measured result is taken to deserve
_EXACT = 6  # figures of an exact number that has no end, such as a third

Digits = str | Decimal
Written = dict[str, Digits]


@dataclass(slots=True)
class _Sheet:
    """What is written so far: the digits of each node, and the decimals of those that are exact as written."""

    graph: Graph
    cells: Cells
    given: Mapping[str, Given]
    digits: Written = field(default_factory=dict)
    exact: dict[str, int] = field(default_factory=dict)
    _deserved: dict[str, Measured] | None = None

    def deserved(self, node: str) -> int | None:
        """The figures that a result deserves; worked out where one is asked for, since many a working needs none."""
        if self._deserved is None:
            self._deserved = measured(self.graph, self.cells, self.given)
        return figures(self._deserved[node])


def written(
    graph: Graph,
    cells: Cells,
    given: Mapping[str, Given],
    asked: Mapping[str, Asked],
    unwritten: frozenset[str] = frozenset(),
    guard: int = GUARD,
) -> Written:
    """The digits of every number of a run, each result worked from the digits before it.

    ``asked``: how the answers are to be given; ``unwritten``: results that the working never shows, which nobody rounds.
    """
    sheet, out = _Sheet(graph, cells, given), list(cells)
    for step in graph.steps:
        if step.law is None and isinstance(cells[graph.index[step.node]], float):
            printed = given[step.node].printed
            sheet.digits[step.node] = printed
            if (decimals := _decimals(printed)) is not None:
                sheet.exact[step.node] = decimals
    for place, law, _ in graph.program:
        step = graph.steps[place]
        if not isinstance(cells[place], float):
            continue
        if isinstance(step.law, Rule):
            out[place] = _taken(graph, step, cells, out, sheet)
            continue
        try:
            value = float(law(out))
        except (ArithmeticError, ValueError, TypeError):
            value = cells[place]  # a difference that rounding takes away; the line is told at full precision
        _exactly(step, sheet)
        digits = sheet.digits[step.node] = _rounded(step.node, value, asked.get(step.node), sheet, guard)
        out[place] = value if step.node in unwritten else float(digits)
    return sheet.digits


@lru_cache(maxsize=4096)
def _decimals(printed: str) -> int | None:
    """The decimals of a given number; a given may also be a word, such as yes."""
    try:
        return decimals_of(printed)
    except Faulty:
        return None


def _taken(graph: Graph, step: Step, cells: Cells, out: Cells, sheet: _Sheet) -> float:
    """A number that a rule takes from one of its inputs stays as written there; a count is written in full."""
    own: float = cells[graph.index[step.node]]
    source = next((name for name in step.inputs if name in sheet.digits and cells[graph.index[name]] == own), None)
    if source is None:
        sheet.digits[step.node] = Decimal(round(own)) if own == round(own) else to_figures(own, _EXACT)
        return own
    sheet.digits[step.node] = sheet.digits[source]
    if source in sheet.exact:
        sheet.exact[step.node] = sheet.exact[source]
    taken: float = out[graph.index[source]]
    return taken


def _exactly(step: Step, sheet: _Sheet) -> None:
    """Note the decimals of a result that has an end: a sum of exact numbers, or such a number in a unit so many times smaller."""
    decimals = None
    match step.law:
        case Instance() if step.tree is not None:
            decimals = _of_sum(step.tree, sheet)
        case Conversion(source=source, factor=factor, offset=offset) if source in sheet.exact:
            decimals = _of_conversion(sheet.exact[source], Decimal(repr(factor)), Decimal(repr(offset)))
    if decimals is not None:
        sheet.exact[step.node] = decimals


def _of_sum(tree: Tree, sheet: _Sheet) -> int | None:
    """The decimals of a sum or difference of exact numbers; ``None`` for anything else."""
    match tree:
        case Num(text):
            return decimals_of(text.removesuffix(".0"))
        case Ref(name):
            return sheet.exact.get(name)
        case Neg(body):
            return _of_sum(body, sheet)
        case Bin("+" | "-", left, right):
            both = (_of_sum(left, sheet), _of_sum(right, sheet))
            return None if both[0] is None or both[1] is None else max(both[0], both[1])
        case _:
            return None


_MOST_DECIMALS = 9  # a factor with more has no end, such as that from seconds to minutes


def _of_conversion(decimals: int, factor: Decimal, offset: Decimal) -> int | None:
    """Sixty takes one decimal away (0.5 min = 30 s), a thousandth adds three."""
    _, _, exponent = factor.normalize().as_tuple()
    if not isinstance(exponent, int) or exponent < -_MOST_DECIMALS:
        return None
    shifted = max(0, decimals - exponent)
    return max(shifted, -int(offset.normalize().as_tuple().exponent)) if offset else shifted


def _rounded(node: str, value: float, asked: Asked | None, sheet: _Sheet, guard: int) -> Decimal:
    if asked is not None:
        return _ended(value, _with_guard(asked, guard).printed(value), asked.printed(value))
    count = sheet.deserved(node)
    if node in sheet.exact:
        exact = to_decimals(value, sheet.exact[node])
        if count is None or not exact or exact.adjusted() - int(exact.as_tuple().exponent) < max(LEAST, count) + guard:
            return exact
    if count is None:
        return Decimal(round(value)) if value == round(value) else _ended(value, to_figures(value, _EXACT), to_figures(value, 1))
    return _ended(value, to_figures(value, max(LEAST, count) + guard), to_figures(value, count))


def _with_guard(asked: Asked, guard: int) -> Asked:
    if asked.decimals is not None:
        return Asked(decimals=asked.decimals + guard)
    return Asked(figures=(asked.figures or LEAST) + guard)


def _ended(value: float, digits: Decimal, least: Decimal) -> Decimal:
    """The digits without closing zeros, down to the last place of ``least``, where the number ends there: 0.0100, not 0.010 000."""
    if twelve(float(digits)) != twelve(value):
        return digits
    last, finest = (int(each.as_tuple().exponent) for each in (least, digits))
    places = next(place for place in range(last, finest - 1, -1) if digits == digits.quantize(place_of(place)))
    return digits.quantize(place_of(places))
