"""Turns the shipped bank into a practice site and papers, and sets homework for a class of invented names: the README's first command."""

from __future__ import annotations

from pathlib import Path

from fresh import ROOT, environment, run, say

CLASS = ROOT / "out-class"


def _going_on() -> list[str | Path]:
    """What a second run says of the set that is there: go on with its record."""
    record = CLASS / "record.zip"
    return ["--record", record] if record.exists() else []


def main() -> int:
    """Install what is missing, publish the shipped bank into ``out/``, set a class into ``out-class/``, say where to look; gives the exit code."""
    programs = environment()
    say("Publishing the shipped bank into out/ …")
    code = run([programs / "saltbridge", "publish", ROOT / "question_templates", "--to", ROOT / "out"])
    if code == 0:
        say("\nSetting homework for the class of data/demo into out-class/ …")
        code = run([programs / "saltbridge", "set", ROOT / "data" / "demo" / "week-3.yaml", "--to", CLASS, *_going_on()])
    if code == 0:
        say(f"\nOpen {ROOT / 'out' / 'site' / 'index.html'} in a browser; the papers are in {ROOT / 'out' / 'teacher'}.")
        say(f"The class has its papers, memorandum and marking grid in {CLASS}.")
    return code


if __name__ == "__main__":
    raise SystemExit(main())
