"""What a set asks of each template, as the teacher reads it before anything is written."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from saltbridge.deliver.homework.pools import EARLIER, SITE
from saltbridge.draw.allocation import FACTOR, Candidate, Likeness, Pool, likeness
from saltbridge.faults import Fault


@dataclass(frozen=True, slots=True)
class Load:
    """One question: keys met, how many students need one, what came of it, and how alike the versions are."""

    number: int
    name: str
    templates: tuple[str, ...]
    distinct: int
    on_site: int
    earlier: int
    needed: int
    given: int
    shared_by: int
    known: int
    likeness: Likeness


def load_of(number: int, name: str, pool: Pool, given: Sequence[Candidate]) -> Load:
    """The load of a question whose versions are ``given`` to the class, one a student."""
    keys = Counter(each.key for each in given)
    known = sum(each.key in pool.known for each in given)
    return Load(
        number, name, tuple(sorted({each.template for each in given})), pool.distinct, pool.known_as(SITE), pool.known_as(EARLIER),
        len(given), len(keys), max(keys.values(), default=0), known, likeness(given),
    )  # fmt: skip


HEADING = ("", "question", "distinct keys", "on the site", "set before", "needed", "one key for", "versions match")


def table(loads: Sequence[Load]) -> str:
    """The table of all questions, as plain text."""
    rows = [HEADING, *(_row(load) for load in loads)]
    widths = [max(len(row[at]) for row in rows) for at in range(len(HEADING))]
    return "\n".join(
        "  ".join(cell.ljust(wide) if at in {1, 7} else cell.rjust(wide) for at, (cell, wide) in enumerate(zip(row, widths, strict=True))).rstrip()
        for row in rows
    )  # fmt: skip


def _row(load: Load) -> tuple[str, ...]:
    shared = "1 student" if load.shared_by <= 1 else f"up to {load.shared_by}"
    name = load.name if len(load.templates) < 2 else f"{load.name} ({', '.join(load.templates)})"
    counts = (load.distinct, load.on_site, load.earlier, load.needed)
    return (str(load.number), name, *map(str, counts), shared, _match(load.likeness))


def _match(found: Likeness) -> str:
    differing = [
        name for name, alike in (("steps", found.steps), ("signs", found.signs), ("charges", found.charges)) if not alike
    ]
    factor = f"numbers within a factor of {found.factor:.2g}" if found.factor < 1000 else "numbers of many sizes"
    return f"{factor}; {', '.join(differing)} differ" if differing else f"{factor}; steps, signs, charges alike"


def doubts(loads: Sequence[Load]) -> Iterator[Fault]:
    """Where it is not fair: keys that are shared, keys that are known, versions that do not match."""
    for load in loads:
        key = f"question {load.number} ({load.name})"
        if load.known:
            found = f"{load.known} of {load.needed}: all of its keys stand on the site or in an earlier set"
            hint = "Take another question, or give the template more values to draw."
            yield Fault("known-keys", "keys that nobody has seen", found, hint, key=key)
        if load.shared_by > 1:
            found = f"{load.given} for {load.needed} students: up to {load.shared_by} share one"
            hint = "Give the template more values to draw, or set it for part of the class."
            yield Fault("shared-keys", "a key for each student", found, hint, key=key)
        if not (load.likeness.steps and load.likeness.signs and load.likeness.charges and load.likeness.factor <= FACTOR * 1.001):
            hint = "Narrow what the template draws, or take fewer students a version."
            yield Fault("versions-differ", "versions that match for all", _match(load.likeness), hint, key=key)
