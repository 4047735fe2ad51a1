"""Timing for the benchmarks: the best of several rounds, told as a ratio to something else in the same run.

Processor time is measured, so that other work on the machine disturbs little; the load is printed beside it.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from time import process_time


@dataclass(frozen=True)
class Ratio:
    """``ours`` against ``other``, both in seconds for one piece of work; ``aim`` in words."""

    work: str
    ours: float
    rival: str
    other: float
    aim: str = ""


def children_time() -> float:
    """Processor seconds of all processes that this one has started and that have ended."""
    times = os.times()
    return times.children_user + times.children_system


def seconds(
    call: Callable[[], object], rounds: int = 5, at_least: float = 0.1, clock: Callable[[], float] = process_time
) -> float:
    """Processor seconds for one call: each round repeats it for ``at_least`` seconds, and the quickest round counts."""
    call()
    repeats, spent = 1, 0.0
    while spent < at_least:
        spent = _round(call, repeats, clock)
        repeats = max(repeats + 1, int(repeats * at_least / max(spent, 1e-9) * 1.2)) if spent < at_least else repeats
    return min([spent, *(_round(call, repeats, clock) for _ in range(rounds - 1))]) / repeats


def _round(call: Callable[[], object], repeats: int, clock: Callable[[], float]) -> float:
    begin = clock()
    for _ in range(repeats):
        call()
    return clock() - begin


def show(ratio: Ratio) -> None:
    """Print one ratio on two lines."""
    if ratio.ours >= ratio.other:
        verdict = f"{ratio.ours / ratio.other:.1f} × the time of {ratio.rival}"
    else:
        verdict = f"{ratio.other / ratio.ours:.1f} × as fast as {ratio.rival}"
    print(f"  {ratio.work}: {_time(ratio.ours)}, {1 / ratio.ours:,.0f} a second")
    print(f"    {verdict} ({_time(ratio.other)}){f'; aim: {ratio.aim}' if ratio.aim else ''}", flush=True)


def _time(value: float) -> str:
    for unit, size in (("s", 1.0), ("ms", 1e-3), ("µs", 1e-6)):
        if value >= size:
            return f"{value / size:.3g} {unit}"
    return f"{value * 1e9:.3g} ns"
