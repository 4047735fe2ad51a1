"""``saltbridge paper``: a paper of a set printed again from its record."""

from __future__ import annotations

from pathlib import Path

import click

from saltbridge.cli.fault_text import tell_faults

EPILOG = """\b
Examples:
  saltbridge paper W4R-ZD6L-R --record week-3/record.zip
  saltbridge paper W4R-ZD6L-R --record week-3/record.zip --print-size 18 --to large.pdf
"""


@click.command("paper", epilog=EPILOG)
@click.argument("code")
@click.option("--record", metavar="FILE", required=True, type=click.Path(path_type=Path), help="The record of the set.")
@click.option("--to", "to", metavar="FILE", type=click.Path(path_type=Path), help="Where the PDF goes.  [default: CODE.pdf]")
@click.option("--name", metavar="NAME", default="", help="The name to print; without it, the number.")
@click.option("--print-size", type=click.Choice(["11", "18", "24", "36"]), help="The size of print in points.")
@click.option("--paper", "sheet", type=click.Choice(["a4", "us-letter", "a3"]), help="The size of paper.")
def command(code: str, record: Path, to: Path | None, name: str, print_size: str | None, sheet: str | None) -> None:
    """Print a paper of a set again.

    CODE stands at the foot of every page. The paper has the same questions and numbers as the first time, whatever has become of the
    bank since.
    """
    from saltbridge.deliver.homework.rebuilt import rebuilt, write_pdf  # noqa: PLC0415 - --help starts without it

    found, printed = rebuilt(record, code, memorandum=False, name=name, print_size=int(print_size or 0), paper=sheet or "")
    place = to or Path(f"{found}.pdf")
    write_pdf(place, printed)
    tell_faults(printed.notes, prefix="Note: ")
    click.echo(f"The paper:  {place}")
