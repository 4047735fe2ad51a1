"""Marking policies: data that puts mark points on the lines of a working."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import yaml

from saltbridge.faults import fault
from saltbridge.graph.walk import WalkStep
from saltbridge.home import shipped

NOT_CARRIED = ("between parts", "none")
"""Rules of `carry` by which an error costs what follows it in its calculation too."""


@dataclass(frozen=True, slots=True)
class Policy:
    """One policy: marks by kind of line; ``most`` is what a part may come to by itself, ``numbered`` whether its marks carry numbers.

    ``rules`` are the words of ``data/policy_rules.yaml`` by their keys; ``says`` the sentences at the head of a memorandum.
    """

    id: str
    title: str
    says: tuple[str, ...]
    relation: Mapping[str, int]
    lines: Mapping[str, int]
    choose: int
    order: str
    equation: int
    reasoned: Mapping[str, int]
    several: Mapping[str, int]
    most: int
    numbered: bool
    rules: Mapping[str, str]
    source: str


@cache
def policies() -> Mapping[str, Policy]:
    """All shipped policies by name."""
    data = _table("policies.yaml")
    return {name: _policy(name, body) for name, body in data.items()}


@cache
def _table(file: str) -> Mapping[str, Any]:
    data: Mapping[str, Any] = yaml.safe_load((shipped("data") / file).read_text(encoding="utf-8"))
    return data


def policy(name: str) -> Policy:
    """The policy of that name; raises ``Faulty`` (code ``unknown-policy``) naming those there are."""
    found = policies().get(name)
    if found is None:
        raise fault("unknown-policy", expected="one of " + ", ".join(policies()), found=name)
    return found


def _policy(name: str, body: Mapping[str, Any]) -> Policy:
    lines = {kind: int(body[kind]) for kind in ("reading", "balance", "conversion", "choice")}
    rules: Mapping[str, str] = body["rules"]
    says = (body["say"], *(_table("policy_rules.yaml")[key][word] for key, word in rules.items()))
    return Policy(
        name, body["title"], says, dict(body["relation"]), lines, int(body["choose"]), str(body["order"]), int(body["equation"]),
        dict(body["reasoned"]), dict(body["several"]), int(body["most"]), bool(body.get("numbered")), rules, body["source"],
    )  # fmt: skip


def mark_points(found: Policy, steps: Sequence[WalkStep]) -> dict[tuple[int, int], int]:
    """Marks by (step, line); a calculation earns at least one, on its last line."""
    points: dict[tuple[int, int], int] = {}
    for number, step in enumerate(steps):
        for place, line in enumerate(step.lines):
            worth = found.relation.get(line.kind, 0) if step.how == "relation" else found.lines.get(line.kind, 0)
            if step.how == "relation" and line.kind == "formula" and len(step.lines) == 1:
                worth = found.relation.get("value", 0)
            if worth and not _is_per_cent(step):
                points[number, -1 if line.kind == "choice" else place] = worth
    if steps and not points:
        points[len(steps) - 1, len(steps[-1].lines) - 1] = 1
    return points


def marks_lost(
    found: Policy, steps: Sequence[WalkStep], points: Mapping[tuple[int, int], int], node: str, *, read: bool = False
) -> int:
    """The marks that an error at ``node`` costs: those of its step, or the next there are; where nothing carries, all from it on.

    ``read``: the formula is right and the error lies in what is put in.
    """
    at = next((number for number, step in enumerate(steps) if node in {step.node, *(line.node for line in step.lines)}), 0)
    from_line = (
        next((place for place, line in enumerate(steps[at].lines) if read and line.kind == "substitution"), -1) if steps else -1
    )
    after = {place: worth for place, worth in points.items() if place >= (at, from_line)}
    if found.rules["carry"] in NOT_CARRIED:
        return sum(after.values())
    own = sum(worth for (number, _), worth in after.items() if number == at)
    return own or (after[min(after)] if after else 0)


def _is_per_cent(step: WalkStep) -> bool:
    """Whether a step only writes a fraction as per cent or back, which no teacher marks."""
    return step.how == "convert" and (step.law.startswith("% ->") or step.law.endswith("-> %"))


def order_marks(found: Policy, items: int) -> int:
    """Marks of an ordering of so many things."""
    return max(1, items - 1) if found.order == "items - 1" else int(found.order)
