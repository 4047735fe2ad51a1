"""``saltbridge start``: a new bank with three questions, ready for an editor."""

from __future__ import annotations

from pathlib import Path

import click

EPILOG = """\b
Examples:
  saltbridge start new-bank
  saltbridge start my-bank --editor
"""


@click.command("start", epilog=EPILOG)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option(
    "--editor",
    is_flag=True,
    help="Set up the editor of a bank that is there, as after an update or for kinds of its own; no question is touched.",
)
def command(folder: Path, *, editor: bool) -> None:
    """Begin a bank in a new folder: settings, three questions with comments, and what an editor needs.

    An editor that reads JSON Schema for YAML completes and explains every key, and offers the names of each kind of scenario.
    """
    from saltbridge.deliver.new_bank import editor_again, new_bank  # noqa: PLC0415 - --help starts without it

    if editor:
        done = editor_again(folder)
        click.echo(f"The editor of {folder} is set up: {', '.join(done.files)}.")
        return
    done = new_bank(folder)
    questions = [name for name in done.files if "/" in name and name.endswith(".yaml")]
    click.echo(f"A bank with its settings, bank.yaml, and three questions to change: {', '.join(questions)}.")
    name = f'"{folder}"' if " " in str(folder) else str(folder)
    click.echo("Go on with")
    for next_ in (f"preview {name}", f"proof {name}", f"publish {name} --to out"):
        click.echo(f"  saltbridge {next_}")
