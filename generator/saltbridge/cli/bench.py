"""``saltbridge bench``: the metals practical, before and after the lesson."""

from __future__ import annotations

from pathlib import Path

import click

EPILOG = """\b
Examples:
  saltbridge bench plan metals.yaml --to sheets
  saltbridge bench results readings.csv --plan metals.yaml --to report
"""
_FILE = click.Path(path_type=Path)


@click.group("bench", epilog=EPILOG)
def command() -> None:
    """Plan the metals practical, and read what a class measured."""


@command.command("plan")
@click.argument("practical", type=_FILE)
@click.option("--to", "to", metavar="DIR", required=True, type=_FILE, help="The folder to write into.")
@click.option(
    "--bank", metavar="DIR", type=_FILE, help="The bank whose language, data sheet and paper are used; without it, ours."
)
def plan(practical: Path, to: Path, bank: Path | None) -> None:
    """Write worksheet, technician's list and notes on risks for the practical of the file PRACTICAL.

    The file holds your school's own words on safety; without them nothing is made.
    """
    from saltbridge.deliver.bench.bench_plan import write_plan  # noqa: PLC0415 - --help starts without it

    for name in write_plan(practical, to, bank):
        click.echo(to / name)


@command.command("results")
@click.argument("readings", type=_FILE)
@click.option("--plan", "plan", metavar="FILE", required=True, type=_FILE, help="The practical that the readings belong to.")
@click.option("--to", "to", metavar="DIR", required=True, type=_FILE, help="The folder to write into.")
@click.option(
    "--bank", metavar="DIR", type=_FILE, help="The bank whose language, data sheet and paper are used; without it, ours."
)
def results(readings: Path, plan: Path, to: Path, bank: Path | None) -> None:
    """Write a report of what a class read, and questions made from it.

    READINGS is a CSV or XLSX file: a column `group`, and a column for each metal with its unit, such as `Zn/mV`.
    """
    from saltbridge.deliver.bench.bench_results import write_results  # noqa: PLC0415 - --help starts without it

    done = write_results(readings, plan, to, bank)
    for name in done.files:
        click.echo(to / name)
    click.echo(f"{done.flagged} of the readings look wrong; the report says why. None was dropped without a word.")
    if not done.questions:
        click.echo("No questions were made: they need three metals read by three groups each.")
