"""``saltbridge work``: derive one quantity and show the working."""

from __future__ import annotations

import json
import shutil
import sys
from pathlib import Path

import click
from click.core import ParameterSource

EPILOG = """\b
Examples:
  saltbridge work "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)" --find E_cell
  saltbridge work --given "I = 2.50 A" --given "t = 30 min" --given "metal = Cu" --find m
  saltbridge work "Zn(s) | Zn^2+(aq, ?) || Cu^2+(aq, 1.0) | Cu(s)" \\
      --given "E_cell = 1.13 V" --find c_anode
  saltbridge work --list
"""
_WIDEST, _NARROWEST, _USUAL = 100, 40, 80


@click.command("work", epilog=EPILOG)
@click.argument("diagram", required=False)
@click.option(
    "--given", multiple=True, metavar="'NAME = VALUE'", help="A quantity, potential or concentration; repeat as needed."
)
@click.option("--know", "old", multiple=True, hidden=True)
@click.option("--find", metavar="NAME", help="What is wanted, such as E_cell, anode, equation or m.")
@click.option("--in", "unit", metavar="UNIT", help="The unit of the answer, such as kJ/mol.")
@click.option("--sheet", metavar="NAME", default="college", show_default=True, help="The data sheet that values are read from.")
@click.option(
    "--bank", metavar="DIR", type=click.Path(path_type=Path), help="A bank whose own sheet, couples and relations count."
)
@click.option("--shift-E0", "shift_E0", is_flag=True, help="Move E° from 25 °C to the temperature given.")
@click.option("--json", "as_json", is_flag=True, help="Print plain data instead of a working.")
@click.option("--list", "listing", is_flag=True, help="Print what can be given and found.")
@click.pass_context
def command(
    ctx: click.Context,
    diagram: str | None,
    given: tuple[str, ...],
    old: tuple[str, ...],
    find: str | None,
    unit: str | None,
    sheet: str,
    bank: Path | None,
    shift_E0: bool,
    as_json: bool,
    listing: bool,
) -> None:
    """Derive one quantity of a cell, or from quantities given, and show the working.

    DIAGRAM is the cell as chemists write it, electrodes at the ends. A species without a concentration is at standard
    activity; ? is an unknown, found as c_anode or c_cathode (p_anode, p_cathode for a gas).
    """
    if listing:
        from saltbridge.api import known_names  # noqa: PLC0415 - --help starts without it

        click.echo(known_names(bank))
        return
    if old:
        raise click.UsageError("--know is now called --given.", ctx)
    if not find:
        raise click.UsageError("Say what is wanted with --find NAME; saltbridge work --list names it all.", ctx)
    if bank and ctx.get_parameter_source("sheet") is not ParameterSource.DEFAULT:
        raise click.UsageError("A bank has its own data sheet: leave out --sheet or --bank.", ctx)
    if shift_E0 and not diagram:
        raise click.UsageError("--shift-E0 needs a cell diagram: it moves the E° of its couples.", ctx)
    from saltbridge.api import working_out  # noqa: PLC0415 - --help starts without it

    done = working_out(diagram, given, find, unit, sheet, shift_E0=shift_E0, bank=bank)
    if as_json:
        click.echo(json.dumps(done.data, ensure_ascii=False, indent=2, allow_nan=False))
        return
    click.echo(done.text(width=_width(), answer=lambda text: click.style(text, bold=True)))


def _width() -> int:
    """The columns of the terminal within reason; 80 where the output goes elsewhere."""
    if not sys.stdout.isatty():
        return _USUAL
    return max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size().columns))
