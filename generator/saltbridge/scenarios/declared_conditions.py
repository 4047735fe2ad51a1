"""Conditions that a scenario from data must keep, whether it is drawn or told."""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from saltbridge.algebra.expression import evaluate
from saltbridge.catalogue.scenario_entries import terms_of
from saltbridge.catalogue.scenario_records import Comparison, Condition, Sign
from saltbridge.faults import fault
from saltbridge.graph.laws import Conversion, Situation

_SIGNS: Mapping[Sign, Callable[[float, float], bool]] = {
    "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge, "=": operator.eq,
}  # fmt: skip


def require(condition: Condition, situation: Situation, owners: Sequence[str]) -> None:
    """Raise ``Faulty`` under the condition's code where it is known to fail; of what is not told nothing is said.

    ``owners`` are those numbered after its stem, of which exactly one must keep it.
    """
    values = _values(situation)
    if not condition.one_of:
        if _known(condition.holds, values) and not _holds(condition.holds, values):
            raise fault(condition.code, expected=condition.expected, found="another draw")
        return
    keeping = [owner for owner in owners if _holds(condition.holds, values | _as(condition.one_of, owner, values))]
    if owners and len(keeping) != 1:
        names = (situation.labels.get(f"{owner}.symbol") or situation.labels.get(f"{owner}.couple") for owner in keeping)
        found = ", ".join(name.plain for name in names if name is not None)
        raise fault(condition.code, expected=condition.expected, found=found or "none")


def _values(situation: Situation) -> dict[str, float]:
    """Every number that is given, in the units in which relations hold, with __ for the point behind an owner."""
    found = {name.replace(".", "__"): each.value for name, each in situation.given.items() if isinstance(each.value, float)}
    for law in situation.laws:
        if isinstance(law, Conversion) and law.source.replace(".", "__") in found:
            found[law.node.replace(".", "__")] = found[law.source.replace(".", "__")] * law.factor + law.offset
    return found


def _as(stem: str, owner: str, values: Mapping[str, float]) -> dict[str, float]:
    """The values of one numbered owner under the stem's name."""
    return {f"{stem}__{name.partition('__')[2]}": each for name, each in values.items() if name.startswith(f"{owner}__")}


def _known(holds: Comparison, values: Mapping[str, float]) -> bool:
    return all(name.replace(".", "__") in values for name in terms_of(holds))


def _holds(holds: Comparison, values: Mapping[str, float]) -> bool:
    numbers = [evaluate(tree, values) for tree in holds.terms]
    return all(_SIGNS[sign](left, right) for sign, (left, right) in zip(holds.signs, pairwise(numbers), strict=True))
