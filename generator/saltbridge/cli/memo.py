"""``saltbridge memo``: a memorandum of a set printed again from its record."""

from __future__ import annotations

from pathlib import Path

import click

from saltbridge.cli.fault_text import tell_faults

EPILOG = """\b
Examples:
  saltbridge memo W4R-ZD6L-R --record week-3/record.zip
"""


@click.command("memo", epilog=EPILOG)
@click.argument("code")
@click.option("--record", metavar="FILE", required=True, type=click.Path(path_type=Path), help="The record of the set.")
@click.option(
    "--to", "to", metavar="FILE", type=click.Path(path_type=Path), help="Where the PDF goes.  [default: CODE-memorandum.pdf]"
)
def command(code: str, record: Path, to: Path | None) -> None:
    """Print the memorandum of a paper again.

    CODE stands at the foot of every page of the paper. The memorandum shows every answer with its working, and carries the version
    that the record has.
    """
    from saltbridge.deliver.homework.rebuilt import rebuilt, write_pdf  # noqa: PLC0415 - --help starts without it

    found, printed = rebuilt(record, code, memorandum=True)
    place = to or Path(f"{found}-memorandum.pdf")
    write_pdf(place, printed)
    tell_faults(printed.notes, prefix="Note: ")
    click.echo(f"The memorandum:  {place}")
