"""How many values from outside the project stand behind the relations: each source value counts once, weak ones not at all."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

import yaml
from checks.outside import HERE

from saltbridge.catalogue.catalogue import catalogue

LEAST = 300
WEAK = re.compile(r"arithmetic|definition|from memory|common practice|worked out|hand-checked|Kirchhoff", re.IGNORECASE)
FAMILIES = {
    "balanced_equations", "batteries_cases", "bench_cases", "concentration_cases", "corrosion_cases", "electrolysis_cases",
    "equilibrium_cases", "galvanic_cases", "nernst_cases", "redox_cases", "standards_cases", "worked_examples",
}  # fmt: skip


def _entries(node: Any) -> Iterator[dict[str, Any]]:
    """Every mapping of a file that names a source of its own (Nernst cases name theirs at the head: chempy)."""
    if isinstance(node, dict):
        if isinstance(node.get("source"), str) or "exact" in node:
            yield node
        else:
            for each in node.values():
                yield from _entries(each)
    elif isinstance(node, list):
        for each in node:
            yield from _entries(each)


def _key(entry: dict[str, Any]) -> str:
    """One source value: the same number of the same source counts once, whatever its name and note."""
    return json.dumps(
        {name: value for name, value in sorted(entry.items()) if name not in {"id", "note", "what", "within", "room"}},
        default=str,
    )


def _of_files() -> Iterator[tuple[str, str]]:
    for path in sorted(HERE.glob("*.yaml")):
        data = yaml.safe_load(path.read_text(encoding="utf-8"))
        for entry in _entries(data):
            if not WEAK.search(str(entry.get("source", ""))):
                yield path.stem, _key(entry)


def _of_relations() -> Iterator[tuple[str, str]]:
    for relation in catalogue().relations.values():
        for case in relation.cases:
            if not WEAK.search(case.source):
                yield "relations", json.dumps([sorted(case.values.items()), case.source])


def test_at_least_three_hundred_values_come_from_outside_and_every_family_has_some(capsys):
    counted = {key: family for family, key in (*_of_files(), *_of_relations())}
    tally = Counter(counted.values())
    with capsys.disabled():
        print(f"\n{len(counted)} outside values: " + ", ".join(f"{family} {count}" for family, count in sorted(tally.items())))
    assert set(tally) >= FAMILIES
    assert len(counted) >= LEAST
