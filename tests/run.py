"""Runs every check of the project and says where to look: the README's second command.

Arguments are handed to pytest, so ``python3 tests/run.py tests/checks`` tries one room.
"""

from __future__ import annotations

import shutil
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "generator"))

from fresh import ROOT, environment, run, say

BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def main(arguments: list[str]) -> int:
    """Install what is missing, run style, types and tests, and sum up; gives the exit code."""
    if not any(shutil.which(name) for name in BROWSERS):
        say("Chromium is missing and the pages are tried in it: on Debian, apt-get install chromium, then run this again.")
        return 1
    programs = environment("test")
    stages: dict[str, list[str | Path]] = {
        "style (ruff)": [programs / "ruff", "check", "generator", "tests"],
        "layout (ruff)": [programs / "ruff", "format", "--check", "generator", "tests"],
        "types (mypy)": [programs / "mypy"],
        "tests (pytest)": [programs / "python", "-m", "pytest", "-n", "auto", *arguments],
    }
    failed = []
    for number, (name, command) in enumerate(stages.items(), 1):
        say(f"\n[{number}/{len(stages)}] {name} …")
        start = time.monotonic()
        code = run(command)
        say(f"[{number}/{len(stages)}] {name}: {'failed' if code else 'good'} after {time.monotonic() - start:.0f} s")
        if code:
            failed.append(name)
    if failed:
        say(f"\nNot good: {', '.join(failed)}. What was found stands above, under each heading.")
        return 1
    say(f"\nAll good. Benchmarks are apart: {programs.relative_to(ROOT) / 'python'} tests/benchmarks")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
