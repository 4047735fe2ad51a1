"""The command line starts with next to nothing, and says how it is used."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
from click.testing import CliRunner

from saltbridge import __version__
from saltbridge.cli import COMMANDS, main

HEAVY = {"pydantic", "rich", "pint", "sympy", "typst", "babel", "yaml", "jinja2", "markdown", "numpy"}
OURS = {"saltbridge", "saltbridge.cli", "saltbridge.cli.fault_text", "saltbridge.faults"}


def _modules_after(*arguments):
    """The modules that a fresh Python holds when the command is done."""
    script = (
        "import json, sys; from saltbridge.cli import main\n"
        f"try: main({list(arguments)!r})\n"
        "except SystemExit: pass\n"
        "print('\\n' + json.dumps(sorted(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return set(json.loads(done.stdout.splitlines()[-1]))


def test_the_help_loads_no_command_and_no_heavy_library():
    loaded = _modules_after("--help")
    assert {name for name in loaded if name.split(".")[0] == "saltbridge"} == OURS
    assert {name.split(".")[0] for name in loaded} & HEAVY == set()


def test_the_help_loads_little_beyond_click():
    bare = subprocess.run(
        [sys.executable, "-c", "import click, click.testing, json, sys; print(len(sys.modules))"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert len(_modules_after("--help")) <= int(bare.stdout) + 15


@pytest.mark.parametrize("command", sorted(COMMANDS))
def test_the_help_of_a_command_loads_that_command_only(command):
    loaded = _modules_after(command, "--help")
    ours = {name for name in loaded if name.split(".")[0] == "saltbridge"}
    assert ours - {"saltbridge.cli.progress"} == OURS | {f"saltbridge.cli.{command}"}
    assert {name.split(".")[0] for name in loaded} & HEAVY == set()


def test_the_help_names_every_command_and_shows_examples():
    shown = CliRunner().invoke(main, ["--help"])
    assert shown.exit_code == 0
    for name, purpose in COMMANDS.items():
        assert f"{name:<9}{purpose}" in shown.output
        assert f"  saltbridge {name} " in shown.output


def test_the_version():
    shown = CliRunner().invoke(main, ["--version"])
    assert (shown.exit_code, shown.output) == (0, f"saltbridge, version {__version__}\n")


WRONG_USE = {
    ("wrk",): "Error: There is no command 'wrk'. Did you mean work?\n",
    ("zzzz",): "Error: There is no command 'zzzz'. saltbridge --help lists them all.\n",
    ("work",): "Error: Say what is wanted with --find NAME; saltbridge work --list names it all.\n",
    ("work", "--know", "T = 310 K", "--find", "K"): "Error: --know is now called --given.\n",
    ("work", "--given", "T = 310 K", "--find", "K", "--shift-E0"): (
        "Error: --shift-E0 needs a cell diagram: it moves the E° of its couples.\n"
    ),
    ("publish",): "Error: Missing option '--to'.\n",
}


@pytest.mark.parametrize("arguments", WRONG_USE, ids=" ".join)
def test_wrong_use_ends_with_two(arguments):
    shown = CliRunner().invoke(main, list(arguments))
    assert (shown.exit_code, shown.stdout) == (2, "")
    assert shown.stderr.endswith("\n\n" + WRONG_USE[arguments])
