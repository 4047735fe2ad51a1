"""Prints how fast saltbridge is against a floor or a rival in the same run: ``python tests/benchmarks [NAME …]``.

Nothing here fails a test: machines differ, ratios on one machine don't. Times are processor time unless told otherwise. Aims
are those the project set itself.
"""

from __future__ import annotations

import os
import sys

import derive
import papers
import start
import variants
from measure import show

BENCHMARKS = {
    "variants": variants.ratios,  # first: the memory that the others take would hide what it takes
    "derive": derive.ratios,
    "papers": papers.ratios,
    "start": start.ratios,
}


def main(names: list[str]) -> int:
    """Run the named benchmarks, or all; gives 2 for an unknown name."""
    unknown = [name for name in names if name not in BENCHMARKS]
    if unknown:
        print(f"No benchmark {', '.join(unknown)}; there are {', '.join(BENCHMARKS)}.")
        return 2
    for name in names or BENCHMARKS:
        print(f"\n{name}: {sys.modules[name].__doc__.splitlines()[0]}", flush=True)
        for ratio in BENCHMARKS[name]():
            show(ratio)
        print(f"  load of the machine: {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors", flush=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
