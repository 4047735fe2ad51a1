"""Units of the trade stay: a relation whose units agree as given is worked in them, decided once when planned.

Milliamperes times hours are milliampere hours, cubic centimetres cancel, a mean of titres stays in cubic centimetres and a sum of
kilojoules in kilojoules; a conversion there and back would stand in no teacher's working. Where the units do not cancel (amperes
times minutes) the conversion stays, and with it its common error.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from saltbridge import units
from saltbridge.algebra.expression import Bin, Fn, Neg, Num, Ref, Tree, names, substitute
from saltbridge.catalogue.catalogue import Quantity
from saltbridge.graph.laws import Conversion, Instance, given_name, quantity_of
from saltbridge.graph.planner import Step

_KEPT_AS_THEY_ARE = frozenset({"quotient", "molar-mass"})  # pure numbers, and masses of the sheet
_OF_PURE_NUMBERS = frozenset({"ln", "lg", "exp", "exp10"})


@dataclass(frozen=True, slots=True)
class _AsGiven:
    """A node's value in another unit, on which it waits for a conversion."""

    node: str
    unit: str
    coherent: str

    @property
    def factor(self) -> float:
        return units.factor(self.unit, self.coherent)


@dataclass(slots=True)
class _Rewriter:
    quantities: Mapping[str, Quantity]
    wanted: Mapping[str, Sequence[str]]
    """For each node the units in which its result is asked for or used."""
    given: dict[str, _AsGiven] = field(default_factory=dict)
    done: set[str] = field(default_factory=set)

    def rewritten(self, step: Step) -> Iterator[Step]:
        """The step in the units given, with a conversion after it where others need it in the coherent one."""
        law = step.law
        if step.node in self.done:
            return
        if isinstance(law, Conversion) and not law.offset and ":" not in step.node:
            self.given[step.node] = _AsGiven(law.source, law.unit_from, law.unit_to)
        if isinstance(law, Instance) and step.tree is not None and not law.power and law.law not in _KEPT_AS_THEY_ARE:
            for leaves in self._groups(step.tree):
                quantity = quantity_of(step.node, self.quantities)
                unit = self._unit(step, leaves, quantity) if quantity else None
                if quantity and unit is not None:
                    yield from self._in_unit(step, law, leaves, unit, quantity.unit)
                    return
            prefixed = self._with_a_prefix(step)
            if prefixed is not None:
                unit, coherent, leaves, conversion = prefixed
                yield conversion
                yield from self._in_unit(step, law, leaves, unit, coherent)
                return
        yield step

    def _with_a_prefix(self, step: Step) -> tuple[str, str, tuple[_Leaf, ...], Step] | None:
        """How the unit wanted comes out where one leaf takes another prefix: mA h as A h, so that V × A h = W h; grams as kilograms.

        Gives that unit and the coherent one, the leaves, and the conversion of the one; ``None`` where that does not help.
        """
        quantity = quantity_of(step.node, self.quantities)
        if quantity is None or step.tree is None or ":" in step.node:
            return None
        used = tuple(dict.fromkeys(names(step.tree)))
        waiting = {name: self.given[name] for name in used if name in self.given}
        for unit in self.wanted.get(step.node, ()) if waiting else ():
            for name in used:
                for other in self._other_prefixes(name, unit):
                    changed = waiting | {name: other}
                    scale = scale_of(step.tree, {each: leaf.factor for each, leaf in changed.items()})
                    if scale is not None and math.isclose(scale, units.factor(unit, quantity.unit)):
                        before = waiting[name] if name in waiting else _AsGiven(name, other.coherent, other.coherent)
                        factor = units.factor(before.unit, other.unit)
                        law = Conversion(other.node, before.node, before.unit, other.unit, factor)
                        return unit, quantity.unit, tuple(changed.items()), Step(other.node, "convert", (before.node,), law)
        return None

    def _other_prefixes(self, name: str, wanted: str) -> Iterator[_AsGiven]:
        """The leaf without its prefix, or in the unit under the stroke of the unit wanted."""
        quantity = quantity_of(name, self.quantities)
        if quantity is None or not quantity.unit:
            return
        now = self.given[name].unit if name in self.given else quantity.unit
        for unit in units.known_units(quantity.unit):
            if (unit != now and now.endswith(unit)) or (wanted.endswith(f"/{unit}") and unit.endswith(now) and unit != now):
                yield _AsGiven(given_name(name, unit), unit, quantity.unit)

    def _groups(self, tree: Tree) -> Iterator[tuple[_Leaf, ...]]:
        """The leaves that wait for a conversion: all of them, then those of one unit each."""
        waiting = tuple((name, self.given[name]) for name in dict.fromkeys(names(tree)) if name in self.given)
        if waiting:
            yield waiting
        several = dict.fromkeys(each.unit for _, each in waiting)
        if len(several) > 1:
            yield from (tuple(leaf for leaf in waiting if leaf[1].unit == unit) for unit in several)

    def _unit(self, step: Step, leaves: tuple[_Leaf, ...], quantity: Quantity) -> str | None:
        """The unit that the result then has; ``None`` where the units do not agree."""
        scale = None if step.tree is None else scale_of(step.tree, {name: each.factor for name, each in leaves})
        if scale is None or ":" in step.node:
            return None
        for unit in self.wanted.get(step.node, ()):
            if math.isclose(scale, units.factor(unit, quantity.unit)):
                return unit
        if math.isclose(scale, 1.0):
            return quantity.unit
        first = leaves[0][1]
        alike = first.coherent == quantity.unit and all(each.unit == first.unit for _, each in leaves)
        return first.unit if alike and math.isclose(scale, first.factor) else None

    def _in_unit(self, step: Step, law: Instance, leaves: tuple[_Leaf, ...], unit: str, coherent: str) -> Iterator[Step]:
        node = step.node if unit == coherent else given_name(step.node, unit)
        renamed = {name: each.node for name, each in leaves} | {step.node: node}
        yield _renamed(step, law, renamed)
        if node != step.node:
            self.done.add(node)
            self.given[step.node] = _AsGiven(node, unit, coherent)
            back = Conversion(step.node, node, unit, coherent, units.factor(unit, coherent))
            yield Step(step.node, "convert", (node,), back)


