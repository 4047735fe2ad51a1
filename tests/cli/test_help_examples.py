"""Every example that a help shows runs as it stands, in a folder with the banks that it names."""

from __future__ import annotations

import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from homework.sets_for_tests import SECRET, write

from saltbridge.cli import COMMANDS, main
from saltbridge.home import shipped


def _examples(*command: str) -> list[list[str]]:
    """The words of each example of a help, lines joined; what goes on to a file is left to the shell."""
    shown = CliRunner().invoke(main, [*command, "--help"]).output.partition("Examples:")[2]
    lines = re.sub(r"\\\n\s*", "", shown).splitlines()
    return [shlex.split(line.partition(" > ")[0])[1:] for line in lines if line.strip().startswith("saltbridge ")]


PRACTICAL = Path(__file__).parents[1] / "deliver" / "bench" / "metals.yaml"
SMALL_BANK = ("bank.yaml", "cells/two-metals.yaml", "electrolysis/mass-deposited.yaml")
SHOWN = [words for command in ((), *((name,) for name in COMMANDS)) for words in _examples(*command)]
EXAMPLES = [list(words) for words in dict.fromkeys(map(tuple, SHOWN))]


def test_every_command_has_examples():
    assert {words[0] for words in EXAMPLES} == set(COMMANDS)
    assert len(SHOWN) >= 12


@pytest.fixture
def folder_of_banks(tmp_path, monkeypatch):
    """A folder with the banks that the examples name, each of two templates, where the shipped bank is small too."""
    for bank in ("my-bank", "last-year", "question_templates"):
        for file in SMALL_BANK:
            (tmp_path / bank / file).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(shipped("question_templates") / file, tmp_path / bank / file)
    write(tmp_path).rename(tmp_path / "week-3.yaml")
    shutil.copy(PRACTICAL, tmp_path)
    (tmp_path / "readings.csv").write_text("class,group,Zn/mV,Mg/mV\n10a,1,-750,-1350\n10b,1,-740,-1340\n", encoding="utf-8")
    monkeypatch.setattr("saltbridge.deliver.homework.set_run.new_secret", lambda: SECRET)
    monkeypatch.setattr("saltbridge.build.shipped", lambda name: tmp_path / name)
    monkeypatch.setattr("waitress.server.BaseWSGIServer.run", lambda _server: None)  # a preview would go on for ever
    monkeypatch.setattr("click.launch", lambda _address: 0)
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("words", EXAMPLES, ids=" ".join)
@pytest.mark.usefixtures("folder_of_banks")
def test_an_example_runs_as_it_stands(words):
    if "--withdraw" in words:
        CliRunner().invoke(main, ["sign", "two-metals", "--by", "A. Moderator", "--bank", "my-bank"])
    if "--record" in words:
        CliRunner().invoke(main, ["set", "week-3.yaml", "--to", "week-3"])
    done = CliRunner().invoke(main, words)
    assert (done.exit_code, done.exception) == (0, None) or (done.exit_code == 0 and isinstance(done.exception, SystemExit)), (
        done.output
    )


def test_python_itself_starts_it():
    """Where a school blocks programs that it does not know, ``python -m saltbridge`` is the way in."""
    started = subprocess.run([sys.executable, "-m", "saltbridge", "--version"], capture_output=True, text=True, check=True)
    assert started.stdout.startswith("saltbridge, version ")
