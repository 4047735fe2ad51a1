"""Each hostile bank and telling ends in its named fault within the guard, touches nothing outside and runs nothing."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from corpus_told import TOLD
from hostile_corpus import CASES

HERE = Path(__file__).parent
SLICES = 6


def _endings(folder: Path, number: int) -> dict[str, dict[str, Any]]:
    """The cases of a slice run by ``guarded.py`` in a process of its own: name → how it ended."""
    paths = os.pathsep.join(path for path in sys.path if path)
    done = subprocess.run(
        [sys.executable, str(HERE / "guarded.py"), str(folder), str(number), str(SLICES)],
        capture_output=True, text=True, check=False, env={**os.environ, "PYTHONPATH": paths, "PYTHONDONTWRITEBYTECODE": "1"}, cwd=folder,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr[-3000:]
    found: dict[str, dict[str, Any]] = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    return found


def _wrong(ending: dict[str, Any], code: str) -> Iterator[str]:
    """What is wrong with how a case ended."""
    said = ending["said"]
    if ending["exit"] != 1 or (f"[{code}]" if code else "]") not in said:
        yield f"not in its named fault {code}: exit {ending['exit']}, {said[:300]} {ending['raised']}"
    if "Traceback" in said or "[own-fault]" in said or "[tool-failed]" in said or ending["raised"]:
        yield f"in a traceback or a fault of the program: {said[:300]}"
    if ending["seen"]:
        yield f"with something touched outside, or run: {ending['seen'][:5]}"
    if "secret-of-the-neighbour" in said:
        yield "with a secret of the neighbour told"
    if ending.get("wrote"):
        yield "with something published"
    if any(not mark.isprintable() and mark != "\n" for mark in said):
        yield "with a mark that a terminal obeys"


@pytest.mark.parametrize("number", range(SLICES))
def test_every_hostile_case_ends_in_its_named_fault_and_does_no_harm(tmp_path, number):
    """A bank or telling ends with exit code 1 and its fault, and no traceback; the audit hook saw no file outside bank, output,
    program and libraries, no code from a text, no process, no socket; no escape reaches the terminal.

    In slices, so that no worker is held up by all of them.
    """
    codes = {case.name: case.code for case in CASES[number::SLICES]}
    codes |= {name: code for name, (_, code) in list(TOLD.items())[number::SLICES]}
    endings = _endings(tmp_path, number)

    assert endings.keys() == codes.keys()
    assert {name: wrong for name, each in endings.items() if (wrong := list(_wrong(each, codes[name])))} == {}


@pytest.mark.parametrize(
    ("spoiled", "told"),
    [
        ({"exit": 0}, "exit 0"),
        ({"said": "[another]"}, "not in its named fault"),
        ({"said": "Traceback [named]"}, "traceback"),
        ({"raised": "OSError()"}, "fault of the program"),
        ({"seen": ["open 'x'"]}, "touched outside"),
        ({"said": "[named] secret-of-the-neighbour"}, "secret"),
        ({"wrote": True}, "published"),
        ({"said": "[named] \x1b[2J"}, "terminal"),
    ],
)
def test_an_ending_that_does_harm_is_seen(spoiled, told):
    good = {"exit": 1, "said": "bank.yaml: [named]\n", "raised": "", "seen": [], "wrote": False}

    assert list(_wrong(good, "named")) == []
    assert told in " ".join(_wrong(good | spoiled, "named"))


def test_the_watch_sees_what_it_should(tmp_path):
    """The hook itself: a file beside, code from a text and a process are seen."""
    program = (
        "import sys, pathlib; sys.argv = ['x']; sys.path.insert(0, sys.path[0])\n"
        f"sys.path.insert(0, {str(HERE)!r})\n"
        "import guarded, subprocess\n"
        "watch = guarded.Watch()\n"
        "with guarded.watched(watch, pathlib.Path('mine')):\n"
        "    open('secret', 'w').close(); exec(compile('1', '<text>', 'exec')); subprocess.run(['true']); open('mine', 'w').close()\n"
        "print('\\n'.join(watch.seen))\n"
    )
    paths = os.pathsep.join(path for path in sys.path if path)
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": paths},
    )
    seen = done.stdout
    assert "open 'secret'" in seen
    assert "exec of <text>" in seen
    assert "subprocess.Popen" in seen
    assert "open 'mine'" not in seen


def test_there_are_more_than_four_hundred_cases_and_each_is_another():
    names = [*(case.name for case in CASES), *TOLD]
    assert len(names) > 400
    assert len(set(names)) == len(names)
