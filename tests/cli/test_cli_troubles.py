"""What can go wrong around a command: each ends in words and an exit code, never in a traceback."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from types import SimpleNamespace

import pytest
from click.testing import CliRunner

from saltbridge.cli import main
from saltbridge.cli.fault_text import INTERRUPTED
from saltbridge.faults import Fault, Faulty

COMMAND = [sys.executable, "-c", "from saltbridge.cli import main; main(prog_name='saltbridge')"]
WRONG = ["work", "--given", "I = 1 V", "--find", "q"]


class Build:
    """Stands in for the stages below ``publish``: tells two stages, then raises or gives a result."""

    def __init__(self, outcome):
        self.outcome = outcome

    def publish(self, _bank, _to, tell):
        tell("Reading the bank")
        tell("Writing the site")
        if isinstance(self.outcome, BaseException):
            raise self.outcome
        return self.outcome


def published(monkeypatch, outcome):
    """What ``publish`` shows when the stages below end so."""
    monkeypatch.setitem(sys.modules, "saltbridge.build", Build(outcome))
    return CliRunner().invoke(main, ["publish", "bank", "--to", "out"])


TROUBLES = {
    "interrupted": (KeyboardInterrupt(), INTERRUPTED, "Stopped before it was done.\n"),
    "no permission": (
        PermissionError(13, "Permission denied", "out/site"), 1,
        "out/site: expected to read and write here; found permission denied [system]\n",
    ),
    "faults": (
        Faulty([
            Fault("unknown-key", "one of find, choose", "fnd", "Did you mean find?", "cells.yaml", 12, "parts[1].fnd"),
            Fault("no-text", "a text", "nothing", file="metals.yaml"),
        ]), 1,
        ("cells.yaml:12: parts[1].fnd: expected one of find, choose; found fnd. Did you mean find? [unknown-key]\n"
        "metals.yaml: expected a text; found nothing [no-text]\n"),
    ),
    "a message of several lines": (
        Faulty([Fault("yaml", "YAML", "a\nb\x1b[2J", key="k")]), 1, "k: expected YAML; found a b [2J [yaml]\n",
    ),
}  # fmt: skip


@pytest.mark.parametrize("trouble", TROUBLES)
def test_a_trouble_below_is_told_in_words(monkeypatch, trouble):
    raised, code, message = TROUBLES[trouble]
    shown = published(monkeypatch, raised)
    assert (shown.exit_code, shown.stdout) == (code, "")
    assert shown.stderr == "Reading the bank\nWriting the site\n" + message


def test_a_fault_of_our_own_is_told_with_its_place(monkeypatch):
    shown = published(monkeypatch, ZeroDivisionError("division by zero"))
    assert shown.exit_code == 1
    last = shown.stderr.splitlines()[-1]
    assert last.startswith("expected saltbridge to manage this; found ZeroDivisionError in test_cli_troubles.py line ")
    assert last.endswith(": division by zero. The fault is in saltbridge; please report this line. [own-fault]")


def test_publish_ends_by_saying_where_to_look(monkeypatch, tmp_path):
    warning = Fault("implausible", "a value near 0.34 V", "0.43 V", file="sheet.yaml", line=3)
    done = SimpleNamespace(site=tmp_path / "site", teacher=tmp_path / "teacher", pages=12, papers=1, warnings=(warning,))
    shown = published(monkeypatch, done)
    assert shown.exit_code == 0
    assert shown.stdout == (
        f"12 pages and 1 paper are ready.\nOpen  {tmp_path / 'site' / 'index.html'}  in a browser.\n"
        f"Papers and memoranda, for the teacher only:  {tmp_path / 'teacher'}\n"
    )
    assert shown.stderr == (
        "Reading the bank\nWriting the site\nWarning: sheet.yaml:3: expected a value near 0.34 V; found 0.43 V [implausible]\n"
    )


# ------------------------------------------------------------------ pipes and terminals


def test_a_reader_who_leaves_early_ends_the_command_quietly():
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run([*COMMAND, "work", "--list"], stdout=write, stderr=subprocess.PIPE, text=True, check=False)
    os.close(write)
    assert (done.returncode, done.stderr) == (0, "")


def test_a_full_disk_is_told():
    with open("/dev/full", "w", encoding="utf-8") as full:  # noqa: PTH123 - a device, not a file of ours
        done = subprocess.run([*COMMAND, "work", "--list"], stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert (done.returncode, done.stderr) == (1, "expected to read and write here; found no space left on device [system]\n")


def test_a_terminal_of_few_characters_gets_question_marks():
    done = subprocess.run(
        [*COMMAND, "work", "--given", "metal = Cu", "--find", "z"],
        capture_output=True, check=True, env={**os.environ, "PYTHONIOENCODING": "latin-1"},
    )  # fmt: skip
    assert b"Cu\xb2? + 2 e? ? Cu" in done.stdout


def _on_a_terminal(arguments, **environment):
    """What the command writes to a terminal as its stderr."""
    outer, inner = pty.openpty()
    settings = {name: value for name, value in os.environ.items() if name not in {"NO_COLOR", "TERM"}}
    subprocess.run(
        [*COMMAND, *arguments], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=inner, check=False,
        env={**settings, "TERM": "xterm-256color", **environment},
    )  # fmt: skip
    os.close(inner)
    shown = os.read(outer, 65_536).decode()
    os.close(outer)
    return shown


def test_the_place_of_a_fault_stands_out_on_a_terminal():
    assert _on_a_terminal(WRONG).startswith("\x1b[1mI = 1 V\x1b[0m: expected I in a unit")


def test_no_color_is_respected():
    assert "\x1b" not in _on_a_terminal(WRONG, NO_COLOR="1")


def test_no_colours_go_into_a_pipe():
    done = subprocess.run([*COMMAND, *WRONG], capture_output=True, text=True, check=False)
    assert done.stderr.startswith("I = 1 V: expected I in a unit")
