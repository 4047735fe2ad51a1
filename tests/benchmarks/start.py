"""The time of ``saltbridge --help`` and of a whole ``saltbridge work``, against a Python that does nothing.

Measured in processes of their own, as a person at a terminal meets it.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator

from measure import Ratio, children_time, seconds

COMMAND = "import sys; sys.argv = ['saltbridge', *{arguments!r}]; from saltbridge.cli import main; main()"
CELL = "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)"


def ratios() -> Iterator[Ratio]:
    """Commands against an empty program."""
    empty = _spent("pass")
    for aim, arguments in (("≤ 0.15 s", ["--help"]), ("≤ 1 s", ["work", CELL, "--find", "E_cell"])):
        spent = _spent(COMMAND.format(arguments=arguments))
        yield Ratio(f"saltbridge {arguments[0]}", spent, "an empty Python program", empty, aim)


def _spent(script: str) -> float:
    return seconds(lambda: _python(script), rounds=5, clock=children_time)


def _python(script: str) -> None:
    subprocess.run([sys.executable, "-c", script], check=True, stdout=subprocess.DEVNULL)
