"""The command line: one file a command, each loaded only when it is called, so that ``saltbridge --help`` starts at once.

Exit codes: 0 done; 1 the bank or what was told has faults, all listed, or the wanted thing can't be derived; 2 wrong use;
130 stopped by the keyboard, 143 ended by the system, as shells expect.
"""

from __future__ import annotations

import importlib
from typing import Any

import click

from saltbridge import __version__
from saltbridge.cli.fault_text import INTERRUPTED, guarded
from saltbridge.faults import nearest

# What each command does, kept here so that the list of commands loads none of them.
COMMANDS = {
    "start": "Begin a bank, with three questions to change.",
    "preview": "Look at a bank while you write it.",
    "publish": "Turn a bank into a practice site and papers.",
    "set": "Set homework for a class, each paper with numbers of its own.",
    "paper": "Print a paper of a set again from its record.",
    "memo": "Print a memorandum of a set again from its record.",
    "proof": "Draw and check every template of a bank, for a moderator.",
    "sign": "Sign a template as it stands.",
    "bench": "Plan the metals practical, and read what a class measured.",
    "names": "List the names that a template of a kind may use.",
    "work": "Derive one quantity and show the working.",
}
EPILOG = """\b
Examples:
  saltbridge start new-bank
  saltbridge preview my-bank
  saltbridge publish --to out
  saltbridge set week-3.yaml --to week-3
  saltbridge paper W4R-ZD6L-R --record week-3/record.zip
  saltbridge memo W4R-ZD6L-R --record week-3/record.zip
  saltbridge proof my-bank
  saltbridge sign two-metals --by "Head of department" --bank my-bank
  saltbridge bench plan metals.yaml --to sheets
  saltbridge names "salt bath"
  saltbridge work "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)" --find E_cell
"""


class _Commands(click.Group):
    """The commands by name, loaded when called; whatever goes wrong in one is told in words."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - the signature is that of click
        """The names of all commands."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 - the signature is that of click
        """The command of a name, or ``None``."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = importlib.import_module(f"saltbridge.cli.{cmd_name}").command
        return command

    def resolve_command(self, ctx: click.Context, args: list[str]) -> tuple[str | None, click.Command | None, list[str]]:
        """The command named first; an unknown one is told with the nearest name."""
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            ctx.fail(f"There is no command {args[0]!r}. {nearest(args[0], COMMANDS) or 'saltbridge --help lists them all.'}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 - the signature is that of click
        """Write the list of commands from the table above."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def make_context(
        self, info_name: str | None, args: list[str], parent: click.Context | None = None, **extra: Any
    ) -> click.Context:
        """Read the arguments; Ctrl-C ends a run that early as it ends one later."""
        try:
            return super().make_context(info_name, args, parent, **extra)
        except KeyboardInterrupt:
            raise click.exceptions.Exit(INTERRUPTED) from None

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; faults, interruptions and the system's refusals become words and an exit code."""
        return guarded(ctx, super().invoke)


@click.group(
    cls=_Commands,
    epilog=EPILOG,
    no_args_is_help=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="saltbridge")
def main() -> None:
    """Work with a bank of electrochemistry questions in which every number is computed."""