_Leaf = tuple[str, _AsGiven]


def in_trade_units(steps: Sequence[Step], quantities: Mapping[str, Quantity]) -> tuple[Step, ...]:
    """The steps with each relation worked in the units given wherever they agree."""
    wanted: dict[str, list[str]] = {}
    for step in steps:
        if isinstance(step.law, Conversion) and not step.law.offset and ":" in step.node and ":" not in step.law.source:
            wanted.setdefault(step.law.source, []).append(step.law.unit_to)
    rewriter = _Rewriter(quantities, wanted)
    return tuple(each for step in steps for each in rewriter.rewritten(step))


def _renamed(step: Step, law: Instance, to: Mapping[str, str]) -> Step:
    """The same step between other nodes; its relation's symbols stay bound, so that common errors find them."""
    put = {name: Ref(node) for name, node in to.items()}
    bound = dict(law.binding)
    for name, node in to.items():
        symbol = next((symbol for symbol, place in bound.items() if place == name), name)
        bound[symbol] = node
    changed = replace(
        law,
        subject=to.get(law.subject, law.subject),
        tree=substitute(law.tree, put),
        binding=tuple(sorted(bound.items())),
        forms=tuple((form, substitute(tree, put)) for form, tree in law.forms),
    )
    tree = None if step.tree is None else substitute(step.tree, put)
    return Step(to[step.node], step.how, tuple(to.get(name, name) for name in step.inputs), changed, tree)


def scale_of(tree: Tree, factors: Mapping[str, float]) -> float | None:
    """How many times larger the tree's value is where its leaves are taken in coherent units; ``None`` where no one number tells.

    A tree of 60 for minutes in place of seconds: I·t. Of 1: V₁/V₂ with both in cubic centimetres.
    """
    match tree:
        case Num():
            return 1.0
        case Ref(name):
            return factors.get(name, 1.0)
        case Neg(body):
            return scale_of(body, factors)
        case Bin("+" | "-", left, right):
            return _common([scale_of(left, factors), scale_of(right, factors)])
        case Bin(op, left, right):
            return _of_product(op, tree, scale_of(left, factors), scale_of(right, factors))
        case Fn("sqrt", args):
            inner = scale_of(args[0], factors)
            return None if inner is None else math.sqrt(inner)
        case Fn(name, args):
            inner = _common([scale_of(each, factors) for each in args])
            return inner if name not in _OF_PURE_NUMBERS or inner == 1.0 else None


def _of_product(op: str, tree: Bin, left: float | None, right: float | None) -> float | None:
    if left is None or right is None:
        return None
    if op == "^":
        return left**tree.right.value if isinstance(tree.right, Num) else 1.0 if left == right == 1.0 else None
    return left * right if op == "*" else left / right


def _common(scales: Sequence[float | None]) -> float | None:
    first = scales[0]
    alike = first is not None and all(each is not None and math.isclose(each, first) for each in scales)
    return first if alike else None
