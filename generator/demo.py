"""Turns the shipped bank into a practice site and papers: the README's first command."""

from __future__ import annotations

from fresh import ROOT, environment, run, say


def main() -> int:
    """Install what is missing, publish the shipped bank into ``out/`` and say where to look; gives the exit code."""
    programs = environment()
    say("Publishing the shipped bank into out/ …")
    code = run([programs / "saltbridge", "publish", ROOT / "question_templates", "--to", ROOT / "out"])
    if code == 0:
        say(f"\nOpen {ROOT / 'out' / 'site' / 'index.html'} in a browser; the papers are in {ROOT / 'out' / 'teacher'}.")
    return code


if __name__ == "__main__":
    raise SystemExit(main())
