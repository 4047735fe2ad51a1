"""``saltbridge publish``: a bank becomes a practice site and papers."""

from __future__ import annotations

from pathlib import Path

import click

from saltbridge.cli.fault_text import tell_faults

EPILOG = """\b
Examples:
  saltbridge publish --to out
  saltbridge publish my-bank --to out
"""


@click.command("publish", epilog=EPILOG)
@click.argument("bank", required=False, type=click.Path(path_type=Path))
@click.option("--to", "to", metavar="DIR", required=True, type=click.Path(path_type=Path), help="The folder to write into.")
def command(bank: Path | None, to: Path) -> None:
    """Turn a bank into a practice site and papers.

    BANK is a folder of question templates; without it, the bank that comes with saltbridge. DIR/site is public, DIR/teacher
    is not: papers with their memoranda. A folder that saltbridge has not written is never overwritten.
    """
    from saltbridge.build import publish  # noqa: PLC0415 - --help starts without it
    from saltbridge.cli.progress import stages  # noqa: PLC0415 - --help starts without it

    with stages("Reading the bank") as tell:
        done = publish(bank, to, tell)
    tell_faults(done.warnings, prefix="Warning: ")
    click.echo(f"{_count(done.pages, 'page')} and {_count(done.papers, 'paper')} are ready.")
    click.echo(f"Open  {done.site / 'index.html'}  in a browser.")
    click.echo(f"Papers and memoranda, for the teacher only:  {done.teacher}")


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
