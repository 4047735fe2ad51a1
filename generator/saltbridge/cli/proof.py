"""``saltbridge proof``: every template of a bank drawn and checked, for a moderator."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click

EPILOG = """\b
Examples:
  saltbridge proof my-bank
  saltbridge proof my-bank/cells/two-metals.yaml
  saltbridge proof my-bank --draws 1000 --to moderator.html
  saltbridge proof my-bank --json > proof.json
  saltbridge proof my-bank --against last-year
"""
Done = Callable[[int, int], None]


@click.command("proof", epilog=EPILOG)
@click.argument("bank", required=False, type=click.Path(path_type=Path))
@click.option(
    "--draws",
    metavar="N",
    default=200,
    show_default=True,
    type=click.IntRange(1, 100_000),
    help="Variants drawn of each template.",
)
@click.option("--to", "to", metavar="FILE", type=click.Path(path_type=Path), help="Where the report goes.  [default: proof.html]")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON; a report is written only with --to.")
@click.option("--notes", is_flag=True, help="Show notes here too; the report always has them.")
@click.option(
    "--against", metavar="OLDBANK", type=click.Path(path_type=Path), help="Say instead what moved since another bank, and why."
)
@click.pass_context
def command(
    ctx: click.Context, bank: Path | None, draws: int, to: Path | None, as_json: bool, notes: bool, against: Path | None
) -> None:
    """Draw every template of a bank and check each variant, for a moderator.

    BANK is a folder of question templates, or one template or topic folder in it; without it, the bank that comes with saltbridge. The report is one HTML file. The exit
    code is 1 where there is any fault; warnings and notes do not change it.
    """
    from saltbridge.bank.part_of_bank import part_of_bank  # noqa: PLC0415 - --help starts without it
    from saltbridge.home import shipped  # noqa: PLC0415 - --help starts without it

    part = part_of_bank(bank or shipped("question_templates"))
    folder = part.folder
    if against is not None and part.templates is not None:
        raise click.UsageError("--against compares whole banks: give the bank's folder.")
    if against is not None:
        _compare(folder, against, draws, as_json=as_json)
        return
    from saltbridge.deliver.proof.json_report import proof_json  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.proof.proof_run import prove  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.proof.report import write_report  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.proof.summary import summary  # noqa: PLC0415 - --help starts without it

    start = time.perf_counter()
    with _progress(quiet=as_json) as tell:
        proof = prove(folder, draws, tell, only=part.templates)
    page = to or (None if as_json else Path("proof.html"))
    if page is not None:
        write_report(page, proof)
    click.echo(proof_json(proof) if as_json else _safe(summary(proof, notes=notes)))
    if page is not None and not as_json:
        click.echo(f"The report:  {page}")
    if not as_json:
        spent = time.perf_counter() - start
        rate = proof.variants / proof.seconds if proof.seconds else 0
        click.echo(f"{spent:.1f} s; {rate:.0f} variants a second on each core.", err=True)
    ctx.exit(1 if proof.weighing("fault") else 0)


def _compare(folder: Path, against: Path, draws: int, *, as_json: bool) -> None:
    from saltbridge.deliver.proof.compare import changes  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.proof.comparison_text import changes_json, changes_text  # noqa: PLC0415 - --help starts without it

    found = changes(folder, against, draws)
    click.echo(changes_json(found) if as_json else _safe(changes_text(found)))


def _safe(text: str) -> str:
    """The text without control characters but line ends, which a terminal would obey."""
    return "".join(mark if mark == "\n" or mark.isprintable() else " " for mark in text)


@contextmanager
def _progress(*, quiet: bool) -> Iterator[Done]:
    """A teller of draws on stderr: a bar on a terminal, else nothing but the start."""
    if quiet:
        yield lambda _done, _wanted: None
        return
    if not sys.stderr.isatty():
        click.echo("Drawing and checking", err=True)
        yield lambda _done, _wanted: None
        return
    from rich.progress import Progress  # noqa: PLC0415 - only for a terminal

    with Progress(transient=True) as bar:
        task = bar.add_task("Drawing and checking", total=None)
        yield lambda done, wanted: bar.update(task, completed=done, total=wanted)
