"""How many relations and symbols of the data are still named in code: each ties an addition to Python. The numbers may only fall."""

from __future__ import annotations

import ast
from pathlib import Path

from saltbridge.catalogue.catalogue import catalogue

CODE = Path(__file__).resolve().parents[2] / "generator" / "saltbridge"
APART = "check"
"""The independent route: plain formulas written apart, which must name what they work out."""
MOST_RELATIONS, MOST_SYMBOLS = 38, 194


def _quoted() -> set[str]:
    """Every text in the code that is no docstring, and its last part where it is dotted (``left.E0``)."""
    found: set[str] = set()
    for path in CODE.rglob("*.py"):
        if APART in path.parts:
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found |= {node.value, node.value.rpartition(".")[2]}
    return found


def test_no_more_relations_and_symbols_are_named_in_code_than_before():
    known, quoted = catalogue(), _quoted()
    relations, symbols = (
        sorted(quoted & known.relations.keys()),
        sorted(name for name, each in known.quantities.items() if name in quoted and not each.word),
    )
    print(f"{len(relations)} of {len(known.relations)} relations: {', '.join(relations)}")
    numbers = [name for name, each in known.quantities.items() if not each.word]
    print(f"{len(symbols)} of {len(numbers)} symbols: {', '.join(symbols)}")
    assert len(relations) <= MOST_RELATIONS
    assert len(symbols) <= MOST_SYMBOLS
