"""Timing for the benchmarks: the best of several rounds, told as a ratio to something else in the same run."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from time import perf_counter


@dataclass(frozen=True)
class Ratio:
    """``ours`` against ``other``, both in seconds for one piece of work; ``aim`` in words."""

    work: str
    ours: float
    rival: str
    other: float
    aim: str = ""


def seconds(call: Callable[[], object], rounds: int = 5, at_least: float = 0.1) -> float:
    """Seconds for one call: each round repeats it for ``at_least`` seconds, and the quickest round counts."""
    call()
    repeats, spent = 1, 0.0
    while spent < at_least:
        spent = _round(call, repeats)
        repeats = max(repeats + 1, int(repeats * at_least / max(spent, 1e-9) * 1.2)) if spent < at_least else repeats
    return min([spent, *(_round(call, repeats) for _ in range(rounds - 1))]) / repeats


def _round(call: Callable[[], object], repeats: int) -> float:
    begin = perf_counter()
    for _ in range(repeats):
        call()
    return perf_counter() - begin


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
