"""``saltbridge names``: what a template of a kind of scenario may print, find, choose, order, balance and draw."""

from __future__ import annotations

import json
from pathlib import Path

import click

EPILOG = """\b
Examples:
  saltbridge names
  saltbridge names "salt bath"
  saltbridge names "galvanic cell" --bank my-bank
  saltbridge names electrolysis --json
"""


@click.command("names", epilog=EPILOG)
@click.argument("scenario", required=False)
@click.option(
    "--bank", metavar="DIR", type=click.Path(path_type=Path), help="A bank whose own kinds, relations and templates count."
)
@click.option("--json", "as_json", is_flag=True, help="Print plain data, with the hint of each common error.")
def command(scenario: str | None, bank: Path | None, as_json: bool) -> None:
    """List the names that a template may use: what a kind of scenario lets it print, find, choose, order, balance and draw.

    SCENARIO is the kind, as a template writes it; without it, all kinds are listed, a line each.
    """
    from saltbridge.bank.names_in_bank import kinds_listing, names_listing  # noqa: PLC0415 - --help starts without it

    found = names_listing(scenario, bank) if scenario else kinds_listing(bank)
    click.echo(json.dumps(found.data, ensure_ascii=False, indent=2, allow_nan=False) if as_json else found.text)
