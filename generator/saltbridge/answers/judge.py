"""Judges one answer by its key. The script's ``judge`` is its twin: same key, same answer, same verdict.

Order of judging: right, right but (unit, figures, rounding), another unit or prefix, follows from an earlier answer, a known
slip, a slip on top of an earlier answer, not yet.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from saltbridge.answers.following import own_answers, ways
from saltbridge.answers.judge_equation import judge_equation
from saltbridge.answers.judge_number import judge_number
from saltbridge.answers.run import plain, run
from saltbridge.answers.unit_words import Table, unit_table
from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]
Earlier = Mapping[str, Any]


def judge(key: Key, typed: object, earlier: Earlier | None = None, units: Table | None = None) -> Verdict:
    """Judge what was typed or chosen by a part's key.

    ``typed`` is a text for numbers and equations, a list of option numbers (from 0) for choices and orders. ``earlier``
    holds the student's own values by part label (``Verdict.own``), for the parts this one can follow from. ``units`` is
    the table of units in the page's language (``unit_table``), English where it is left out.
    """
    if key["kind"] == "number":
        return judge_number(key, typed, earlier or {}, units or unit_table())
    return _JUDGES[key["kind"]](key, typed, earlier or {})


def merge(shape: Key, variant: Key, graph: Sequence[Key] = (), given: Key | None = None) -> dict[str, Any]:
    """A part's key: the share of its shape and that of its variant, and the question's graph and given where it can follow.

    Both shares may hold ``slips``: the shape says what each slip puts into the graph, the variant where its value lies; the
    latter becomes ``slip_ranges``.
    """
    key = {**shape, **variant}
    if key.get("earlier"):
        key |= {"graph": graph, "given": given or {}}
    if isinstance(shape.get("slips"), list | tuple):
        key["slips"] = shape["slips"]
        key["slip_ranges"] = variant.get("slips", {})
    return key


def _picked(typed: object, most: int) -> tuple[int, ...] | None:
    """Option numbers as given, None where something else came."""
    if not isinstance(typed, Sequence) or isinstance(typed, str) or not 0 < len(typed) <= most:
        return None
    numbers = tuple(number for number in typed if isinstance(number, int) and not isinstance(number, bool) and number >= 0)
    return numbers if len(set(numbers)) == len(typed) else None


def _choice(key: Key, typed: object, earlier: Earlier) -> Verdict:
    picked = _picked(typed, 100)
    if picked is None:
        return Verdict("unread", ("empty",))
    values = key.get("values") or []
    single = picked[0] if len(picked) == 1 and len(key["right"]) == 1 else None
    own = plain(values[single]) if single is not None and single < len(values) else None
    if set(picked) == set(key["right"]):
        return Verdict("right", own=own)
    graph, given = key.get("graph", ()), key.get("given", {})
    for way in ways(own_answers(key, earlier)) if own is not None else ():
        if way.wrong and run(graph, given, way.put, None, key["node"]).get(key["node"]) == own:
            return Verdict("follows", own=own, parts=way.wrong[:1])
    found = _found(key, ",".join(str(number) for number in sorted(picked)))
    if found:
        return Verdict("slip", slips=found, own=own)
    some = len(key["right"]) > 1 and set(picked) & set(key["right"])
    return Verdict("not-yet", ("some-right",) if some else (), own=own)


def _found(key: Key, name: str) -> tuple[str, ...]:
    return tuple(key.get("slips", {}).get(name, ()))


def _order(key: Key, typed: object, _earlier: Earlier) -> Verdict:
    right = list(key["right"])
    picked = _picked(typed, len(right))
    if picked is None or sorted(picked) != sorted(right):
        return Verdict("unread", ("empty",))
    order = list(picked)
    if order == right:
        return Verdict("right")
    found = _found(key, ",".join(str(number) for number in order))
    if found:
        return Verdict("slip", slips=found)
    if order == right[::-1]:
        return Verdict("not-yet", ("other-way-round",))
    differing = [place for place, (mine, theirs) in enumerate(zip(order, right, strict=True)) if mine != theirs]
    neighbours = len(differing) == 2 and differing[1] - differing[0] == 1
    return Verdict("not-yet", ("two-neighbours",) if neighbours else ())


_JUDGES: Mapping[str, Callable[[Key, object, Earlier], Verdict]] = {
    "choice": _choice,
    "order": _order,
    "equation": judge_equation,
}
