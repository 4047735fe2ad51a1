"""The benchmarks are programs that nobody runs daily: what they compare is looked at here, how fast it is never."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest


@pytest.fixture
def derive(monkeypatch):
    monkeypatch.syspath_prepend(str(Path(__file__).resolve().parent / "benchmarks"))
    import derive  # noqa: PLC0415 - a program beside the tests, found by the path above

    yield derive
    sys.modules.pop("derive")


def test_the_derivation_and_its_rivals_come_to_one_value(derive):
    """The first ratio is given only where the derivation and plain floats agree; SymPy's value is that of the plain floats too."""
    first = next(iter(derive.ratios()))
    assert first.work == derive.WORK
    assert derive.by_sympy() == pytest.approx(derive.plain(-0.762, 0.34, 0.1, 1.0, 2, 8.314, 298.15, 96485), rel=1e-12)
