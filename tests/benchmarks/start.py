"""The time until ``saltbridge --help`` has printed, against a Python that does nothing.

Measured in processes of their own, as a person at a terminal meets it.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator

from measure import Ratio, seconds

HELP = "import sys; sys.argv = ['saltbridge', '--help']; from saltbridge.cli import main; main()"


def ratios() -> Iterator[Ratio]:
    """The help text against an empty program."""
    empty = seconds(lambda: _python("pass"), rounds=5)
    yield Ratio("saltbridge --help", seconds(lambda: _python(HELP), rounds=5), "an empty Python program", empty, "≤ 0.15 s")


def _python(script: str) -> None:
    subprocess.run([sys.executable, "-c", script], check=True, stdout=subprocess.DEVNULL)
