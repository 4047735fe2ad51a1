"""``saltbridge set``: a plan and a class list become papers, memorandum, marking grids and a record."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from saltbridge.cli.fault_text import tell_faults

if TYPE_CHECKING:
    from saltbridge.deliver.homework.class_set import ClassSet

EPILOG = """\b
Examples:
  saltbridge set week-3.yaml --to week-3
  saltbridge set week-3.yaml --look
  saltbridge set week-3.yaml --to week-3 --record week-3/record.zip
"""


@click.command("set", epilog=EPILOG)
@click.argument("plan", type=click.Path(path_type=Path))
@click.option("--to", "to", metavar="DIR", type=click.Path(path_type=Path), help="The folder to write into.")
@click.option("--look", is_flag=True, help="Show what would be set, and write nothing.")
@click.option(
    "--list", "class_list", metavar="FILE", type=click.Path(path_type=Path), help="The class list, in place of the plan's."
)
@click.option("--bank", metavar="DIR", type=click.Path(path_type=Path), help="The bank, in place of the plan's.")
@click.option("--record", metavar="FILE", type=click.Path(path_type=Path), help="The record of this set, to go on with it.")
@click.option("--again", metavar="CODE", multiple=True, help="Give the student of this paper other numbers: a second attempt.")
def command(
    plan: Path,
    to: Path | None,
    look: bool,
    class_list: Path | None,
    bank: Path | None,
    record: Path | None,
    again: tuple[str, ...],
) -> None:
    """Set homework for a class: a paper with its own numbers for each student.

    PLAN is a YAML file with a title, a class list and questions. First a table shows how far the questions go round; then DIR gets
    the papers, the memorandum and a marking grid of the class, key and list of marks, and the record, from which everything can be
    printed again.
    """
    if (to is None) != look:
        raise click.UsageError("Give either --to DIR to write the set, or --look to see what would be set.")
    from saltbridge.cli.progress import stages  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.homework.set_run import Wanted, make_set, prepare  # noqa: PLC0415 - --help starts without it

    wanted = Wanted(plan, class_list, bank, record, again)
    with stages("Reading the plan") as tell:
        if to is None:
            _show(prepare(wanted, tell))
            return
        notes = make_set(wanted, to, tell, _show)
    tell_faults(notes, prefix="Note: ")
    click.echo(f"The set is ready:  {to}")
    click.echo("Keep record.zip: every paper can be printed again from it. names.csv says whose is which; keep it apart.")


def _show(made: ClassSet) -> None:
    from saltbridge.deliver.homework.loads import table  # noqa: PLC0415 - --help starts without it

    click.echo(table(made.loads))
    tell_faults(made.notes, prefix="Note: ")
