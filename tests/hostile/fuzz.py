"""Fuzzing by hand: ``python tests/hostile/fuzz.py --count 100000``; a case that ends in anything but a page or faults is a crash.

Prints how many cases were read, drawn and composed to a page, how many were refused, and for each crash the number that makes it
again (``--only NUMBER``).
"""

from __future__ import annotations

import argparse
import signal
import sys
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parent))

from fuzz_moves import raw_case
from hostile_samples import page_of

from saltbridge.faults import Faulty

GUARD = 60  # seconds for one case
BATCH = 250


class Ending(NamedTuple):
    """How a case ended: ``page``, ``refused`` with the first fault's code, or ``crash`` with its last lines."""

    number: int
    kind: str
    told: str


class Hang(BaseException):
    """A case that took longer than the guard."""


def run(number: int) -> Ending:
    """The case of a number, the whole way to its page."""
    try:
        page = page_of(raw_case(number))
        page.encode("utf-8")
    except Faulty as trouble:
        if not trouble.faults or not all(each.code and each.expected and each.found for each in trouble.faults):
            return Ending(number, "crash", "a fault without words")
        return Ending(number, "refused", trouble.faults[0].code)
    except (Exception, Hang) as error:  # noqa: BLE001 - whatever comes out is what is looked for
        place = traceback.extract_tb(error.__traceback__)[-3:]
        return Ending(
            number,
            "crash",
            f"{type(error).__name__}: {str(error)[:120]} at "
            + " < ".join(f"{Path(at.filename).name}:{at.lineno}" for at in place[::-1]),
        )
    return Ending(number, "page", "")


def batch(numbers: range) -> list[Ending]:
    """Several cases in one process, each under the guard."""

    def stop(_signal: int, _frame: object) -> None:
        raise Hang(f"more than {GUARD} s")

    signal.signal(signal.SIGALRM, stop)
    endings = []
    for number in numbers:
        signal.alarm(GUARD)
        endings.append(run(number))
        signal.alarm(0)
    return endings


def endings(first: int, count: int, workers: int) -> Iterator[Ending]:
    """All cases from ``first`` on."""
    batches = [range(start, min(start + BATCH, first + count)) for start in range(first, first + count, BATCH)]
    with ProcessPoolExecutor(workers) as pool:
        for made in pool.map(batch, batches):
            yield from made


def main() -> int:
    """Run, print the counts and the crashes; 1 where there is any."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--count", type=int, default=100_000)
    options.add_argument("--first", type=int, default=0)
    options.add_argument("--workers", type=int, default=2)
    options.add_argument("--only", type=int)
    told = options.parse_args()
    if told.only is not None:
        sys.stdout.buffer.write(raw_case(told.only))
        print(run(told.only))
        return 0
    start = time.monotonic()
    kinds: Counter[str] = Counter()
    codes: Counter[str] = Counter()
    crashes: Counter[str] = Counter()
    for ending in endings(told.first, told.count, told.workers):
        kinds[ending.kind] += 1
        codes[ending.told] += ending.kind == "refused"
        if ending.kind == "crash":
            crashes[ending.told] += 1
            if crashes[ending.told] == 1:
                print(f"crash: --only {ending.number}: {ending.told}", flush=True)
    seconds = time.monotonic() - start
    print(f"{told.count} cases in {seconds:.0f} s: {kinds['page']} pages, {kinds['refused']} refused, {kinds['crash']} crashes")
    print("refused as: " + ", ".join(f"{code} {number}" for code, number in codes.most_common()))
    for crash, number in crashes.most_common():
        print(f"{number} × {crash}")
    return 1 if crashes else 0


if __name__ == "__main__":
    sys.exit(main())
