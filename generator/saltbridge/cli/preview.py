"""``saltbridge preview``: a bank served on this machine while it is written."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import click

EPILOG = """\b
Examples:
  saltbridge preview my-bank
  saltbridge preview my-bank --open
"""


@click.command("preview", epilog=EPILOG)
@click.argument("bank", required=False, type=click.Path(path_type=Path))
@click.option(
    "--port", metavar="N", default=0, type=click.IntRange(0, 65_535), help="The port to serve at.  [default: a free one]"
)
@click.option("--open", "opened", is_flag=True, help="Open it in the browser.")
@click.option("--poll", is_flag=True, help="Look at the files again and again, where a network share tells of no change.")
def command(bank: Path | None, port: int, *, opened: bool, poll: bool) -> None:
    """Look at a bank while you write it: each template as page, paper and memorandum, made again when it is saved.

    BANK is a folder of question templates; without it, the bank that comes with saltbridge. It is served on this machine only, and
    nothing is written. Faults stand on the page, with file, line and cure. The arrow keys go through the drawn versions. Ctrl-C ends it.
    """
    from saltbridge.home import shipped  # noqa: PLC0415 - --help starts without it
    from saltbridge.preview.serving import served  # noqa: PLC0415 - the same

    folder = bank or shipped("question_templates")
    with served(folder, port, polling=poll) as preview:
        click.echo(f"The preview of {folder} is at  {preview.address}")
        click.echo("Save a template and its page is made again. Ctrl-C ends the preview.")
        if opened:
            click.launch(preview.address)
        with suppress(KeyboardInterrupt):
            preview.run()
    click.echo("The preview has ended.")
