"""Progress of a long command on stderr: one moving line on a terminal, else a line a stage."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import click


@contextmanager
def stages(first: str) -> Iterator[Callable[[str], None]]:
    """A teller of stages."""
    if not sys.stderr.isatty() or os.environ.get("TERM") == "dumb":
        yield lambda stage: click.echo(stage, err=True)
        return
    from rich.console import Console  # noqa: PLC0415 - only for a terminal

    console = Console(stderr=True)
    with console.status(first) as status:
        yield lambda stage: status.update(stage.replace("[", r"\["))
