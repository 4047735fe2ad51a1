"""Judges what was chosen or put in order: right, what follows from earlier answers, known errors and those on top of an own answer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from saltbridge.answers.following import Own, own_answers, settled, ways
from saltbridge.answers.run import Value, plain, run
from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]
BETWEEN = "<"
"""Stands between the things in the value of an order, which names them from the lowest to the highest."""


def judge_choice(key: Key, typed: object, earlier: Key) -> Verdict:
    """Judge option numbers; ``earlier`` are the student's own values by part label."""
    picked = picked_numbers(typed, 100)
    if picked is None:
        return Verdict("unread", ("empty",))
    values = key.get("values") or []
    single = picked[0] if len(picked) == 1 and len(key["right"]) == 1 else None
    own = plain(values[single]) if single is not None and single < len(values) else None
    if set(picked) == set(key["right"]):
        return Verdict("right", own=own)
    some = len(key["right"]) > 1 and set(picked) & set(key["right"])
    found = explained(key, ",".join(str(number) for number in sorted(picked)), own, earlier)
    return found or Verdict("not-yet", ("some-right",) if some else _told_of(key, picked), own=own)


def _told_of(key: Key, picked: Sequence[int]) -> tuple[str, ...]:
    """What the key says of a wrong option (``whys``): a step of a working that is right, or that follows from a wrong one."""
    told = key.get("whys", {}).get(str(picked[0])) if len(picked) == 1 else None
    return (told,) if told else ()


def judge_order(key: Key, typed: object, earlier: Key) -> Verdict:
    """Judge item numbers in the order that they were put in."""
    right = list(key["right"])
    picked = picked_numbers(typed, len(right))
    if picked is None or sorted(picked) != sorted(right):
        return Verdict("unread", ("empty",))
    own = _order_of(key, picked)
    if list(picked) == right:
        return Verdict("right", own=own)
    found = explained(key, ",".join(str(number) for number in picked), own, earlier)
    return found or Verdict("not-yet", tuple(_out_of_order(picked, right)), own=own)


def picked_numbers(typed: object, most: int) -> tuple[int, ...] | None:
    """Option numbers as given, None where something else came."""
    if not isinstance(typed, Sequence) or isinstance(typed, str) or not 0 < len(typed) <= most:
        return None
    numbers = tuple(number for number in typed if isinstance(number, int) and not isinstance(number, bool) and number >= 0)
    return numbers if len(set(numbers)) == len(typed) else None


def _order_of(key: Key, picked: Sequence[int]) -> str | None:
    """The value of an order: its things from the lowest to the highest."""
    things = [key["values"][number] for number in picked] if key.get("values") else []
    return BETWEEN.join(things[::-1] if key.get("falling") else things) or None


def _out_of_order(picked: Sequence[int], right: Sequence[int]) -> Iterator[str]:
    differing = [place for place, (mine, theirs) in enumerate(zip(picked, right, strict=True)) if mine != theirs]
    if list(picked) == list(right)[::-1]:
        yield "other-way-round"
    elif len(differing) == 2 and differing[1] - differing[0] == 1:
        yield "two-neighbours"


# ------------------------------------------------------------------ what explains it


def explained(key: Key, name: str, value: Value, earlier: Key) -> Verdict | None:
    """What an answer follows from, or which error leads to it: from what is right, or from the student's own earlier answers."""
    own = own_answers(key, earlier) if value is not None else []
    for way in ways(own):
        if way.wrong and _leads_to(key, way.put) == value:
            return Verdict("follows", own=value, parts=way.wrong[:1])
    known = [error for error in key.get("slips", {}).get(name, ()) if not _is_settled(key, own, error)]
    if known:
        return Verdict("slip", slips=tuple(known), own=value)
    for way in ways(own):
        found = [error["id"] for error in _possible(key, own, way.put) if _leads_to(key, {**way.put, **error["put"]}) == value]
        if found and way.wrong:
            return Verdict("slip-on-own", slips=tuple(dict.fromkeys(found)), own=value, parts=way.wrong[:1])
    return None


def _leads_to(key: Key, put: Mapping[str, Any]) -> Value:
    return run(key.get("graph", ()), key.get("given", {}), put, None, key["node"]).get(key["node"])


def _possible(key: Key, own: Sequence[Own], put: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """The errors that can sit on a way: not at a part that the student has answered, nor against what was right there."""
    for error in key.get("errors", ()):
        if error["put"] and put.keys().isdisjoint(error["put"]) and not settled(key, own, error["put"]):
            yield error


def _is_settled(key: Key, own: Sequence[Own], error: str) -> bool:
    """Whether an error can't have happened, as wherever it may it would have spoilt what the student got right."""
    places = [each for each in key.get("errors", ()) if each["id"] == error]
    return bool(places) and all(settled(key, own, each["put"]) for each in places)
