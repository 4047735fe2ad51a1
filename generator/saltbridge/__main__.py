"""Starts the command line: ``python -m saltbridge``, which also works where a school blocks other programs."""

from __future__ import annotations

from saltbridge.cli import main

if __name__ == "__main__":
    main(prog_name="saltbridge")
